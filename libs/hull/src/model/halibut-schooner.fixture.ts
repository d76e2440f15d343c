import { inches } from '../measure.js';
import { type HullOutline } from './outline.js';
import { NAILS_PER_DOUBLE_FRAME } from './width-rule.js';

/** An invented halibut schooner of 1913: 44 double-sawn frames, 19 strakes a side, written down by counts. */
export const SCHOONER: HullOutline = {
  frames: {
    count: 44,
    roomAndSpace: inches(20),
    sided: inches(4.5),
    moulded: { heel: inches(9), head: inches(6) },
    head: 16,
    floorLayer: 'forward',
    joints: { forward: [4.3, 12.3], aft: [8.3] },
    boltsEachSideOfJoint: 2,
  },
  strakes: {
    count: 19,
    width: inches(8),
    thickness: inches(2.375),
    butts: {
      starboard: { first: [4, 8, 5, 9], every: 9, leaveAft: 8 },
      port: { first: [8, 5, 9, 4], every: 9, leaveAft: 8 },
    },
    bilge: [5, 6],
  },
  ceiling: { strakes: 14, from: 2, to: 14, thickness: inches(1.75), nails: 2, buttBays: [3, 11, 19, 27, 35] },
  members: [
    { name: 'clamp', at: 15, width: inches(12), boltsAtFrame: 2 },
    { name: 'keelson', at: 0.5, width: inches(12), boltsAtFrame: 2 },
  ],
  nailing: NAILS_PER_DOUBLE_FRAME,
};
