import { feet, type Millimetres, toFeet } from '../measure.js';
import { bayMiddle } from '../model/bays.js';
import { type Hull } from '../model/hull.js';
import { type Side } from '../model/names.js';
import { BUTT_RULES } from './butt-rules.js';

/** A butt between two frames on its block, or on a frame where the framing is massive enough. */
export interface Butt {
  side: Side;
  strake: number;
  /** Bay b lies between frames b and b + 1. */
  bay: number;
  /** True: on frame `bay` itself instead of in the bay. */
  onFrame?: boolean;
}

/** By frame spaces for ordinary framing, by feet for unusual spacing, or both at once, the stricter counting. */
export type Reading = 'frame spaces' | 'feet' | 'both';

export interface ButtFault {
  rule: keyof typeof BUTT_RULES;
  butts: Butt[];
  says: string;
  /** A guide is shown and does not refuse. */
  weight: 'rule' | 'guide';
}

export interface ButtCheck {
  /** Place of each frame by number, entry 0 unused, as `Hull.stations`. */
  stations: Millimetres[];
  reading: Reading;
  /** Framing so massive that a butt may lie on a frame: the shipwright's word. */
  massiveFraming?: boolean;
  /** Stretches of the keel that are scarfed, as distances from frame 1. */
  keelScarfs?: { from: Millimetres; to: Millimetres }[];
}

/** Butts of the planking as it stands. */
export const buttsOf = (hull: Hull, side: Side): Butt[] =>
  hull.planks
    .filter(
      (plank) =>
        plank.skin === 'planking' &&
        plank.side === side &&
        hull.planks.some(
          (next) =>
            next.skin === 'planking' &&
            next.side === side &&
            next.strake === plank.strake &&
            next.firstFrame === plank.lastFrame + 1,
        ),
    )
    .map((plank) => ({ side, strake: plank.strake, bay: plank.lastFrame }));

/** Unusual frame spacing is read both ways, ordinary spacing by frame spaces. */
export const readingFor = (hull: Hull): Reading => (hull.unevenSpacing ? 'both' : 'frame spaces');

export function checkButts(butts: Butt[], check: ButtCheck): ButtFault[] {
  const { stations, reading } = check;
  const faults = butts.flatMap((butt) => ownFaults(butt, check));
  for (let one = 0; one < butts.length; one += 1)
    for (let other = one + 1; other < butts.length; other += 1) {
      const pair: [Butt, Butt] = [butts[one], butts[other]];
      faults.push(...pairFaults(pair, stations, reading));
    }
  return [...faults, ...steppingFaults(butts)];
}

/** What is wrong with a butt whatever lies about it. */
function ownFaults(butt: Butt, { stations, massiveFraming, keelScarfs }: ButtCheck): ButtFault[] {
  const fault = (rule: ButtFault['rule']): ButtFault => ({
    rule,
    butts: [butt],
    says: `${inWords(butt)}: ${BUTT_RULES[rule].says}`,
    weight: 'rule',
  });
  const at = lengthwise(butt, stations);
  const overScarf = keelScarfs?.some(({ from, to }) => from <= at && at <= to) ?? false;
  return [
    ...(butt.onFrame && !massiveFraming ? [fault('onFrames')] : []),
    ...(butt.strake === 1 && overScarf ? [fault('keelScarfs')] : []),
  ];
}

/** What is wrong between two butts: nothing, if they are on different sides and not garboards. */
export function pairFaults([a, b]: [Butt, Butt], stations: Millimetres[], reading: Reading): ButtFault[] {
  const apart = Math.abs(placeOf(a) - placeOf(b));
  const away = Math.abs(lengthwise(a, stations) - lengthwise(b, stations));
  const strakes = Math.abs(a.strake - b.strake);
  const fault = (rule: ButtFault['rule'], measured: string): ButtFault => ({
    rule,
    butts: [a, b],
    says: `${inWords(a)} and ${inWords(b)}: ${measured}; ${BUTT_RULES[rule].says}`,
    weight: 'rule',
  });
  const lengths = `${toFeet(away).toFixed(1)} ft apart`;
  if (a.side !== b.side) {
    const near = a.strake === 1 && b.strake === 1 && tooNear(away, BUTT_RULES.garboards.value);
    return near ? [fault('garboards', lengths)] : [];
  }
  if (strakes === 0) return [];
  const faults: ButtFault[] = [];
  if (strakes <= BUTT_RULES.sameBay.value && apart < 1)
    faults.push(fault('sameBay', `${strakes - 1} strakes between`));
  else if (reading !== 'feet' && strakes === 1 && apart < BUTT_RULES.neighbourStrakes.value)
    faults.push(fault('neighbourStrakes', `${apart} frame spaces apart`));
  if (reading !== 'frame spaces' && strakes === 1 && tooNear(away, BUTT_RULES.neighbourFeet.value))
    faults.push(fault('neighbourFeet', lengths));
  if (reading !== 'frame spaces' && strakes === 2 && tooNear(away, BUTT_RULES.oneBetweenFeet.value))
    faults.push(fault('oneBetweenFeet', lengths));
  return faults;
}

const tooNear = (away: Millimetres, leastFeet: number): boolean => away < feet(leastFeet) - 1e-6;

const placeOf = (butt: Butt): number => (butt.onFrame ? butt.bay : butt.bay + 0.5);

const lengthwise = (butt: Butt, stations: Millimetres[]): Millimetres =>
  butt.onFrame ? stations[butt.bay] : bayMiddle(stations, butt.bay);

const inWords = (butt: Butt): string =>
  `strake ${butt.strake} ${butt.onFrame ? `on frame ${butt.bay}` : `between frames ${butt.bay} and ${butt.bay + 1}`}`;

/** Three butts in neighbouring strakes that step the same way by the same number of bays. */
function steppingFaults(butts: Butt[]): ButtFault[] {
  const at = (side: Side, strake: number, place: number): Butt | undefined =>
    butts.find((butt) => butt.side === side && butt.strake === strake && placeOf(butt) === place);
  return butts.flatMap((low) =>
    butts
      .filter((middle) => middle.side === low.side && middle.strake === low.strake + 1)
      .flatMap((middle) => {
        const step = placeOf(middle) - placeOf(low);
        if (step === 0 || Math.abs(step) > BUTT_RULES.steppingInLine.value) return [];
        const high = at(low.side, low.strake + 2, placeOf(middle) + step);
        if (high === undefined) return [];
        const says = `${[low, middle, high].map(inWords).join(', ')} step in a line`;
        return [
          { rule: 'steppingInLine' as const, butts: [low, middle, high], says, weight: 'guide' as const },
        ];
      }),
  );
}
