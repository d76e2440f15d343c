import type { Care } from '@ribband/hull';
import type { PictureType } from '../pictures/clean-picture.js';
import type { PieceFace, PieceFate, PieceHeading } from '../pieces/piece-words.js';
import type { RepairVerdict } from '../trays/plank-repair.entity.js';
import type { GradedHole, TrayLine } from '../trays/tray-line.js';
import type { FrameCount } from '../trays/tray.entity.js';

/** What came off and finds its way back: fastenings in their trays, pieces on their tags. */
export interface CameOffDocument {
  lots: LotDocument[];
  trays: TrayDocument[];
  /** Choices of care, oldest first. */
  care: { fastening: string; care: Care; reason: string; by: string; on: string }[];
  pieces: PieceDocument[];
}

interface LotDocument {
  ref: string;
  name: string;
  fastening: string;
  size: string;
  count: number;
  source: string;
  priceCents: number | null;
  cameOn: string;
}

export interface TrayDocument {
  ref: string;
  name: string;
  element: string;
  place: string;
  fastening: string;
  inPlace: number;
  frames: FrameCount[];
  /** Refs of the tasks; a task of that name need not be there. */
  pullTask: string | null;
  driveTask: string | null;
  /** Those that count, oldest first; corrections are worked in. Their tallies stand among the tallies. */
  entries: TrayEntryDocument[];
  repairs: {
    count: number;
    verdict: RepairVerdict;
    task: string | null;
    reason: string | null;
    by: string;
    on: string;
  }[];
}

export interface TrayEntryDocument {
  on: string;
  by: string;
  frame: number | null;
  lines: TrayLine[];
  holes: GradedHole[];
  counted: number | null;
  lot: string | null;
  note: string | null;
}

export interface PieceDocument {
  /** As it stands on its tag. */
  code: string;
  name: string;
  element: string | null;
  place: string;
  face: PieceFace | null;
  heading: PieceHeading | null;
  fate: PieceFate;
  keptAt: string | null;
  cameOffOn: string | null;
  notes: { on: string; by: string; words: string }[];
  pictures: PictureDocument[];
}

export interface PictureDocument {
  /** SHA-256 of the bytes. */
  hash: string;
  type: PictureType;
  width: number;
  height: number;
  byteCount: number;
  caption: string | null;
  by: string;
  /** Null where the document had no room for it: a yard that has it already keeps it. */
  base64: string | null;
}

export const nothingCameOff: CameOffDocument = { lots: [], trays: [], care: [], pieces: [] };

/** The most characters of pictures that a document carries: what can be read in again in one go. */
export const mostInlineCharacters = 2_000_000;
