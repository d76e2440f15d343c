import { list } from './amounts.js';
import { sayShortDay } from './dates.js';

/** Rules of attendance: RFC 5545 inside, plain words outside. */

export const weekdays = [
  { code: 'MO', name: 'Monday' },
  { code: 'TU', name: 'Tuesday' },
  { code: 'WE', name: 'Wednesday' },
  { code: 'TH', name: 'Thursday' },
  { code: 'FR', name: 'Friday' },
  { code: 'SA', name: 'Saturday' },
  { code: 'SU', name: 'Sunday' },
] as const;

export type Weekday = (typeof weekdays)[number]['code'];

export const rhythms = [
  { value: 'weekly', words: 'every week' },
  { value: 'fortnightly', words: 'every other week' },
  { value: 'first', words: 'the first of the month' },
  { value: 'second', words: 'the second of the month' },
  { value: 'third', words: 'the third of the month' },
  { value: 'fourth', words: 'the fourth of the month' },
  { value: 'last', words: 'the last of the month' },
] as const;

export type Rhythm = (typeof rhythms)[number]['value'];

const ordinals: Partial<Record<string, string>> = {
  '1': 'first',
  '2': 'second',
  '3': 'third',
  '4': 'fourth',
  '-1': 'last',
};
const ordinalNumbers: Partial<Record<Rhythm, number>> = {
  first: 1,
  second: 2,
  third: 3,
  fourth: 4,
  last: -1,
};

/** The rule for "every other Saturday" and its like. */
export function makeRule(rhythm: Rhythm, days: Weekday[]): string {
  const ordered = weekdays.map((day) => day.code).filter((code) => days.includes(code));
  if (rhythm === 'weekly') return `FREQ=WEEKLY;BYDAY=${ordered.join(',')}`;
  if (rhythm === 'fortnightly') return `FREQ=WEEKLY;INTERVAL=2;BYDAY=${ordered.join(',')}`;
  const ordinal = ordinalNumbers[rhythm] ?? 1;
  return `FREQ=MONTHLY;BYDAY=${ordered.map((code) => `${ordinal}${code}`).join(',')}`;
}

/** "every Wednesday and Saturday"; null when the rule says more than this can put in words. */
export function sayRule(rule: string): string | null {
  const parts = new Map(
    rule
      .replace(/^RRULE:/, '')
      .split(';')
      .map((part) => part.split('=') as [string, string]),
  );
  const known = new Set(['FREQ', 'INTERVAL', 'BYDAY', 'UNTIL', 'WKST']);
  if ([...parts.keys()].some((key) => !known.has(key))) return null;
  const days = (parts.get('BYDAY') ?? '').split(',').filter(Boolean).map(readDay);
  if (days.some((day) => day === null)) return null;
  const interval = Number(parts.get('INTERVAL') ?? '1');
  const named = days as { ordinal: string; name: string }[];
  const until = readUntil(parts.get('UNTIL'));
  const said = sayFrequency(parts.get('FREQ') ?? '', interval, named);
  return said && `${said}${until}`;
}

function sayFrequency(
  frequency: string,
  interval: number,
  days: { ordinal: string; name: string }[],
): string | null {
  const plain = days.every((day) => day.ordinal === '');
  const names = list(days.map((day) => day.name));
  if (frequency === 'DAILY' && !days.length && interval === 1) return 'every day';
  if (frequency === 'WEEKLY' && plain && days.length) {
    if (interval === 1) return `every ${names}`;
    if (interval === 2) return `every other ${names}`;
    return `every ${interval} weeks on ${names}`;
  }
  if (
    frequency === 'MONTHLY' &&
    interval === 1 &&
    days.length &&
    days.every((day) => ordinals[day.ordinal])
  ) {
    const one = new Set(days.map((day) => day.name)).size === 1;
    const each = days.map(({ ordinal, name }) => `${ordinals[ordinal] ?? ''}${one ? '' : ` ${name}`}`);
    return `the ${list(each)}${one ? ` ${days[0]?.name}` : ''} of the month`;
  }
  return null;
}

function readDay(text: string): { ordinal: string; name: string } | null {
  const match = /^(-?\d+)?(MO|TU|WE|TH|FR|SA|SU)$/.exec(text);
  const name = weekdays.find((day) => day.code === match?.[2])?.name;
  return match && name ? { ordinal: match.at(1) ?? '', name } : null;
}

/** UNTIL is a day or an instant; its day is near enough for words. */
function readUntil(text: string | undefined): string {
  const match = /^(\d{4})(\d{2})(\d{2})/.exec(text ?? '');
  return match ? `, until ${sayShortDay(`${match[1]}-${match[2]}-${match[3]}`, '')}` : '';
}
