import { type Millimetres } from '../measure.js';
import { type Side } from '../model/names.js';
import { need, needWhole } from '../refusal.js';
import { type Butt, checkButts, pairFaults, type Reading } from './butts.js';
import { REPLACEMENT_RULES } from './butt-rules.js';

/**
 * Seeks butts for some strakes of one side, so that every butt rule holds among them and against the butts that
 * stay. Strakes are laid from the lowest up; for each, layouts are tried in order of fewest planks, then of most
 * even lengths; a layout that breaks a rule against those below is passed over, and where none fits the search
 * goes back a strake (depth first, every layout within the lengths asked is reached in the end). The first complete
 * layout is taken; one in which butts also do not step in a line is sought first.
 */
export interface LayoutWish {
  side: Side;
  strakes: number[];
  /** Frames at the two ends of the stretch; the ends themselves are the bays before and after it, or the hood ends. */
  firstFrame: number;
  lastFrame: number;
  /** Stretches of strakes that are planked over other frames than those above. */
  over?: Partial<Record<number, { firstFrame: number; lastFrame: number }>>;
  /** Longest plank that the stock gives, in frames crossed. */
  longest: number;
  /** Shortest plank, in frames crossed. */
  shortest?: number;
  stations: Millimetres[];
  reading: Reading;
  /** Butts that stay, on this side in strakes not asked for, and the other side's garboard butts. */
  stay: Butt[];
}

export type LayoutAnswer =
  | { kind: 'found'; butts: Butt[]; planks: number; guideBroken: number }
  /** No layout within these lengths keeps every rule. */
  | { kind: 'none' }
  /** Stopped after so many looks, each at one way to go on with one strake. */
  | { kind: 'gave up'; looked: number };

const MOST_LOOKS = 200_000;

export function proposeLayout(wish: LayoutWish): LayoutAnswer {
  const shortest = wish.shortest ?? REPLACEMENT_RULES.length.value;
  needWhole(shortest, 'shortest', 1);
  needWhole(wish.longest, 'longest', shortest);
  need(wish.strakes.length > 0, 'strakes', 'no strake is named', 'the strakes to be planked');
  const strict = search(wish, shortest, true);
  return strict.kind === 'found' ? strict : search(wish, shortest, false);
}

function search(wish: LayoutWish, shortest: number, keepGuide: boolean): LayoutAnswer {
  const strakes = [...wish.strakes].sort((a, b) => a - b);
  const looks = { left: MOST_LOOKS };
  const lay = (depth: number, laid: Butt[]): Butt[] | null => {
    const strake = strakes.at(depth);
    if (strake === undefined) return laid;
    const own = { ...wish, ...wish.over?.[strake] };
    const free = freeBays(own, strake, laid, keepGuide);
    for (const bays of layoutsBy(own, shortest, free, looks)) {
      const added = bays.map((bay) => ({ side: wish.side, strake, bay }));
      const done = lay(depth + 1, [...laid, ...added]);
      if (done !== null || looks.left <= 0) return done;
    }
    return null;
  };
  const butts = lay(0, []);
  if (butts === null) return looks.left <= 0 ? { kind: 'gave up', looked: MOST_LOOKS } : { kind: 'none' };
  const guideBroken = checkButts([...wish.stay, ...butts], wish).filter(
    (fault) => fault.weight === 'guide',
  ).length;
  return { kind: 'found', butts, planks: butts.length + strakes.length, guideBroken };
}

/** Bays in which this strake may have a butt. Butts of one strake do not bear on each other, only their lengths do. */
function freeBays(wish: LayoutWish, strake: number, laid: Butt[], keepGuide: boolean): Set<number> {
  const near = [...wish.stay, ...laid].filter(
    (butt) => butt.side !== wish.side || Math.abs(butt.strake - strake) <= 3,
  );
  const before = checkButts(near, wish).length;
  const free = new Set<number>();
  for (let bay = wish.firstFrame; bay < wish.lastFrame; bay += 1) {
    const butt = { side: wish.side, strake, bay };
    const rules = near.some((other) => pairFaults([butt, other], wish.stations, wish.reading).length > 0);
    if (!rules && (!keepGuide || checkButts([...near, butt], wish).length === before)) free.add(bay);
  }
  return free;
}

/** Ways to plank one strake with butts in free bays: fewest planks first, then the most even lengths. */
function* layoutsBy(
  { firstFrame, lastFrame, longest }: LayoutWish,
  shortest: number,
  free: Set<number>,
  looks: { left: number },
): Generator<number[]> {
  const frames = lastFrame - firstFrame + 1;
  const cut = (start: number, planks: number): number[][] => {
    looks.left -= 1;
    const left = lastFrame - start + 1;
    if (looks.left <= 0 || left < planks * shortest || left > planks * longest) return [];
    if (planks === 1) return [[]];
    const found: number[][] = [];
    for (let bay = start + shortest - 1; bay <= Math.min(start + longest - 1, lastFrame - shortest); bay += 1)
      if (free.has(bay)) found.push(...cut(bay + 1, planks - 1).map((rest) => [bay, ...rest]));
    return found;
  };
  const unevenness = (bays: number[]): number =>
    [...bays, lastFrame].reduce(
      (sum, end, index) => sum + (end - (index === 0 ? firstFrame - 1 : bays[index - 1])) ** 2,
      0,
    );
  for (let planks = Math.ceil(frames / longest); planks * shortest <= frames; planks += 1)
    yield* cut(firstFrame, planks).sort((a, b) => unevenness(a) - unevenness(b));
}
