import { need } from '../refusal.js';
import { countsNeeded } from './check-book.js';
import { type Counts, type MethodBook, type Step } from './method.js';

/** Person-minutes of one step on a usual day; 0 for what passes by itself, for holds and for what is left out. */
function stepMinutes(book: MethodBook, step: Step, counts: Counts): number {
  const { estimate } = step;
  if (estimate === null || countsNeeded(step).some((name) => (counts[name] ?? 0) === 0)) return 0;
  if (estimate.by === 'count') return rateMinutes(book, estimate.rate, counts[estimate.count] ?? 0);
  if (estimate.by === 'work')
    return estimate.personMinutes.likely * (estimate.each === null ? 1 : (counts[estimate.each] ?? 0));
  return step.kind === 'fixed' ? estimate.minutes.likely * step.crew.efficient : 0;
}

/** Person-minutes that a method takes on an element with these counts, on usual days. */
export function likelyMinutes(book: MethodBook, methodKey: string, counts: Counts): number {
  const method = book.methods.find((one) => one.key === methodKey);
  need(method !== undefined, 'method', `there is no method "${methodKey}"`, 'a method of this book');
  return method.steps.reduce((sum, step) => sum + stepMinutes(book, step, counts), 0);
}

/** Person-minutes for so many at one of the book's rates. */
export function rateMinutes(book: MethodBook, rateKey: string, count: number): number {
  const rate = book.rates.find((one) => one.key === rateKey);
  need(rate !== undefined, 'rate', `there is no rate "${rateKey}"`, 'a rate of this book');
  return Math.round((count / rate.likely) * 60);
}
