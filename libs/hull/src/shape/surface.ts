import { type Millimetres } from '../measure.js';
import { checkOffsets, type Offsets, type Section } from './offsets.js';
import { type Spline, spline } from './spline.js';

/**
 * The hull's skin between measured sections. Each section is a curve through its points; the curve is shared out
 * evenly along its length, as strakes share it out, and points with the same share are joined lengthwise by battens.
 * `share` runs from 0 at the rabbet to 1 at the sheer.
 */
export interface Surface {
  /** Height and breadth, and how they change per millimetre aft. */
  at: (aft: Millimetres, share: number) => SurfacePoint;
}

interface SurfacePoint {
  height: Millimetres;
  breadth: Millimetres;
  heightAft: number;
  breadthAft: number;
}

const SHARES = 48;

export function surfaceOf(offsets: Offsets): Surface {
  checkOffsets(offsets);
  const places = offsets.sections.map((section) => section.at);
  const evenly = offsets.sections.map(alongSection);
  const battens = (pick: 'height' | 'breadth'): Spline[] =>
    Array.from({ length: SHARES + 1 }, (_, share) =>
      spline(
        places,
        evenly.map((points) => points[share][pick]),
      ),
    );
  const lines = { height: battens('height'), breadth: battens('breadth') };
  const shares = Array.from({ length: SHARES + 1 }, (_, index) => index / SHARES);
  const cache = new Map<number, Record<'height' | 'breadth' | 'heightAft' | 'breadthAft', Spline>>();
  const sectionAt = (aft: number): Record<'height' | 'breadth' | 'heightAft' | 'breadthAft', Spline> => {
    const known = cache.get(aft);
    if (known) return known;
    const through = (values: number[]): Spline => spline(shares, values);
    const section = {
      height: through(lines.height.map((line) => line.at(aft))),
      breadth: through(lines.breadth.map((line) => line.at(aft))),
      heightAft: through(lines.height.map((line) => line.slope(aft))),
      breadthAft: through(lines.breadth.map((line) => line.slope(aft))),
    };
    cache.set(aft, section);
    return section;
  };
  return {
    at: (aft, share) => {
      const { height, breadth, heightAft, breadthAft } = sectionAt(aft);
      return {
        height: height.at(share),
        breadth: breadth.at(share),
        heightAft: heightAft.at(share),
        breadthAft: breadthAft.at(share),
      };
    },
  };
}

/** Points of a section at even shares of its length. */
function alongSection({ points }: Section): { height: number; breadth: number }[] {
  const chord = [0];
  points.slice(1).forEach((point, index) => {
    const before = points[index];
    chord.push(chord[index] + Math.hypot(point.height - before.height, point.breadth - before.breadth));
  });
  const height = spline(
    chord,
    points.map((point) => point.height),
  );
  const breadth = spline(
    chord,
    points.map((point) => point.breadth),
  );
  const steps = 400;
  const end = chord[chord.length - 1];
  const lengths = [0];
  for (let step = 1; step <= steps; step += 1) {
    const [a, b] = [(end * (step - 1)) / steps, (end * step) / steps];
    lengths.push(lengths[step - 1] + Math.hypot(height.at(b) - height.at(a), breadth.at(b) - breadth.at(a)));
  }
  const total = lengths[steps];
  let step = 0;
  return Array.from({ length: SHARES + 1 }, (_, index) => {
    const wanted = (total * index) / SHARES;
    while (step < steps - 1 && lengths[step + 1] < wanted) step += 1;
    const part = (wanted - lengths[step]) / (lengths[step + 1] - lengths[step]);
    const t = (end * (step + part)) / steps;
    return { height: height.at(t), breadth: breadth.at(t) };
  });
}

/** A reading that stands off the batten through its neighbours: perhaps misread. */
export interface UnfairReading {
  /** Number of the section, 0 first. */
  section: number;
  share: number;
  off: Millimetres;
}

/** Readings further than `allowed` off the curve that the other sections give without them. */
export function unfairReadings(offsets: Offsets, allowed: Millimetres): UnfairReading[] {
  checkOffsets(offsets);
  const evenly = offsets.sections.map(alongSection);
  const found: UnfairReading[] = [];
  for (let section = 1; section < offsets.sections.length - 1; section += 1) {
    const others = offsets.sections.flatMap((_, index) => (index === section ? [] : [index]));
    const { at } = offsets.sections[section];
    let worst: UnfairReading | null = null;
    for (let share = 0; share <= SHARES; share += 4) {
      const guess = (pick: 'height' | 'breadth'): number =>
        spline(
          others.map((index) => offsets.sections[index].at),
          others.map((index) => evenly[index][share][pick]),
        ).at(at);
      const here = evenly[section][share];
      const off = Math.hypot(guess('height') - here.height, guess('breadth') - here.breadth);
      if (worst === null || off > worst.off) worst = { section, share: share / SHARES, off };
    }
    if (worst && worst.off > allowed) found.push(worst);
  }
  return found;
}
