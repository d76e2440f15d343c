import { type Point } from '../shape/patterns.js';

/** Closed outlines: the last point joins the first. */
export type Outline = Point[];

export function areaOf(outline: Outline): number {
  const twice = outline.reduce((sum, point, index) => {
    const next = outline[(index + 1) % outline.length];
    return sum + point.x * next.y - next.x * point.y;
  }, 0);
  return Math.abs(twice) / 2;
}

/** Even-odd rule. */
export function contains(outline: Outline, { x, y }: Point): boolean {
  let inside = false;
  for (let i = 0, j = outline.length - 1; i < outline.length; j = i, i += 1) {
    const [a, b] = [outline[i], outline[j]];
    if (a.y > y !== b.y > y && x < ((b.x - a.x) * (y - a.y)) / (b.y - a.y) + a.x) inside = !inside;
  }
  return inside;
}

export function distanceToSegment(point: Point, a: Point, b: Point): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const length = dx * dx + dy * dy;
  const t =
    length === 0 ? 0 : Math.min(Math.max(((point.x - a.x) * dx + (point.y - a.y) * dy) / length, 0), 1);
  return Math.hypot(point.x - a.x - t * dx, point.y - a.y - t * dy);
}

export const distanceToEdge = (point: Point, outline: Outline): number =>
  outline.reduce(
    (least, a, index) => Math.min(least, distanceToSegment(point, a, outline[(index + 1) % outline.length])),
    Infinity,
  );

const turn = (a: Point, b: Point, c: Point): number => (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);

const cross = (a: Point, b: Point, c: Point, d: Point): boolean =>
  turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;

/** Least distance between the edges of two outlines; 0 where they cross. */
function edgeDistance(one: Outline, other: Outline): number {
  let least = Infinity;
  one.forEach((a, i) => {
    const b = one[(i + 1) % one.length];
    other.forEach((c, j) => {
      const d = other[(j + 1) % other.length];
      if (cross(a, b, c, d)) least = 0;
      else
        least = Math.min(
          least,
          distanceToSegment(a, c, d),
          distanceToSegment(b, c, d),
          distanceToSegment(c, a, b),
          distanceToSegment(d, a, b),
        );
    });
  });
  return least;
}

export const insideBy = (inner: Outline, outer: Outline, margin: number): boolean =>
  inner.every((point) => contains(outer, point)) && edgeDistance(inner, outer) >= margin;

export const apartBy = (one: Outline, other: Outline, margin: number): boolean =>
  !contains(other, one[0]) && !contains(one, other[0]) && edgeDistance(one, other) >= margin;

export const boxOf = (outline: Outline): { left: number; right: number; low: number; high: number } => ({
  left: Math.min(...outline.map((point) => point.x)),
  right: Math.max(...outline.map((point) => point.x)),
  low: Math.min(...outline.map((point) => point.y)),
  high: Math.max(...outline.map((point) => point.y)),
});

/** Points along a line, no further apart than `step`. */
export function alongLine(points: Point[], step: number, closed = false): Point[] {
  const ends = closed ? [...points, points[0]] : points;
  const found: Point[] = [ends[0]];
  ends.slice(1).forEach((b, index) => {
    const a = ends[index];
    const parts = Math.max(Math.ceil(Math.hypot(b.x - a.x, b.y - a.y) / step), 1);
    for (let part = 1; part <= parts; part += 1)
      found.push({ x: a.x + ((b.x - a.x) * part) / parts, y: a.y + ((b.y - a.y) * part) / parts });
  });
  return found;
}
