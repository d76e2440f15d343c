import type { FrameCell, PlankCell, ShellSide } from './hull.question.js';

/** A piece of the map as it is drawn, in units of which the drawing is 1000 wide. */
export interface Cell {
  key: string;
  name: string;
  row: number;
  x: number;
  y: number;
  width: number;
  height: number;
  standing: PlankCell['standing'];
  /** What is written at it where there is room. */
  label: string;
}

export interface Drawing {
  height: number;
  planks: Cell[];
  frames: Cell[];
  /** Frames behind the planks: seen where a plank is off. */
  ribs: {
    key: string;
    x: number;
    width: number;
    top: number;
    bottom: number;
    standing: FrameCell['standing'];
  }[];
  strakes: { number: number; y: number }[];
}

const width = 1000;
const margin = 44;
const strakeHeight = 25;
const frameStrip = 34;
const gap = 14;
const ribMillimetres = 229;

/**
 * Lays one side out between two places along her length: strakes upwards, each as high as the others, frames as a
 * strip below. Forward is to the left on both sides, so that the same frame lies over the same frame.
 */
export function drawSide(
  { planks, frames, height }: ShellSide,
  skin: PlankCell[],
  span: { from: number; to: number },
): Drawing {
  const scale = (width - margin) / (span.to - span.from);
  const x = (at: number): number => margin + (at - span.from) * scale;
  const strakes = [...new Set(skin.map((plank) => plank.strake))].sort((a, b) => b - a);
  const shell = strakes.length * strakeHeight;
  const isIn = (left: number, right: number): boolean => right > span.from && left < span.to;
  const cells = skin
    .filter((plank) => isIn(plank.left, plank.right))
    .map((plank) => {
      const left = x(Math.max(plank.left, span.from));
      const row = strakes.indexOf(plank.strake);
      return {
        key: plank.key,
        name: plank.name,
        row,
        x: left,
        y: row * strakeHeight,
        width: x(Math.min(plank.right, span.to)) - left,
        height: strakeHeight,
        standing: plank.standing,
        label: '',
      };
    });
  const shown = frames.filter((frame) => isIn(frame.x - 1, frame.x + 1));
  const pitch = shown.length > 1 ? ((shown.at(-1)?.x ?? 0) - (shown[0]?.x ?? 0)) / (shown.length - 1) : width;
  const box = pitch * scale;
  const highest = Math.max(height, ...planks.map((plank) => plank.high));
  return {
    height: shell + gap + frameStrip,
    planks: cells.sort((a, b) => a.row - b.row || a.x - b.x),
    frames: shown.map((frame) => ({
      key: frame.key,
      name: frame.name,
      row: strakes.length,
      x: x(frame.x) - box / 2,
      y: shell + gap,
      width: box,
      height: frameStrip,
      standing: frame.standing,
      label: String(frame.number),
    })),
    ribs: shown.map((frame) => ({
      key: frame.key,
      x: x(frame.x) - (ribMillimetres * scale) / 2,
      width: ribMillimetres * scale,
      top: shell - shell * (frame.head / highest),
      bottom: shell,
      standing: frame.standing,
    })),
    strakes: strakes.map((number, row) => ({ number, y: row * strakeHeight + strakeHeight / 2 })),
  };
}

/** The cell next to another in the direction of an arrow key: along the strake, or the one that overlaps it most. */
export function nextCell(cells: Cell[], from: Cell, key: string): Cell | null {
  const own = cells.filter((cell) => cell.row === from.row).sort((a, b) => a.x - b.x);
  const at = own.indexOf(from);
  if (key === 'ArrowLeft') return own[at - 1] ?? null;
  if (key === 'ArrowRight') return own[at + 1] ?? null;
  if (key === 'Home') return own[0] ?? null;
  if (key === 'End') return own.at(-1) ?? null;
  const rows = [...new Set(cells.map((cell) => cell.row))].sort((a, b) => a - b);
  const row = rows[rows.indexOf(from.row) + (key === 'ArrowUp' ? -1 : key === 'ArrowDown' ? 1 : NaN)];
  const overlap = (cell: Cell): number =>
    Math.min(cell.x + cell.width, from.x + from.width) - Math.max(cell.x, from.x);
  return cells.filter((cell) => cell.row === row).sort((a, b) => overlap(b) - overlap(a))[0] ?? null;
}
