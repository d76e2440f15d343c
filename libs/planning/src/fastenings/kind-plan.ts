import { buyBy } from '@ribband/hull';
import { addDays, daysBetween } from '@ribband/platform';

/** First and last day on which something is planned. */
export interface Days {
  from: string;
  until: string;
}

/** Where work lies in the plan, local days; null where none of it is planned. */
export function daysOf(spans: readonly { from: string; until: string }[]): Days | null {
  if (spans.length === 0) return null;
  const first = spans.map((span) => span.from).sort();
  const last = spans.map((span) => span.until).sort();
  return { from: first[0] ?? '', until: last.at(-1) ?? '' };
}

/**
 * By when what will be wanting has to be ordered, in words, with the day.
 * @param short how many will be wanting
 * @param drivenFrom first day on which such fastenings are driven; null where the plan has none
 */
export function orderWords(
  short: number,
  drivenFrom: string | null,
  leadDays: number,
  today: string,
  inWords: (day: string) => string,
): { on: string | null; words: string } {
  if (short <= 0) return { on: null, words: 'Nothing to buy, by the scrap seen so far.' };
  if (drivenFrom === null)
    return { on: null, words: `${short} to buy; the plan does not say yet when the first is driven.` };
  const found = buyBy(short, daysBetween(today, drivenFrom), leadDays, spareDays, 0);
  switch (found.kind) {
    case 'nothing to buy':
      return { on: null, words: 'Nothing to buy, by the scrap seen so far.' };
    case 'by': {
      const on = addDays(today, found.day);
      return {
        on,
        words: `${short} to order by ${inWords(on)}: the first is driven on ${inWords(drivenFrom)}.`,
      };
    }
    case 'too late':
      return {
        on: addDays(today, -found.daysLate),
        words: `${short} to order now: ${found.daysLate} days too late for the first, driven on ${inWords(drivenFrom)}.`,
      };
  }
}

/** A week between the day on which they come and the first blow: to gauge and to sort. Common practice, no source. */
const spareDays = 7;
