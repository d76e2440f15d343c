import { type Millimetres } from '../measure.js';
import { type Layer, type Side } from './names.js';
import { type WidthRule } from './width-rule.js';

/**
 * A hull as a crew can write it down in five minutes: counts, patterns, and what differs from them.
 * Heights up the shell are counted in strakes from the rabbet: 0 is the rabbet, 8.3 is a third up strake 9.
 * Bay b is the space between frames b and b + 1; frames count from forward.
 */
export interface HullOutline {
  frames: {
    count: number;
    /** From the middle of one frame to the middle of the next. */
    roomAndSpace: Millimetres;
    /** Fore-and-aft size of one of the two layers. */
    sided: Millimetres;
    /** In-and-out size at the two ends; it tapers evenly between. */
    moulded: { heel: Millimetres; head: Millimetres };
    /** Where frames end, in strakes. */
    head: number;
    /** The layer in which the floor timber lies. */
    floorLayer: Layer;
    /** Heights of the joints in each layer, upwards. */
    joints: Record<Layer, number[]>;
    /** Bolts through the two layers on each side of a joint. */
    boltsEachSideOfJoint: number;
  };
  strakes: {
    count: number;
    width: Millimetres;
    thickness: Millimetres;
    butts: Record<Side, ButtPattern>;
    /** Strakes at the turn of the bilge. The garboard is 1, the sheer strake the last. */
    bilge: number[];
  };
  ceiling: {
    strakes: number;
    /** The ceiling covers the frames between these heights, its strakes of equal width. */
    from: number;
    to: number;
    thickness: Millimetres;
    /** Nails of a ceiling plank at each frame. */
    nails: number;
    buttBays: number[];
  };
  /** Fore-and-aft timbers bolted to the frames inside: clamp, stringers, keelson. */
  members: { name: string; at: number; width: Millimetres; boltsAtFrame: number }[];
  nailing: WidthRule;
  exceptions?: Exception[];
}

/** First butt of each strake, repeated over the strakes, then a butt every so many frames. */
export interface ButtPattern {
  first: number[];
  every: number;
  /** No butt that leaves fewer frames than this to the stern. */
  leaveAft: number;
}

export type Exception =
  | {
      frames: [first: number, last: number];
      side?: Side;
      joints?: Record<Layer, number[]>;
      head?: number;
      moulded?: { heel: Millimetres; head: Millimetres };
      /** Distance from each of these frames to the next one aft. */
      space?: Millimetres;
    }
  | {
      strakes: [first: number, last: number];
      side?: Side;
      width?: Millimetres;
      thickness?: Millimetres;
      buttBays?: number[];
      /** Nails at each frame where they are not what the width rule says. */
      nailsAtFrame?: number;
      /** A stealer or a short strake runs only over these frames. */
      over?: [firstFrame: number, lastFrame: number];
    };
