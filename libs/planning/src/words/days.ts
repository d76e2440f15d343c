import { daysBetween, instantToLocal, weekdayOf } from '@ribband/platform';

const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const weekdays = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

/** By weekday, Monday first: 'on Saturdays'. */
export const weekdayNames = [
  'Mondays',
  'Tuesdays',
  'Wednesdays',
  'Thursdays',
  'Fridays',
  'Saturdays',
  'Sundays',
] as const;

/** Days and times at one yard, in words. */
export class DayWords {
  constructor(
    private readonly timeZone: string,
    /** The year that goes without saying. */
    private readonly year: string,
  ) {}

  /** '14 Sep', with the year where it is another one. */
  day(day: string): string {
    const [year, month, date] = day.split('-');
    const short = `${String(Number(date))} ${months[Number(month) - 1] ?? ''}`;
    return year === this.year ? short : `${short} ${String(year)}`;
  }

  /** 'Wed 14 Sep'. */
  weekday(day: string): string {
    return `${weekdays[weekdayOf(day) - 1] ?? ''} ${this.day(day)}`;
  }

  /** The local day that an instant falls on. */
  dayOf(instant: number): string {
    return instantToLocal(instant, this.timeZone).day;
  }

  at(instant: number): string {
    return this.day(this.dayOf(instant));
  }

  atWeekday(instant: number): string {
    return this.weekday(this.dayOf(instant));
  }
}

/** '1 day', '32 days'. */
export function count(number: number, one: string, many = `${one}s`): string {
  return `${String(number)} ${number === 1 ? one : many}`;
}

/** '90 minutes', '5 hours', '2.5 hours', '3 days'; days only of the calendar. */
export function span(minutes: number, isElapsed: boolean): string {
  if (minutes < 120 && minutes % 60 !== 0) return count(minutes, 'minute');
  if (isElapsed && minutes >= 2880) return count(Math.round(minutes / 144) / 10, 'day');
  return count(Math.round(minutes / 6) / 10, 'hour');
}

/** Calendar days from one instant to another, as the yard's days count. */
export function daysFromTo(words: DayWords, from: number, to: number): number {
  return daysBetween(words.dayOf(from), words.dayOf(to));
}

/** 'a', 'a and b', 'a, b and c'. */
export function listOf(items: readonly string[]): string {
  const last = items.at(-1) ?? '';
  return items.length < 2 ? last : `${items.slice(0, -1).join(', ')} and ${last}`;
}
