import { need } from '../refusal.js';
import { fromDocument, fromMemory, type Origin, PRACTICE } from '../rule.js';

/**
 * Moisture at which wood comes to rest, as a percentage of its dry weight (Hailwood-Horrobin, Wood Handbook FPL;
 * from memory).
 * @param fahrenheit air temperature
 * @param humidity relative humidity, 0..1
 */
export function equilibriumMoisture(fahrenheit: number, humidity: number): number {
  need(humidity >= 0 && humidity <= 1, 'humidity', `${humidity} is no humidity`, 'a share from 0 to 1');
  const t = fahrenheit;
  const w = 330 + 0.452 * t + 0.00415 * t ** 2;
  const k = 0.791 + 4.63e-4 * t - 8.44e-7 * t ** 2;
  const k1 = 6.34 + 7.75e-4 * t - 9.35e-5 * t ** 2;
  const k2 = 1.09 + 0.0284 * t - 9.04e-5 * t ** 2;
  const kh = k * humidity;
  const bound = (k1 * kh + 2 * k1 * k2 * kh ** 2) / (1 + k1 * kh + k1 * k2 * kh ** 2);
  return (1800 / w) * (kh / (1 - kh) + bound);
}

/** How wet stock may be, in percent of dry weight. */
export const MOISTURE_RULES: Record<
  'planking' | 'flag' | 'green' | 'airDried',
  { says: string; low: number; high: number; origin: Origin }
> = {
  planking: {
    says: 'planking is hung at 12 to 16 percent',
    low: 12,
    high: 16,
    origin: fromMemory('NVIC 7-95, chapter 3.A'),
  },
  flag: { says: 'above 20 percent is flagged', low: 20, high: 100, origin: PRACTICE },
  green: {
    says: 'from 25 to 30 percent up wood is green: fibre saturation',
    low: 25,
    high: 30,
    origin: fromDocument('Oregon State University EM 8612'),
  },
  airDried: {
    says: 'air drying under cover in western Oregon ends at 12 to 14 percent',
    low: 12,
    high: 14,
    origin: fromDocument('Oregon State University EM 8612'),
  },
};

export type Wetness = 'dry enough to hang' | 'drier than planking' | 'damp' | 'flagged' | 'green';

/** What a reading means for planking. */
export function wetness(percent: number): Wetness {
  const { planking, flag, green } = MOISTURE_RULES;
  if (percent >= green.high - 2) return 'green';
  if (percent > flag.low) return 'flagged';
  if (percent > planking.high) return 'damp';
  return percent >= planking.low ? 'dry enough to hang' : 'drier than planking';
}

/** Green to oven-dry, as shares (from memory: Wood Handbook, chapter 4). */
export const SHRINKAGE = {
  'Douglas fir (coast)': { radial: 0.048, tangential: 0.076 },
  'white oak': { radial: 0.056, tangential: 0.105 },
} as const;

/** Fibre saturation, in percent, at which shrinking begins. */
const FIBRE_SATURATION = 30;

/** Width after drying from one moisture to another, in the unit given; shrinking is even below fibre saturation. */
export function widthAfterDrying(
  width: number,
  species: keyof typeof SHRINKAGE,
  grain: 'radial' | 'tangential',
  from: number,
  to: number,
): number {
  const whole = SHRINKAGE[species][grain];
  const shrunk = (percent: number): number =>
    1 - (whole * (FIBRE_SATURATION - Math.min(Math.max(percent, 0), FIBRE_SATURATION))) / FIBRE_SATURATION;
  return (width * shrunk(to)) / shrunk(from);
}

export interface MoistureReading {
  /** Day counted from any fixed day. */
  day: number;
  percent: number;
}

export type ReadyBy =
  | { kind: 'ready' }
  | { kind: 'on'; day: number; daysToHalve: number }
  /** The air it lies in is too damp for the target, or readings do not fall. */
  | { kind: 'not by itself'; why: string };

/**
 * When stock is down to a target. Readings fall towards the equilibrium as exp(-kt); k by least squares through the
 * logarithms of what is left above the equilibrium.
 */
export function readyBy(readings: MoistureReading[], equilibrium: number, target: number): ReadyBy {
  need(readings.length >= 2, 'readings', 'too few to see a trend', 'two or more, on different days');
  const last = readings.reduce((late, one) => (one.day > late.day ? one : late));
  if (last.percent <= target) return { kind: 'ready' };
  if (equilibrium >= target)
    return {
      kind: 'not by itself',
      why: `where it lies wood comes to rest at ${equilibrium.toFixed(1)} percent, above ${target}`,
    };
  const points = readings
    .filter((one) => one.percent > equilibrium)
    .map((one) => ({ day: one.day, left: Math.log(one.percent - equilibrium) }));
  const meanDay = points.reduce((sum, one) => sum + one.day, 0) / points.length;
  const meanLeft = points.reduce((sum, one) => sum + one.left, 0) / points.length;
  const spread = points.reduce((sum, one) => sum + (one.day - meanDay) ** 2, 0);
  need(spread > 0, 'readings', 'all on one day', 'two or more, on different days');
  const slope = points.reduce((sum, one) => sum + (one.day - meanDay) * (one.left - meanLeft), 0) / spread;
  if (slope >= 0) return { kind: 'not by itself', why: 'the readings do not fall' };
  const day = meanDay + (Math.log(target - equilibrium) - meanLeft) / slope;
  return { kind: 'on', day: Math.ceil(day - 1e-9), daysToHalve: Math.log(2) / -slope };
}
