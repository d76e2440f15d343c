import { type Caller, Audit, permit } from '@ribband/access';
import {
  Bus,
  checkRule,
  Database,
  expectVersion,
  newId,
  refuse,
  Revisions,
  YardClock,
} from '@ribband/platform';
import { wordsOrNull } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { Between, In, IsNull, Not, type EntityManager } from 'typeorm';
import { RosterMessages } from '../news/roster-messages.js';
import { tellRoster } from '../roster-news.js';
import { callOff, refuseSameStart, saidWhy } from './call-off.js';
import { ClosedDayEntity } from './closed-day.entity.js';
import { overlap, relayOut, slotOf, wantedTurnouts } from './relay-out.js';
import { TurnoutRuleEntity } from './turnout-rule.entity.js';
import { TurnoutEntity } from './turnout.entity.js';
import { turnoutTimes } from './turnout-times.js';
import { yardDays } from './yard-days.js';

/** Most turnouts that one question is answered with. */
const mostTurnouts = 100;

export interface NewTurnout {
  on: string;
  startTime: string;
  endTime: string;
  note?: string | null;
}

export interface TurnoutRuleEdit {
  /** Null for a new rule. */
  id?: string | null;
  version?: number | null;
  rule: string;
  startsOn: string;
  untilOn?: string | null;
  startTime: string;
  endTime: string;
}

/** When the yard works: rules, closed days and dated turnouts. */
@Injectable()
export class Turnouts {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(Bus) private readonly bus: Bus,
    @Inject(RosterMessages) private readonly messages: RosterMessages,
  ) {}

  /** The turnouts of some days in order of time, the first 100 of them; anybody at the yard may know. */
  between(caller: Caller, from: string, to: string): Promise<TurnoutEntity[]> {
    if (to < from)
      refuse('BAD_INPUT', 'The last day is before the first.', {
        field: 'to',
        remedy: `Name ${from} or a later day.`,
      });
    return this.database.read.find(TurnoutEntity, {
      where: { organisationId: caller.organisationId, heldOn: Between(from, to) },
      order: { startsAt: 'ASC' },
      take: mostTurnouts,
    });
  }

  rules(caller: Caller): Promise<TurnoutRuleEntity[]> {
    return this.database.read.find(TurnoutRuleEntity, {
      where: { organisationId: caller.organisationId },
      order: { id: 'ASC' },
      take: mostTurnouts,
    });
  }

  /** One more turnout, besides the rules. */
  async add(caller: Caller, input: NewTurnout): Promise<TurnoutEntity> {
    permit(caller, 'director', 'coordinator');
    return this.change(caller, 'addTurnout', 'a turnout was added', async (manager) => {
      const times = turnoutTimes(await this.zone(manager, caller), input);
      const organisationId = caller.organisationId;
      const others = await manager.findBy(TurnoutEntity, {
        organisationId,
        kind: IsNull(),
        cancelledAt: IsNull(),
      });
      const other = others.find((one) => overlap(one, times));
      if (other)
        refuse(
          'ALREADY_EXISTS',
          `There is a turnout on ${other.heldOn} from ${other.startTime} to ${other.endTime}.`,
          {
            field: 'startTime',
            remedy: 'Choose hours that don’t overlap it.',
          },
        );
      if (await manager.existsBy(ClosedDayEntity, { organisationId, closedOn: input.on }))
        refuse('BAD_INPUT', `The yard is closed on ${input.on}.`, {
          field: 'on',
          remedy: 'Choose another day.',
        });
      const same = await manager.findOneBy(TurnoutEntity, {
        organisationId,
        heldOn: input.on,
        startTime: input.startTime,
      });
      if (same?.kind) refuseSameStart(same);
      if (same && same.endTime !== input.endTime)
        refuse('ALREADY_EXISTS', `A turnout of ${same.startTime} to ${same.endTime} was called off there.`, {
          field: 'endTime',
          remedy: 'Give it the same hours to hold it after all, or another start.',
        });
      const row: TurnoutEntity = {
        id: same?.id ?? newId('turnout'),
        organisationId,
        ruleId: same?.ruleId ?? null,
        kind: null,
        version: (same?.version ?? 0) + 1,
        heldOn: input.on,
        startTime: input.startTime,
        endTime: input.endTime,
        ...times,
        note: wordsOrNull(input.note, 'note', 500, 'The note'),
        cancelledAt: null,
        cancelReason: null,
      };
      return manager.save(TurnoutEntity, row);
    });
  }

  /** Calls a turnout off. Places on it stay as a record of who had said yes. */
  async cancel(caller: Caller, id: string, version: number, reason: string): Promise<TurnoutEntity> {
    permit(caller, 'director', 'coordinator');
    return this.change(caller, 'cancelTurnout', 'a turnout was called off', async (manager) => {
      const turnout = await this.own(manager, caller, id);
      expectVersion(turnout, version);
      const now = await this.clock.now(caller.organisationId, manager);
      if (turnout.cancelledAt !== null || turnout.endsAt <= now)
        refuse('TURNOUT_OVER', 'This turnout is over or was called off already.', { field: 'id' });
      const cancelReason = saidWhy(reason);
      return callOff(manager, this.messages, turnout, cancelReason, now);
    });
  }

  /** Adds a rule or changes one, and lays the turnouts out anew. */
  async setRule(caller: Caller, input: TurnoutRuleEdit): Promise<TurnoutRuleEntity> {
    permit(caller, 'director', 'coordinator');
    return this.change(caller, 'setTurnoutRule', 'a turnout rule was set', async (manager) => {
      const zone = await this.zone(manager, caller);
      turnoutTimes(zone, { ...input, on: input.startsOn });
      const untilOn = input.untilOn ?? null;
      const fault = checkRule(input.rule, input.startsOn, zone, untilOn);
      if (fault !== null)
        refuse('RULE_NEVER_OCCURS', fault, {
          field: 'rule',
          remedy: 'Write a rule such as FREQ=WEEKLY;BYDAY=WE,SA.',
        });
      const known = await this.knownRule(manager, caller, input);
      const { organisationId } = caller;
      const row = await manager.save(TurnoutRuleEntity, {
        id: known?.id ?? newId('turnoutrule'),
        organisationId,
        ref: known?.ref ?? `rule-${newId('r').slice(-12)}`,
        version: (known?.version ?? 0) + 1,
        rule: input.rule,
        startsOn: input.startsOn,
        untilOn,
        startTime: input.startTime,
        endTime: input.endTime,
      });
      await this.refuseOverlaps(manager, organisationId);
      await relayOut(manager, organisationId, await this.clock.now(organisationId, manager));
      return row;
    });
  }

  /** Turnouts by id, of this organisation. */
  byIds(organisationId: string, ids: readonly string[]): Promise<TurnoutEntity[]> {
    return this.database.read.findBy(TurnoutEntity, { organisationId, id: In([...ids]) });
  }

  private async change<T extends { id: string }>(
    caller: Caller,
    operation: string,
    why: string,
    work: (manager: EntityManager) => Promise<T>,
  ): Promise<T> {
    return this.database.write(async (manager) => {
      const row = await work(manager);
      await this.audit.note(manager, caller, operation, row.id);
      await this.revisions.requestPlan(manager, caller.organisationId, why);
      tellRoster(this.bus, manager, caller.organisationId, []);
      return row;
    });
  }

  private async own(manager: EntityManager, caller: Caller, id: string): Promise<TurnoutEntity> {
    const turnout = await manager.findOneBy(TurnoutEntity, { id, organisationId: caller.organisationId });
    return turnout ?? refuse('NOT_FOUND', 'There is no such turnout.', { field: 'id' });
  }

  private async knownRule(
    manager: EntityManager,
    caller: Caller,
    input: TurnoutRuleEdit,
  ): Promise<TurnoutRuleEntity | null> {
    if (input.id === undefined || input.id === null) return null;
    const known = await manager.findOneBy(TurnoutRuleEntity, {
      id: input.id,
      organisationId: caller.organisationId,
    });
    if (!known) return refuse('NOT_FOUND', 'There is no such rule.', { field: 'id' });
    expectVersion(known, input.version ?? 0);
    return known;
  }

  private async refuseOverlaps(manager: EntityManager, organisationId: string): Promise<void> {
    const wanted = await wantedTurnouts(manager, organisationId);
    const slots = new Set(wanted.map(slotOf));
    const special = await manager.findBy(TurnoutEntity, { organisationId, kind: Not(IsNull()) });
    const same = special.find((turnout) => slots.has(slotOf(turnout)));
    if (same) refuseSameStart(same);
    const clash = wanted.find((turnout, i) => {
      const before = wanted[i - 1];
      return before !== undefined && overlap(before, turnout);
    });
    if (clash)
      refuse('BAD_INPUT', `With this rule two turnouts would overlap on ${clash.heldOn}.`, {
        field: 'startTime',
        remedy: 'Choose hours that don’t overlap those of another rule.',
      });
  }

  private async zone(manager: EntityManager, caller: Caller): Promise<string> {
    const days = await yardDays(manager, caller.organisationId);
    return (
      days?.timeZone ?? refuse('NOT_FOUND', 'There is no haul-out yet.', { remedy: 'Import a yard first.' })
    );
  }
}
