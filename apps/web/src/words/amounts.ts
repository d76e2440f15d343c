/** Amounts of time, work and people in words. */

const smallNumbers = [
  'no',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
];

/** Small whole numbers as words, larger ones with a comma at thousands. */
export function sayNumber(value: number): string {
  return smallNumbers[value] ?? value.toLocaleString('en');
}

/** `count(1, 'nail')` is "1 nail", `count(2, 'foot', 'feet')` is "2 feet". */
export function count(value: number, one: string, many = `${one}s`): string {
  return `${value.toLocaleString('en')} ${value === 1 ? one : many}`;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

export function lowerFirst(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}

/** "a, b and c" */
export function list(items: string[], last = 'and'): string {
  if (items.length < 2) return items.join('');
  return `${items.slice(0, -1).join(', ')} ${last} ${items.at(-1)}`;
}

const quarters = ['', '¼', '½', '¾'];

/** Minutes as hours to the nearest quarter: "5 hours", "1½ hours", "20 minutes". */
export function sayMinutes(minutes: number): string {
  if (minutes < 60) return count(Math.round(minutes), 'minute');
  const hours = figure(minutes / 60);
  return hours === '1' ? '1 hour' : `${hours} hours`;
}

/** Time that passes by itself: hours, then days, then weeks. */
export function sayElapsed(minutes: number): string {
  if (minutes < 2 * 1440) return sayMinutes(minutes);
  const days = Math.round(minutes / 1440);
  return days % 7 === 0 ? count(days / 7, 'week') : count(days, 'day');
}

/** A figure to the nearest quarter, as it is pencilled: "12½". */
export function figure(value: number): string {
  const inQuarters = Math.round(value * 4);
  const whole = Math.floor(inQuarters / 4);
  const rest = quarters[inQuarters % 4] ?? '';
  return whole === 0 && rest ? rest : `${whole.toLocaleString('en')}${rest}`;
}

/** Person-minutes of work: "12½ person-hours". */
export function sayWork(personMinutes: number): string {
  const hours = figure(personMinutes / 60);
  return hours === '1' ? '1 person-hour' : `${hours} person-hours`;
}

/** A rate to two significant figures: "3.6", "12". */
export function sayRate(value: number): string {
  return String(Number(value.toPrecision(2)));
}

/** Days to spare against the launch: days below two weeks, then weeks, since nobody knows it better than that. */
export function saySpare(days: number): string {
  if (days === 0) return 'nothing to spare';
  const span = Math.abs(days);
  return `${span < 14 ? sayDays(span) : sayWeeks(span)} ${days > 0 ? 'to spare' : 'late'}`;
}

function sayDays(days: number): string {
  return `${sayNumber(days)} ${days === 1 ? 'day' : 'days'}`;
}

function sayWeeks(days: number): string {
  return `${days % 7 === 0 ? '' : 'about '}${sayNumber(Math.round(days / 7))} weeks`;
}

/** Cents of the yard's currency as whole dollars. */
export function sayDollars(cents: number): string {
  return `$${Math.round(cents / 100).toLocaleString('en')}`;
}
