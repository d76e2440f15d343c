import { Audit, permit, type Caller } from '@ribband/access';
import { airFault, type PermitKind, YardDay } from '@ribband/crew';
import { addDays, Database, isDay, newId, refuse, YardClock } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { IsNull, type EntityManager } from 'typeorm';
import { RosterView } from '../roster-view/roster-view.js';
import { Task } from '../tasks/task.entity.js';
import { dayBounds } from '../tasks/yard-board.js';
import { wordsGiven, wordsOrNull } from '../words.js';
import { Permit } from './permit.entity.js';

export interface PermitDraft {
  kind: PermitKind;
  taskId: string | null;
  by: string;
  /** Last day; closed spaces and hot work end with the day's turnout whatever it says. */
  untilOn: string | null;
  oxygenPercent: number | null;
  flammablePercent: number | null;
  note: string | null;
}

/** Permits of whole days last no longer than this without another look. Common practice. */
const longestPermitDays = 92;

/** Permits as people at the yard write them down. */
@Injectable()
export class Permits {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(YardDay) private readonly yardDay: YardDay,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(RosterView) private readonly roster: RosterView,
  ) {}

  /** Not closed and not over, soonest to end first; at most 200. */
  async openPermits({ organisationId }: Caller): Promise<Permit[]> {
    const now = await this.clock.now(organisationId);
    const rows = await this.database.read.find(Permit, {
      where: { organisationId, closedAt: IsNull() },
      order: { expiresAt: 'ASC', id: 'ASC' },
    });
    return rows.filter((row) => row.expiresAt > now).slice(0, 200);
  }

  /** Writes down that a competent person has looked. Readings outside their limits are not taken. */
  async openPermit(caller: Caller, draft: PermitDraft): Promise<Permit> {
    permit(caller, 'shipwright', 'coordinator', 'director');
    const by = wordsGiven(draft.by, 'by', 2, 200, 'The name of who looked.');
    const note = wordsOrNull(draft.note, 'note', 1000, 'The note');
    const endsWithTurnout = draft.kind === 'enclosed-space' || draft.kind === 'hot-work';
    const fault = draft.kind === 'enclosed-space' ? airFault(draft) : null;
    if (fault !== null)
      refuse('BAD_INPUT', fault, {
        field: 'oxygenPercent',
        remedy: 'Nobody goes in. Ventilate, measure again, and write the new reading down.',
      });
    return this.database.write(async (manager) => {
      const { organisationId } = caller;
      const now = await this.clock.now(organisationId, manager);
      const today = await this.yardDay.today(organisationId, manager);
      if (draft.taskId !== null && !(await manager.findOneBy(Task, { organisationId, id: draft.taskId })))
        refuse('NOT_FOUND', 'There is no such task.', { field: 'taskId' });
      const row: Permit = {
        ...draft,
        id: newId('permit'),
        organisationId,
        by,
        note,
        opensAt: now,
        expiresAt: endsWithTurnout
          ? await this.endOfTurnout(manager, organisationId, today, now)
          : await this.endOfDay(manager, organisationId, lastDay(draft.untilOn, today)),
        closedAt: null,
        closedBy: null,
      };
      delete (row as Partial<PermitDraft>).untilOn;
      await manager.insert(Permit, row);
      await this.audit.note(manager, caller, 'openPermit', row.id, { kind: row.kind, by });
      return row;
    });
  }

  async closePermit(caller: Caller, id: string): Promise<Permit> {
    permit(caller, 'shipwright', 'coordinator', 'director');
    return this.database.write(async (manager) => {
      const row =
        (await manager.findOneBy(Permit, { organisationId: caller.organisationId, id })) ??
        refuse('NOT_FOUND', 'There is no such permit.', { field: 'id' });
      if (row.closedAt === null) {
        row.closedAt = await this.clock.now(caller.organisationId, manager);
        row.closedBy = caller.name;
        await manager.save(Permit, row);
        await this.audit.note(manager, caller, 'closePermit', id, {});
      }
      return row;
    });
  }

  private async endOfTurnout(
    manager: EntityManager,
    organisationId: string,
    today: string,
    now: number,
  ): Promise<number> {
    const turnout = (await this.roster.turnouts(manager, organisationId)).find(
      ({ on, endsAt }) => on === today && endsAt > now,
    );
    return (
      turnout?.endsAt ??
      refuse('BAD_INPUT', 'This permit ends with the day’s turnout, and none is left today.', {
        field: 'kind',
        remedy: 'Look and measure on the day itself.',
      })
    );
  }

  private async endOfDay(manager: EntityManager, organisationId: string, day: string): Promise<number> {
    return dayBounds(await this.yardDay.zone(organisationId, manager)).endOf(day);
  }
}

function lastDay(untilOn: string | null, today: string): string {
  const latest = addDays(today, longestPermitDays);
  if (untilOn === null || !isDay(untilOn) || untilOn < today || untilOn > latest)
    refuse('BAD_INPUT', 'A permit has a last day, at most a quarter of a year ahead.', {
      field: 'untilOn',
      remedy: `A day from ${today} to ${latest}.`,
    });
  return untilOn;
}
