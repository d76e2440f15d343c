import { PRACTICE, type Rule, type WrittenChange } from '../rule.js';

/** Openings as the trade's defaults have them. The shipwright may change each with a written reason. */
export const OPENING_RULES = {
  neighbourFrames: {
    key: 'neighbour-frames',
    says: 'never two neighbouring frames out at once on one side',
    value: 1,
    origin: PRACTICE,
  },
  frameRun: {
    key: 'frame-run',
    says: 'at most one frame out in any three that stand in a row on one side',
    value: { atMost: 1, of: 3 },
    origin: PRACTICE,
  },
  strakeRun: {
    key: 'strake-run',
    says: 'at most three, with the shipwright’s word four, neighbouring strakes open at one station without ribbands; more only with ribbands, braces and daily readings, to a number that the shipwright writes',
    value: { without: 3, mostWithout: 4 },
    origin: PRACTICE,
  },
  bothSides: {
    key: 'both-sides',
    says: 'a strake is not open to port and starboard at one station together',
    value: 1,
    origin: PRACTICE,
  },
  keepClosed: {
    key: 'last-or-alone',
    says: 'sheer strake, bilge strakes and garboard are opened last or alone: not together with any other plank of their side that lies over the same frames',
    value: ['garboard', 'bilge', 'sheer'],
    origin: PRACTICE,
  },
  shoresWithin: {
    key: 'shores-within',
    says: 'shores stand within one frame space of an opening at both ends before bolts are cut',
    value: 1,
    origin: PRACTICE,
  },
} as const satisfies Record<string, Rule<unknown>>;

/** A strake run of more than four is only for where ribbands stand; the number is the shipwright's own, in writing. */
export interface OpeningSettings {
  neighbourFrames?: WrittenChange<number>;
  frameRun?: WrittenChange<{ atMost: number; of: number }>;
  strakeRun?: WrittenChange<{ atMost: number }> & { ribbandsStand: boolean };
  bothSides?: WrittenChange<number>;
  keepClosed?: WrittenChange<('garboard' | 'bilge' | 'sheer')[]>;
}
