import { fromMemory, PRACTICE, type Rule } from '../rule.js';

export const JOINT_RULES = {
  shift: {
    key: 'joint-shift',
    says: 'a joint in one layer of a double frame lies at least a third of the futtock that runs past it from that futtock’s own joints',
    value: 1 / 3,
    origin: PRACTICE,
  },
  shiftByDepth: {
    key: 'joint-shift-by-depth',
    says: 'or, read by depth, joints of the two layers lie at least 3 times the moulded depth apart',
    value: 3,
    origin: PRACTICE,
  },
  leastRemaining: {
    key: 'least-remaining-length',
    says: 'what is left of a cut futtock is at least 4 times the moulded depth long',
    value: 4,
    origin: PRACTICE,
  },
  fullBeyondScarf: {
    key: 'full-beyond-scarf',
    says: 'beyond a scarf the old piece has its full section for at least its own moulded depth',
    value: 1,
    origin: PRACTICE,
  },
  intoSoundWood: {
    key: 'into-sound-wood',
    says: 'a new joint is cut at least 6 in into sound wood',
    value: 6,
    origin: PRACTICE,
  },
  withinReach: {
    key: 'joint-within-reach',
    says: 'an original joint up to 24 in past the decay is used in place of a new cut',
    value: 24,
    origin: PRACTICE,
  },
  scarf: {
    key: 'scarf-slope',
    says: 'glued scarfs 8 to 1, 12 to 1 where highly loaded; bolted keel scarfs 6 times the depth',
    value: { glued: 8, 'glued, highly loaded': 12, 'bolted, keel type': 6 },
    origin: fromMemory('NVIC 7-95, chapter 5.F, and usual rules'),
  },
} satisfies Record<string, Rule<unknown>>;
