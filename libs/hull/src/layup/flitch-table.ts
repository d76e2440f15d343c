import { type Millimetres } from '../measure.js';
import { type Point } from '../shape/patterns.js';
import {
  apartBy,
  boxOf,
  contains,
  distanceToEdge,
  distanceToSegment,
  insideBy,
  type Outline,
} from './polygon.js';
import { type Flitch } from './stock.js';

const CELL = 10;

/**
 * A flitch with what is laid on it. The table is cut into small squares that are free or not, so that most places
 * are ruled out by a glance; what passes is then checked exactly, outline against outline.
 */
export class FlitchTable {
  readonly laid: { pattern: string; outline: Outline }[] = [];
  readonly box;
  private readonly across: number;
  private readonly free: Uint8Array;

  constructor(
    readonly flitch: Flitch,
    private readonly apart: Millimetres,
    from?: FlitchTable,
  ) {
    this.box = boxOf(flitch.outline);
    this.across = Math.ceil((this.box.right - this.box.left) / CELL);
    const up = Math.ceil((this.box.high - this.box.low) / CELL);
    this.free = from ? from.free.slice() : new Uint8Array(this.across * up);
    if (from) return;
    // A square counts as free when its middle does; the exact check settles the rest.
    this.free.forEach((_, index) => {
      const middle = this.middleOf(index);
      this.free[index] =
        contains(flitch.outline, middle) &&
        distanceToEdge(middle, flitch.outline) >= flitch.sapwood - CELL &&
        !flitch.defects.some((defect) => contains(defect, middle) && distanceToEdge(middle, defect) > CELL)
          ? 1
          : 0;
    });
  }

  /** False where a point, once turned by the angle of this cosine and sine and moved, surely lies on a taken square. */
  glance(points: Point[], to: Point, cosine: number, sine: number): boolean {
    const { left, low } = this.box;
    for (const { x, y } of points) {
      const column = Math.floor((to.x + cosine * x - sine * y - left) / CELL);
      const row = Math.floor((to.y + sine * x + cosine * y - low) / CELL);
      if (column < 0 || row < 0 || column >= this.across) return false;
      if (this.free[row * this.across + column] !== 1) return false;
    }
    return true;
  }

  fits(outline: Outline): boolean {
    const { flitch, laid, apart } = this;
    return (
      insideBy(outline, flitch.outline, flitch.sapwood) &&
      flitch.defects.every((defect) => apartBy(outline, defect, 0)) &&
      laid.every((other) => apartBy(outline, other.outline, apart))
    );
  }

  /** The same flitch, bare; call it before anything is laid. */
  copy(): FlitchTable {
    return new FlitchTable(this.flitch, this.apart, this);
  }

  lay(pattern: string, outline: Outline): void {
    this.laid.push({ pattern, outline });
    this.free.forEach((free, index) => {
      if (free === 1 && contains(outline, this.middleOf(index))) this.free[index] = 0;
    });
  }

  /** Direction of the grain at a place: that of the nearest stretch of its line, in radians. */
  grainAt(point: Point): number {
    const { grain } = this.flitch;
    let best = { away: Infinity, angle: 0 };
    grain.slice(1).forEach((b, index) => {
      const a = grain[index];
      const away = distanceToSegment(point, a, b);
      if (away < best.away) best = { away, angle: Math.atan2(b.y - a.y, b.x - a.x) };
    });
    return best.angle;
  }

  private middleOf(index: number): Point {
    return {
      x: this.box.left + ((index % this.across) + 0.5) * CELL,
      y: this.box.low + (Math.floor(index / this.across) + 0.5) * CELL,
    };
  }
}
