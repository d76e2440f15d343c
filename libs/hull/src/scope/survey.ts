import { type Side } from '../model/names.js';
import { type ScarfKind } from '../framing/scarfs.js';
import { type Counts } from '../methods/method.js';

/** What the survey found, by ranges: what it does not name is sound. */
export interface Survey {
  frames: FrameFinding[];
  planks: PlankFinding[];
  causes: Cause[];
}

/**
 * A finding on futtocks of neighbouring frames of one side; the floor timber is number 0.
 * - renew: the piece comes out; with `decay`, only as far as the decay and the rules for joints ask;
 * - new joint: cut at `at`, decided by the shipwright, the part above comes out (below, with `part: 'below'`);
 * - scarf: the same, with a scarf of that kind that reaches into the wood that stays;
 * - sister: isolated damage, a frame is laid beside it;
 * - doubtful: looked at again when it is open.
 */
export type FrameFinding = {
  frames: [first: number, last: number];
  side: Side;
  /** Numbers of the pieces. */
  pieces: number[];
  /** Key of its cause, where it is decay. */
  cause: string | null;
  counts?: Counts;
} & (
  | { finding: 'doubtful' | 'sister' }
  | { finding: 'renew'; decay?: { from: number; to: number } }
  | { finding: 'new joint'; at: number; part: 'above' | 'below'; why: string; decidedBy: string }
  | {
      finding: 'scarf';
      scarf: ScarfKind;
      at: number;
      part: 'above' | 'below';
      why: string;
      decidedBy: string;
    }
);

export interface PlankFinding {
  /** Key of the plank. */
  plank: string;
  finding: 'doubtful' | 'renew';
  cause: string | null;
}

/** Why it rotted. Without a task of its own the repair is temporary, and says so. */
export interface Cause {
  key: string;
  name: string;
  hasTask: boolean;
}
