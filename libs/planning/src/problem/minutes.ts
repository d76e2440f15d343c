import { addDays, localToInstant } from '@ribband/platform';
import type { YardRecords } from './yard-records.js';

/** Turns instants into the engine's minutes and back. */
export class PlanClock {
  private constructor(
    /** The instant of minute 0. */
    readonly epochAt: number,
    readonly timeZone: string,
  ) {}

  static at(epochAt: number, timeZone: string): PlanClock {
    return new PlanClock(epochAt, timeZone);
  }

  /** Minute 0 is the local midnight before the earliest record: the haul-out, or work begun before it. */
  static of(yard: Pick<YardRecords, 'timeZone' | 'hauledOutOn' | 'tasks'>): PlanClock {
    const haulOut = localToInstant(yard.hauledOutOn, '00:00', yard.timeZone);
    const first = yard.tasks.reduce((least, task) => Math.min(least, task.startedAt ?? least), haulOut);
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
    return this.minute(localToInstant(day, '00:00', this.timeZone));
  }

  /** The minute at which a day ends at the yard. */
  endOfDay(day: string): number {
    return this.startOfDay(addDays(day, 1));
  }
}
