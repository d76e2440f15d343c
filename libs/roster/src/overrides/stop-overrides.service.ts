import { Audit, permit, type Caller } from '@ribband/access';
import { type Finding, type GateRuleName, ruleBook, YardDay } from '@ribband/crew';
import { Bus, Database, newId, refuse, YardClock } from '@ribband/platform';
import { Seat, wordsGiven } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { In, IsNull, type EntityManager } from 'typeorm';
import { signedInAt } from '../attendance/attendance.records.js';
import { GateBook, type SeatedAt } from '../places/gate-book.js';
import { PlaceEntity } from '../places/place.entity.js';
import { tellRoster } from '../roster-news.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { type OverrideAuthority, overrideAuthority, refuseWithoutAuthority } from './authority.js';
import { StopOverride } from './stop-override.entity.js';

/** Somebody on a task at a turnout. */
export interface StopAsked {
  turnoutId: string;
  taskId: string;
  volunteerId: string;
}

/** One rule that stops somebody there, all that it says taken together. */
export interface FoundStop {
  rule: GateRuleName;
  words: string;
  remedy: string | null;
  /** Whether the caller may set it aside. */
  mayOverride: boolean;
}

const leastReason = 10;
const mostReason = 500;

/** Stops that a named authority sets aside, with a reason, for one person on one task at one turnout. */
@Injectable()
export class StopOverrides {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(YardDay) private readonly yardDay: YardDay,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(Bus) private readonly bus: Bus,
  ) {}

  /** Those of a turnout, withdrawn ones among them, newest first; at most 200. */
  async ofTurnout(caller: Caller, turnoutId: string): Promise<StopOverride[]> {
    permit(caller, 'director', 'coordinator', 'shipwright');
    const where = { organisationId: caller.organisationId, turnoutId };
    return this.database.read.find(StopOverride, { where, order: { id: 'DESC' }, take: 200 });
  }

  /** What stops somebody on any seat of a task at a turnout, asked as on the day itself. */
  async stops(caller: Caller, asked: StopAsked): Promise<FoundStop[]> {
    permit(caller, 'director', 'coordinator', 'shipwright');
    const { organisationId } = caller;
    return this.database.snapshot(async (manager) => {
      await this.turnoutOf(manager, organisationId, asked.turnoutId);
      const authority = await this.authority(manager, caller);
      const found = await stopsOf(manager, organisationId, asked);
      return found.map((stop) => ({
        ...stop,
        mayOverride: asked.volunteerId !== caller.volunteerId && authority(stop.rule) !== null,
      }));
    });
  }

  /** Sets one stop aside. Nobody does so for themselves, and nothing is set aside that does not stop anybody. */
  async grant(caller: Caller, asked: StopAsked, rule: GateRuleName, reason: string): Promise<StopOverride> {
    const { organisationId } = caller;
    if (asked.volunteerId === caller.volunteerId)
      refuse('NOT_PERMITTED', 'Nobody sets a stop aside for themselves.', {
        field: 'volunteerId',
        remedy: 'Ask somebody else who has the authority.',
      });
    const why = wordsGiven(
      reason,
      'reason',
      leastReason,
      mostReason,
      'Why it may be, and what is done instead.',
    );
    return this.database.write(async (manager) => {
      const grantedBy = refuseWithoutAuthority(await this.authority(manager, caller), rule);
      await this.turnoutOf(manager, organisationId, asked.turnoutId);
      const known = await manager.findOneBy(StopOverride, {
        ...{ organisationId, ...asked, rule },
        withdrawnAt: IsNull(),
      });
      if (known)
        refuse('ALREADY_EXISTS', 'This is set aside already.', {
          field: 'rule',
          facts: { 'set aside by': known.grantedBy },
        });
      const stop = (await stopsOf(manager, organisationId, asked)).find((one) => one.rule === rule);
      if (!stop)
        return refuse('BAD_INPUT', `This does not stop them there: ${ruleBook[rule].says}`, {
          field: 'rule',
          remedy: 'Look again at what stops them.',
        });
      const row: StopOverride = {
        id: newId('stopoverride'),
        organisationId,
        ...asked,
        rule,
        stopped: stop.words,
        reason: why,
        grantedBy,
        grantedAt: await this.clock.now(organisationId, manager),
        withdrawnAt: null,
        withdrawnBy: null,
      };
      await manager.insert(StopOverride, row);
      await this.audit.note(manager, caller, 'overrideStop', row.id, { ...asked, rule, reason: why });
      tellRoster(this.bus, manager, organisationId, [asked.turnoutId]);
      return row;
    }, organisationId);
  }

  /** From now on the rule stops them again; a place that they have taken stays, and the week tells of it. */
  async withdraw(caller: Caller, id: string): Promise<StopOverride> {
    permit(caller, 'director', 'coordinator', 'shipwright');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const row =
        (await manager.findOneBy(StopOverride, { organisationId, id })) ??
        refuse('NOT_FOUND', 'Nothing like this was set aside.', { field: 'id', remedy: 'Read them again.' });
      if (row.withdrawnAt !== null)
        refuse('CHANGED_MEANWHILE', 'It was withdrawn already.', {
          field: 'id',
          facts: { 'withdrawn by': row.withdrawnBy ?? '' },
        });
      const gone = {
        withdrawnAt: await this.clock.now(organisationId, manager),
        withdrawnBy: caller.name,
      };
      await manager.update(StopOverride, { id }, gone);
      const { turnoutId, taskId, volunteerId, rule } = row;
      await this.audit.note(manager, caller, 'withdrawStopOverride', id, { volunteerId, taskId, rule });
      tellRoster(this.bus, manager, organisationId, [turnoutId]);
      return Object.assign(row, gone);
    }, organisationId);
  }

  private async authority(manager: EntityManager, caller: Caller): Promise<OverrideAuthority> {
    return overrideAuthority(manager, caller, await this.yardDay.today(caller.organisationId, manager));
  }

  private async turnoutOf(manager: EntityManager, organisationId: string, id: string): Promise<void> {
    const turnout =
      (await manager.findOneBy(TurnoutEntity, { organisationId, id })) ??
      refuse('NOT_FOUND', 'There is no such turnout.', { field: 'turnoutId' });
    const now = await this.clock.now(organisationId, manager);
    if (turnout.cancelledAt !== null || turnout.endsAt <= now)
      refuse('TURNOUT_OVER', 'This turnout is over or was called off.', { field: 'turnoutId' });
  }
}

/**
 * Every stop for somebody on a task, on the seat that they have there, else on each that it has and as a hand; with
 * those who are posted or have taken a place for company.
 */
async function stopsOf(
  manager: EntityManager,
  organisationId: string,
  asked: StopAsked,
): Promise<Omit<FoundStop, 'mayOverride'>[]> {
  const { turnoutId, taskId, volunteerId } = asked;
  const turnout = await manager.findOneByOrFail(TurnoutEntity, { organisationId, id: turnoutId });
  const state = In(['posted', 'taken']);
  const places = await manager.findBy(PlaceEntity, { organisationId, turnoutId, state });
  const book = await GateBook.read(
    manager,
    organisationId,
    {
      volunteerIds: [volunteerId, ...places.flatMap((place) => place.volunteerId ?? [])],
      taskIds: [taskId],
      days: new Map([[turnoutId, turnout.heldOn]]),
    },
    new Map([[turnoutId, await signedInAt(manager, organisationId, turnoutId)]]),
  );
  if (!book.hand(volunteerId))
    refuse('NOT_FOUND', 'There is no such person in the crew.', { field: 'volunteerId' });
  if (!book.job(taskId)) refuse('NOT_FOUND', 'There is no such task.', { field: 'taskId' });
  const seats = await manager.find(Seat, { where: { organisationId, taskId }, order: { id: 'ASC' } });
  const theirs = places.filter((place) => place.volunteerId === volunteerId && place.taskId === taskId);
  const any = [...seats, { skillId: null, level: 0 }].map(({ skillId, level }): SeatedAt => {
    const { startsAt, endsAt } = turnout;
    return { turnoutId, taskId, volunteerId, skillId, level, startsAt, endsAt };
  });
  const findings = (theirs.length > 0 ? theirs : any).flatMap((seat) =>
    book.findings(volunteerId, seat, places).filter(({ weight }) => weight === 'stop'),
  );
  return byRule(findings);
}

function byRule(findings: readonly Finding[]): Omit<FoundStop, 'mayOverride'>[] {
  return [...new Set(findings.map(({ rule }) => rule))].map((rule) => {
    const ofRule = findings.filter((finding) => finding.rule === rule);
    return {
      rule,
      words: [...new Set(ofRule.map(({ words }) => words))].join(' '),
      remedy: ofRule.find(({ remedy }) => remedy !== null)?.remedy ?? null,
    };
  });
}
