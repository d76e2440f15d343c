import { addDays, instantToLocal, localToInstant } from '@ribband/platform';
import type { YardRecords } from './yard-records.js';

const year = 365 * 86_400_000;
/** Work that is said to have begun longer before the haul-out counts as begun then: the year was a slip of the pen. */
const longestBefore = 10 * year;
/** Days farther off than this are one to a plan, and fit into the engine's minutes. */
const farthest = 200 * year;

/** Turns instants into the engine's minutes and back. */
export class PlanClock {
  readonly #first: string;
  readonly #last: string;

  private constructor(
    /** The instant of minute 0. */
    readonly epochAt: number,
    readonly timeZone: string,
  ) {
    this.#first = instantToLocal(epochAt - farthest, timeZone).day;
    this.#last = instantToLocal(epochAt + farthest, timeZone).day;
  }

  static at(epochAt: number, timeZone: string): PlanClock {
    return new PlanClock(epochAt, timeZone);
  }

  /** Minute 0 is the local midnight before the earliest record: the haul-out, or work begun before it. */
  static of(yard: Pick<YardRecords, 'timeZone' | 'hauledOutOn' | 'tasks'>): PlanClock {
    const haulOut = localToInstant(yard.hauledOutOn, '00:00', yard.timeZone);
    const begun = yard.tasks.reduce((least, task) => Math.min(least, task.startedAt ?? least), haulOut);
    const first = Math.max(begun, haulOut - longestBefore);
    const days = Math.ceil((haulOut - first) / 86_400_000);
    const epochAt = localToInstant(addDays(yard.hauledOutOn, -days), '00:00', yard.timeZone);
    return new PlanClock(epochAt > first ? epochAt - 86_400_000 : epochAt, yard.timeZone);
  }

  /** The minute that an instant lies in. */
  minute(instant: number): number {
    return Math.floor((instant - this.epochAt) / 60_000);
  }

  /** The first minute that begins at an instant or later. */
  minuteFrom(instant: number): number {
    return Math.ceil((instant - this.epochAt) / 60_000);
  }

  instant(minute: number): number {
    return this.epochAt + minute * 60_000;
  }

  /** The minute at which a day begins at the yard. */
  startOfDay(day: string): number {
    return this.minute(localToInstant(this.#within(day), '00:00', this.timeZone));
  }

  /** The minute at which a day ends at the yard. */
  endOfDay(day: string): number {
    return this.startOfDay(addDays(this.#within(day), 1));
  }

  /** Records of before may hold any day, and none of them stops a plan. */
  #within(day: string): string {
    if (day < this.#first) return this.#first;
    return day > this.#last ? this.#last : day;
  }
}
