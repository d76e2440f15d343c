import type { Point } from '@ribband/hull';

/** An outline as the `points` of an SVG polygon or polyline, in whole millimetres. */
export const pointsOf = (outline: Point[]): string =>
  outline.map(({ x, y }) => `${Math.round(x)},${Math.round(y)}`).join(' ');

/** The outline that `pointsOf` wrote. */
export const pointsFrom = (points: string): Point[] =>
  points.split(' ').map((pair) => {
    const [x = NaN, y = NaN] = pair.split(',').map(Number);
    return { x, y };
  });
