import { type ScopeChoices } from './scope-of-survey.js';
import { type Survey } from './survey.js';

/** The survey of the invented schooner: eight frames starboard decayed from their heads to the first futtock. */
export const DEMO_SURVEY: Survey = {
  frames: [{ frames: [12, 19], side: 'starboard', pieces: [3, 4], finding: 'renew', cause: 'deck-edge' }],
  planks: [],
  causes: [{ key: 'deck-edge', name: 'deck edge leaks over frames 12 to 19 starboard', hasTask: true }],
};

export const DEMO_CHOICES: ScopeChoices = {
  aim: 'fewest planks',
  ceiling: 'strip in way',
  inspectionStrake: 'ceiling-8-plank-3-starboard',
};
