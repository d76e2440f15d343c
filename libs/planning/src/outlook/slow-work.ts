import type { Reason } from './event-words.js';

/** What was done of one kind of counted work in a while. */
export interface WorkDone {
  /** What is counted. */
  name: string;
  /** Pieces a person-hour that the book has as likeliest. */
  likely: number;
  count: number;
  /** Person-hours. */
  hours: number;
}

/** From less than this much work nobody would say that it goes slowly. Common practice, no source. */
const leastHours = 5;
/** Below this share of the book's pace. */
const slow = 0.8;

/** Kinds of work that went more slowly than the book has it, as clauses after "since". */
export function slowWork(done: readonly WorkDone[]): Reason[] {
  return done.flatMap(({ name, likely, count, hours }) => {
    if (hours < leastHours || count / hours >= slow * likely) return [];
    const figure = (pace: number) => String(Number(pace.toPrecision(2)));
    const words = `${name} went slower than the book (${figure(count / hours)} an hour, not ${figure(likely)})`;
    return [{ words, way: 'later' }];
  });
}
