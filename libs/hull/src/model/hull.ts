import { type Millimetres } from '../measure.js';
import { type HullOutline } from './outline.js';
import { type Layer, type Side, type Skin } from './names.js';

/** The hull with every element named. Built from an outline by `buildHull`; plain data, to be read only. */
export interface Hull {
  outline: HullOutline;
  frames: Frame[];
  /** Planking and ceiling, both sides. */
  planks: Plank[];
  /** Distance of each frame from frame 1, by frame number; entry 0 is not used. */
  stations: Millimetres[];
  /** True where room and space is not the same throughout. */
  unevenSpacing: boolean;
}

/**
 * One frame on one side: two layers of pieces whose joints are shifted.
 *
 *     forward   | floor      |      second futtock      |  fourth  |
 *     aft       |      first futtock     |     third futtock       |
 *               0 (rabbet)            strakes upwards          head
 */
export interface Frame {
  key: string;
  name: string;
  number: number;
  side: Side;
  head: number;
  moulded: { heel: Millimetres; head: Millimetres };
  pieces: FramePiece[];
  joints: FrameJoint[];
  bolts: Bolt[];
}

export interface FramePiece {
  key: string;
  name: string;
  frame: number;
  side: Side;
  layer: Layer;
  /** 0 is the floor timber, which lies across the keel and belongs to both sides. */
  number: number;
  /** Heights of its two ends, in strakes. */
  from: number;
  to: number;
}

export interface FrameJoint {
  key: string;
  name: string;
  frame: number;
  side: Side;
  layer: Layer;
  at: number;
  /** Keys of the pieces that meet. */
  below: string;
  above: string;
}

/** `holds` are the keys of two pieces, or a piece and a member's name. */
export interface Bolt {
  key: string;
  frame: number;
  side: Side;
  at: number;
  kind: 'joint' | 'member';
  holds: [string, string];
}

export interface Plank {
  key: string;
  name: string;
  skin: Skin;
  side: Side;
  strake: number;
  /** From forward, 1 upwards. */
  number: number;
  firstFrame: number;
  lastFrame: number;
  /** Heights of its edges, in strakes of the planking. */
  from: number;
  to: number;
  width: Millimetres;
  thickness: Millimetres;
}

/** Where a plank meets a frame: how many fastenings go into each layer, and into which piece there. */
export interface Crossing {
  plank: Plank;
  frame: Frame;
  fastenings: Record<Layer, number>;
  pieces: Record<Layer, FramePiece | null>;
}
