import { type Caller, Audit, permit } from '@ribband/access';
import {
  addDays,
  Bus,
  Database,
  daysBetween,
  isDay,
  newId,
  refuse,
  Revisions,
  YardClock,
} from '@ribband/platform';
import { wordsOrNull } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { Between, In, IsNull, type EntityManager } from 'typeorm';
import { RosterMessages } from '../news/roster-messages.js';
import { tellRoster } from '../roster-news.js';
import { callOff } from './call-off.js';
import { ClosedDayEntity } from './closed-day.entity.js';
import { relayOut } from './relay-out.js';
import { TurnoutEntity } from './turnout.entity.js';
import { yardDays } from './yard-days.js';

/** Days on which the yard is closed. */
export interface Closure {
  fromOn: string;
  toOn: string;
  name: string | null;
  /** Whether it comes back every year, as far as turnouts are laid out. */
  yearly: boolean;
}

/** As many as a yard document holds. */
const mostDays = 1000;
const longestClosure = 366;

/** The days on which a yard is closed. */
export async function closedOn(manager: EntityManager, organisationId: string): Promise<ReadonlySet<string>> {
  const rows = await manager.findBy(ClosedDayEntity, { organisationId });
  return new Set(rows.map((row) => row.closedOn));
}

/** The yard's holidays, kept day by day. */
@Injectable()
export class ClosedDays {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(Bus) private readonly bus: Bus,
    @Inject(RosterMessages) private readonly messages: RosterMessages,
  ) {}

  list(caller: Caller): Promise<ClosedDayEntity[]> {
    return this.database.read.find(ClosedDayEntity, {
      where: { organisationId: caller.organisationId },
      order: { closedOn: 'ASC' },
      take: mostDays,
    });
  }

  /**
   * Closes the yard; days that are closed already stay as they are. No turnout is laid out on closed days. One to which
   * people are posted, or that was added by hand, is called off with the same reason, or kept.
   * @returns the new days, and those turnouts
   */
  async close(
    caller: Caller,
    closures: readonly Closure[],
    keepsTurnouts: boolean,
  ): Promise<{ closedDays: ClosedDayEntity[]; turnouts: TurnoutEntity[] }> {
    permit(caller, 'director', 'coordinator');
    if (closures.length === 0)
      refuse('BAD_INPUT', 'No days are named.', {
        field: 'closures',
        remedy: 'Name or tick at least one holiday.',
      });
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const laidOut = await yardDays(manager, organisationId);
      if (!laidOut) refuse('NOT_FOUND', 'There is no haul-out yet.', { remedy: 'Import a yard first.' });
      const known = await closedOn(manager, organisationId);
      const named = new Map<string, string | null>();
      refuseMany(closures.reduce((sum, closure) => sum + daysIn(closure, laidOut.lastDay), 0));
      for (const closure of closures) {
        const reason = wordsOrNull(closure.name, 'name', 500, 'What it is called');
        for (const day of daysOf(closure, laidOut.lastDay))
          if (!known.has(day) && !named.has(day)) named.set(day, reason);
      }
      if (named.size === 0)
        refuse('ALREADY_EXISTS', 'The yard is closed then already.', {
          field: 'fromOn',
          remedy: 'Name other days.',
        });
      refuseMany(known.size + named.size);
      const closedDays = [...named].map(([day, reason]): ClosedDayEntity => ({
        ...{ id: newId('closedday'), organisationId, closedOn: day, reason },
      }));
      for (let at = 0; at < closedDays.length; at += 200)
        await manager.insert(ClosedDayEntity, closedDays.slice(at, at + 200));
      const now = await this.clock.now(organisationId, manager);
      await relayOut(manager, organisationId, now);
      const usual = await manager.find(TurnoutEntity, {
        where: { organisationId, kind: IsNull(), cancelledAt: IsNull() },
        order: { startsAt: 'ASC' },
      });
      const turnouts: TurnoutEntity[] = [];
      for (const turnout of usual.filter(({ heldOn, endsAt }) => named.has(heldOn) && endsAt > now)) {
        const reason = named.get(turnout.heldOn) ?? 'The yard is closed that day.';
        turnouts.push(keepsTurnouts ? turnout : await callOff(manager, this.messages, turnout, reason, now));
      }
      await this.audit.note(manager, caller, 'closeDays', closedDays[0]?.id ?? '', { days: named.size });
      await this.changed(manager, organisationId, 'days were closed');
      return { closedDays, turnouts };
    });
  }

  /** Opens days again; turnouts follow the rules there once more. One that was called off stays so. */
  async reopen(caller: Caller, fromOn: string, toOn: string): Promise<ClosedDayEntity[]> {
    permit(caller, 'director', 'coordinator');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const rows = await manager.findBy(ClosedDayEntity, { organisationId, closedOn: Between(fromOn, toOn) });
      if (rows.length === 0)
        refuse('NOT_FOUND', 'The yard is open then.', {
          field: 'fromOn',
          remedy: 'Name days that are closed.',
        });
      await manager.delete(ClosedDayEntity, { id: In(rows.map(({ id }) => id)) });
      await relayOut(manager, organisationId, await this.clock.now(organisationId, manager));
      await this.audit.note(manager, caller, 'reopenDays', rows[0]?.id ?? '', { days: rows.length });
      await this.changed(manager, organisationId, 'closed days were opened');
      return rows;
    });
  }

  private async changed(manager: EntityManager, organisationId: string, why: string): Promise<void> {
    await this.revisions.requestPlan(manager, organisationId, why);
    tellRoster(this.bus, manager, organisationId, []);
  }
}

function refuseMany(days: number): void {
  if (days > mostDays)
    refuse('BAD_INPUT', `That would be more than ${mostDays} closed days.`, {
      field: 'toOn',
      remedy: 'Close fewer days, or for a yearly one name a first day that is not so long ago.',
    });
}

/**
 * How many days it is at most, before they are written out.
 * @throws RefusalError for what are no days, or too many at once
 */
function daysIn({ fromOn, toOn, yearly }: Closure, lastDay: string): number {
  for (const [field, day] of Object.entries({ fromOn, toOn }))
    if (!isDay(day))
      refuse('BAD_INPUT', `"${day}" is not a day.`, { field, remedy: 'A day such as 2027-12-24.' });
  const length = daysBetween(fromOn, toOn) + 1;
  if (length < 1 || length > longestClosure)
    refuse('BAD_INPUT', length < 1 ? 'The last day is before the first.' : 'That is longer than a year.', {
      field: 'toOn',
      remedy: `A day from ${fromOn} on, at most a year later.`,
    });
  return length * yearsOf({ fromOn, yearly }, lastDay);
}

function daysOf(closure: Closure, lastDay: string): string[] {
  const { fromOn, toOn } = closure;
  const length = daysBetween(fromOn, toOn) + 1;
  return Array.from({ length: yearsOf(closure, lastDay) }, (_, later) => inYear(fromOn, later)).flatMap(
    (first) =>
      // A leap day is a holiday in leap years.
      isDay(first) ? Array.from({ length }, (_, i) => addDays(first, i)) : [],
  );
}

/** In how many years it is, the first among them. */
const yearsOf = ({ fromOn, yearly }: Pick<Closure, 'fromOn' | 'yearly'>, lastDay: string): number =>
  yearly ? Math.max(0, Number(lastDay.slice(0, 4)) - Number(fromOn.slice(0, 4))) + 1 : 1;

const inYear = (day: string, later: number): string =>
  `${String(Number(day.slice(0, 4)) + later).padStart(4, '0')}${day.slice(4)}`;
