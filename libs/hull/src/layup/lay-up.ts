import { type Millimetres } from '../measure.js';
import { type FuttockPattern, outlineOf, type Point } from '../shape/patterns.js';
import { FlitchTable } from './flitch-table.js';
import { alongLine, areaOf, type Outline } from './polygon.js';
import { checkStock, type Flitch, LAY_UP_RULES, type StockPattern } from './stock.js';

/**
 * Seeks places for patterns on flitches: inside the sapwood, clear of defects and of each other, grain along the
 * piece within the run-out limit. Greedy by first fit: hardest pattern first, on flitches already begun, then on the
 * smallest fresh one that takes it, at the place nearest the flitch's end; repeated with other orders drawn from the
 * seed, the best kept (most pieces, then least stock). Places are tried on a grid. Every place that is given is
 * checked exactly; that less stock would not do is not proven, and `stockAtLeast` is only the area of the pieces.
 */
export interface LayUpWish {
  patterns: StockPattern[];
  stock: Flitch[];
  /** Slope of grain across a piece, 1/8 unless the shipwright says otherwise. */
  runOut?: number;
  apart?: Millimetres;
  /** Grid on which places are tried. */
  step?: Millimetres;
  seed: number;
  /** Orders tried. */
  tries?: number;
}

export interface Placed {
  pattern: string;
  flitch: string;
  /** The pattern's outline where it lies on the flitch. */
  outline: Outline;
  turnedOver: boolean;
  /** Greatest slope of grain across the piece there. */
  runOut: number;
}

export interface LayUp {
  placed: Placed[];
  /** Patterns without a place, and why: what to look for in the woods. */
  wanting: { pattern: string; why: 'no stock is thick enough' | 'no place with room and grain' }[];
  /** Square millimetres of the flitches begun, and of the pieces on them. */
  stockUsed: number;
  stockAtLeast: number;
}

export function layUp(wish: LayUpWish): LayUp {
  checkStock(wish.patterns, wish.stock);
  const apart = wish.apart ?? LAY_UP_RULES.apart.value;
  const bare = wish.stock
    .map((flitch) => new FlitchTable(flitch, apart))
    .sort((a, b) => areaOf(a.flitch.outline) - areaOf(b.flitch.outline));
  const hardest = [...wish.patterns].sort((a, b) => areaOf(b.outline) - areaOf(a.outline));
  const draw = drawing(wish.seed);
  const hopeless = new Set<string>();
  let best: LayUp | null = null;
  for (let attempt = 0; attempt < (wish.tries ?? 4); attempt += 1) {
    const order = attempt === 0 ? hardest : shuffledNear(hardest, draw);
    const tables = bare.map((table) => table.copy());
    const one = layInOrder(order, tables, wish, hopeless);
    if (best === null || better(one, best)) best = one;
  }
  return best!;
}

const better = (one: LayUp, other: LayUp): boolean =>
  one.wanting.length !== other.wanting.length
    ? one.wanting.length < other.wanting.length
    : one.stockUsed < other.stockUsed - 1e-6;

/** `hopeless` holds pairs of pattern and flitch that found no place on the bare flitch: nor will they on a fuller one. */
function layInOrder(
  order: StockPattern[],
  tables: FlitchTable[],
  wish: LayUpWish,
  hopeless: Set<string>,
): LayUp {
  const placed: Placed[] = [];
  const wanting: LayUp['wanting'] = [];
  for (const pattern of order) {
    const thick = tables.filter((table) => table.flitch.thickness >= pattern.thickness);
    const begunFirst = [
      ...thick.filter((table) => table.laid.length > 0),
      ...thick.filter((table) => table.laid.length === 0),
    ];
    let found: Placed | null = null;
    for (const table of begunFirst) {
      const pair = `${pattern.key} on ${table.flitch.key}`;
      if (hopeless.has(pair)) continue;
      found = placeOn(table, pattern, wish);
      if (found === null) {
        if (table.laid.length === 0) hopeless.add(pair);
        continue;
      }
      table.lay(pattern.key, found.outline);
      placed.push(found);
      break;
    }
    if (found === null)
      wanting.push({
        pattern: pattern.key,
        why: thick.length === 0 ? 'no stock is thick enough' : 'no place with room and grain',
      });
  }
  const area = (outlines: Outline[]): number => outlines.reduce((sum, outline) => sum + areaOf(outline), 0);
  return {
    placed,
    wanting,
    stockUsed: area(tables.filter((table) => table.laid.length > 0).map((table) => table.flitch.outline)),
    stockAtLeast: area(placed.map((one) => one.outline)),
  };
}

const NOWHERE: Point = { x: 0, y: 0 };
const HERE = [NOWHERE];

/** The pattern turned so that its middle lies at the origin with its grain along x there. */
interface Ready {
  turnedOver: boolean;
  outline: Outline;
  centre: Point[];
  probes: Point[];
}

function placeOn(table: FlitchTable, pattern: StockPattern, wish: LayUpWish): Placed | null {
  const limit = wish.runOut ?? LAY_UP_RULES.runOut.value;
  const step = wish.step ?? 25;
  const { left, right, low, high } = table.box;
  const poses = [false, true].flatMap((over) => [readied(pattern, over, 0), readied(pattern, over, Math.PI)]);
  const straight = table.flitch.grain.length === 2;
  const tilts = [0, 0.33, -0.33, 0.66, -0.66, 1, -1].map((share) => share * Math.atan(limit));
  // On straight grain the run-out is the same wherever a piece lies: settled before any place is tried.
  const turns = poses
    .flatMap((pose) => tilts.map((tilt) => ({ pose, tilt })))
    .filter(({ pose, tilt }) => {
      if (!straight) return true;
      return runOutOf(table, pose.centre.map(moving(NOWHERE, table.grainAt(NOWHERE) + tilt)), limit) !== null;
    });
  if (turns.length === 0) return null;
  for (let x = left; x <= right; x += step)
    for (let y = low; y <= high; y += step) {
      const middle = { x, y };
      if (!table.glance(HERE, middle, 1, 0)) continue;
      const grain = table.grainAt(middle);
      for (const pose of poses)
        for (const tilt of tilts) {
          const turned = grain + tilt;
          if (!table.glance(pose.probes, middle, Math.cos(turned), Math.sin(turned))) continue;
          const move = moving(middle, turned);
          const runOut = runOutOf(table, pose.centre.map(move), limit);
          if (runOut === null) continue;
          const outline = pose.outline.map(move);
          if (table.fits(outline))
            return {
              pattern: pattern.key,
              flitch: table.flitch.key,
              outline,
              turnedOver: pose.turnedOver,
              runOut,
            };
        }
    }
  return null;
}

function readied(pattern: StockPattern, turnedOver: boolean, turned: number): Ready {
  const over = (point: Point): Point => (turnedOver ? { x: point.x, y: -point.y } : point);
  const centre = alongLine(pattern.centre.map(over), 50);
  const middle = centre[Math.floor(centre.length / 2)];
  const near = Math.max(Math.floor(centre.length / 2) - 1, 0);
  const [a, b] = [centre[near], centre[Math.min(near + 2, centre.length - 1)]];
  const back = moving({ x: 0, y: 0 }, turned - Math.atan2(b.y - a.y, b.x - a.x));
  const settle = (point: Point): Point => back({ x: point.x - middle.x, y: point.y - middle.y });
  const outline = pattern.outline.map(over).map(settle);
  const edge = alongLine(outline, 40, true);
  // Ends and middle first: they rule most places out.
  const probes = [edge[0], edge[edge.length >> 1], edge[edge.length >> 2], ...edge, ...centre.map(settle)];
  return { turnedOver, outline, centre: centre.map(settle), probes };
}

const moving = (to: Point, angle: number): ((point: Point) => Point) => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return ({ x, y }) => ({ x: to.x + c * x - s * y, y: to.y + s * x + c * y });
};

/** Greatest slope between the piece's own line and the grain under it, or null past the limit. Ends first: bent pieces fail there. */
function runOutOf(table: FlitchTable, centre: Point[], limit: number): number | null {
  let worst = 0;
  const last = centre.length - 1;
  for (let step = 0; step < last; step += 1) {
    const index = step % 2 === 0 ? 1 + step / 2 : last - (step - 1) / 2;
    const [a, b] = [centre[index - 1], centre[index]];
    const grain = table.grainAt({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 });
    const angle = Math.abs(Math.atan2(b.y - a.y, b.x - a.x) - grain) % Math.PI;
    worst = Math.max(worst, Math.tan(Math.min(angle, Math.PI - angle, 1.5)));
    if (worst > limit + 1e-9) return null;
  }
  return worst;
}

/** The futtock's rough shape: its outline, with the margin that the bevel and the saw need all round its edges. */
export function stockPatternOf(pattern: FuttockPattern, margin: Millimetres): StockPattern {
  const wide = (points: Point[], way: 1 | -1): Point[] =>
    points.map((point, index) => {
      const [a, b] = [points[Math.max(index - 1, 0)], points[Math.min(index + 1, points.length - 1)]];
      const length = Math.hypot(b.x - a.x, b.y - a.y);
      const ends = index === 0 ? -margin : index === points.length - 1 ? margin : 0;
      return {
        x: point.x - (way * margin * (b.y - a.y)) / length + (ends * (b.x - a.x)) / length,
        y: point.y + (way * margin * (b.x - a.x)) / length + (ends * (b.y - a.y)) / length,
      };
    });
  const outer = pattern.outer.map((point, index) => {
    const far = pattern.farOuter[index];
    return far.y > point.y ? { x: point.x, y: far.y } : point;
  });
  const rough = { ...pattern, outer: wide(outer, 1), inner: wide(pattern.inner, -1) };
  return {
    key: pattern.piece,
    name: pattern.name,
    outline: outlineOf(rough),
    centre: pattern.outer.map((point, index) => {
      const inside = pattern.inner[index];
      return { x: (point.x + inside.x) / 2, y: (point.y + inside.y) / 2 };
    }),
    thickness: pattern.sided,
  };
}

/** Even numbers in [0, 1) from a seed (mulberry32, public domain): same seed, same lay-up. */
function drawing(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** Hardest first still, but neighbours in that order change places. */
function shuffledNear<T>(list: T[], draw: () => number): T[] {
  return list
    .map((one, index) => ({ one, place: index + draw() * 3 }))
    .sort((a, b) => a.place - b.place)
    .map(({ one }) => one);
}
