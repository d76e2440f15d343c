import type { PumpEntryEntity } from './pump-entry.entity.js';

export type PumpRound = Pick<PumpEntryEntity, 'readAt' | 'depthMillimetres' | 'strokes' | 'minutes'>;

export const pumpMeasures = ['depth', 'strokes', 'minutes'] as const;
export type PumpMeasure = (typeof pumpMeasures)[number];

/** How the last figures of one measure go: millimetres for depth, strokes or minutes pumped an hour for pumping. */
export interface PumpTrend {
  measure: PumpMeasure;
  goes: 'rising' | 'falling' | 'level';
  /** The round since which. */
  since: number;
  latestAt: number;
  /** What it was then, and is now. */
  from: number;
  latest: number;
  /** Change in one hour, in the measure's own unit. */
  perHour: number;
}

interface Figure {
  at: number;
  value: number;
}

const hourMillis = 3_600_000;
/** A quarter of an inch: two people read a bilge so far apart. Common practice, no source. */
const depthError = 6;
/** Pumping that differs by less than a tenth is the same. Common practice, no source. */
const rateError = 0.1;
/** What is written within five minutes is one round: no rate is taken over so short a time. */
const leastMillis = 300_000;
/** So many rounds that nobody could tell apart are a level stretch. Common practice, no source. */
const stretch = 3;

/** @param rounds those that count, in order of time */
export function pumpTrends(rounds: readonly PumpRound[]): PumpTrend[] {
  return pumpMeasures.flatMap((measure) => {
    const figures = measure === 'depth' ? depths(rounds) : rates(rounds, measure);
    return trendOf(measure, figures) ?? [];
  });
}

const depths = (rounds: readonly PumpRound[]): Figure[] =>
  rounds.flatMap(({ readAt, depthMillimetres }) =>
    depthMillimetres === null ? [] : [{ at: readAt, value: depthMillimetres }],
  );

/**
 * What was pumped in an hour since the round before, whether or not anybody counted at that one. The first says nothing
 * of how long it took to gather.
 */
function rates(rounds: readonly PumpRound[], measure: 'strokes' | 'minutes'): Figure[] {
  const counted: { at: number; amount: number | null }[] = [];
  for (const { readAt, [measure]: amount } of rounds) {
    const last = counted.at(-1);
    if (!last || readAt - last.at >= leastMillis) counted.push({ at: readAt, amount });
    else if (amount !== null) last.amount = (last.amount ?? 0) + amount;
  }
  return counted.flatMap(({ at, amount }, i) => {
    const before = counted[i - 1];
    return before && amount !== null ? [{ at, value: (amount * hourMillis) / (at - before.at) }] : [];
  });
}

function trendOf(measure: PumpMeasure, figures: readonly Figure[]): PumpTrend | null {
  const last = figures.at(-1);
  if (!last || figures.length < 2) return null;
  const isSame = (one: number, other: number) =>
    Math.abs(one - other) <= (measure === 'depth' ? depthError : rateError * Math.max(one, other));
  const said = (goes: PumpTrend['goes'], start: Figure): PumpTrend => ({
    ...{ measure, goes, since: start.at, latestAt: last.at, from: start.value, latest: last.value },
    perHour: ((last.value - start.value) * hourMillis) / Math.max(last.at - start.at, leastMillis),
  });
  const alike = alikeToLast(figures, last, isSame);
  const [first] = alike;
  const isStretch = alike.length >= stretch;
  const low = turn(figures, last, isSame, 1);
  // Slow water creeps by less than can be read in an hour: a stretch is level only where its last is no more than its first.
  if (!isSame(low.value, last.value) && !(isStretch && last.value <= first.value)) return said('rising', low);
  const high = turn(figures, last, isSame, -1);
  if (!isSame(high.value, last.value) && !isStretch) return said('falling', high);
  return said('level', first);
}

/** Back from the last to where it turned: the latest of the lowest (1) or highest (-1) before one that was beyond it again. */
function turn(
  figures: readonly Figure[],
  last: Figure,
  isSame: (one: number, other: number) => boolean,
  sign: 1 | -1,
): Figure {
  let end = last;
  for (const one of figures.toReversed()) {
    if (sign * (one.value - end.value) > 0 && !isSame(one.value, end.value)) break;
    if (sign * (end.value - one.value) > 0) end = one;
  }
  return end;
}

/** Those that have been as the last is ever since, in order of time; the last is one of them. */
function alikeToLast(
  figures: readonly Figure[],
  last: Figure,
  isSame: (one: number, other: number) => boolean,
): [Figure, ...Figure[]] {
  const unlike = figures.findLastIndex(({ value }) => !isSame(value, last.value));
  const [first = last, ...rest] = figures.slice(unlike + 1);
  return [first, ...rest];
}
