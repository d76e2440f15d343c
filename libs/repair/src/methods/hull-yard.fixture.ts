import { STARTING_BOOK } from '@ribband/hull';
import type { Finding, SurveyDocument } from '../survey/survey-shape.js';
import type { MethodsDocument } from './methods-shape.js';

const words = (kind: 'seats' | 'tools' | 'cards'): string[] => [
  ...new Set(
    STARTING_BOOK.methods.flatMap(({ steps }) =>
      steps.flatMap((step) => {
        if (kind === 'tools') return step.tools.map(({ tool }) => tool);
        if (kind === 'cards') return [...step.cards, ...step.seats.flatMap(({ cards }) => cards)];
        return step.seats.map(({ skill }) => skill);
      }),
    ),
  ),
];

const all = (list: string[], ref: string): Record<string, string> =>
  Object.fromEntries(list.map((word) => [word, ref]));

/** The book that a yard starts with, every word of it said in the few words of the small yard. */
export const startingMethods: MethodsDocument = {
  minutesATurnout: 300,
  book: STARTING_BOOK,
  names: {
    skills: all(words('seats'), 'journey'),
    tools: all(words('tools'), 'ship-saw'),
    cards: all(words('cards'), 'fire-watch'),
  },
  ownTasks: { 'vessel-launch': 'launch' },
  leftOut: { tasks: [], links: [] },
};

const looked = { by: 'Odalys Brenn', on: '2026-10-17', note: null };

export const renew = (first: number, last: number, pieces = [3, 4]): Finding => ({
  frames: [first, last],
  side: 'starboard',
  pieces,
  condition: 'renew',
  cause: 'deck-edge',
  ...looked,
});

export const sound = (first: number, last: number, pieces = [3, 4]): Finding => ({
  ...renew(first, last, pieces),
  condition: 'sound',
  cause: null,
});

/** Frames that are decayed at the heads, with everything chosen and written that is wanted for it. */
export const surveyOf = (findings: Finding[]): SurveyDocument => ({
  causes: [{ key: 'deck-edge', name: 'Deck edge', hasTask: true }],
  findings,
  choices: {
    aim: 'fewest planks',
    ceiling: 'strip in way',
    stayOverHead: 2,
    stays: [],
    offAnyway: [],
    inspectionStrake: null,
    by: 'Odalys Brenn',
    reason: 'We want to see the frames from both sides.',
    openings: {
      strakeRun: {
        value: { atMost: 6 },
        ribbandsStand: true,
        by: 'Odalys Brenn',
        reason: 'Ribbands and braces stand, and the shape is read daily.',
      },
    },
  },
});
