import { createHash } from 'node:crypto';
import { Audit, Organisation, permit, type Caller } from '@ribband/access';
import { Volunteer, YardDay } from '@ribband/crew';
import { addDays, Database, instantToLocal, newId, RealClock, refuse, YardClock } from '@ribband/platform';
import { Task, wordsOf } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { In, IsNull, type EntityManager } from 'typeorm';
import { GrantReportEntity, HourClaimEntity } from './grant-report.entity.js';
import { grantOf } from './grants.service.js';
import { entriesBetween, periodOf, yardNow } from './hour.records.js';
import { HourRateEntity } from './hour-rate.entity.js';
import { type Countable, layOutReport, reportCsv, type ReportDocument } from './report-document.js';
import { WorkKindEntity } from './work-kind.entity.js';

interface Wanted {
  grantId: string;
  from: string;
  to: string;
}

const readers = ['director', 'coordinator'] as const;

/** Reports of hours to those who give grants. */
@Injectable()
export class GrantReports {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(RealClock) private readonly realClock: RealClock,
    @Inject(YardDay) private readonly yardDay: YardDay,
    @Inject(Audit) private readonly audit: Audit,
  ) {}

  /** Reports that were made, newest first; at most 100. */
  list(caller: Caller): Promise<GrantReportEntity[]> {
    permit(caller, ...readers);
    const where = { organisationId: caller.organisationId };
    return this.database.read.find(GrantReportEntity, { where, order: { id: 'DESC' }, take: 100 });
  }

  /** One as it was made; null where there is none. */
  async one(caller: Caller, id: string): Promise<GrantReportEntity | null> {
    permit(caller, ...readers);
    return this.database.read.findOneBy(GrantReportEntity, { organisationId: caller.organisationId, id });
  }

  /** What a report of some days would say now. Nothing is claimed, and the days need not be closed. */
  async draft(caller: Caller, wanted: Wanted): Promise<ReportDocument> {
    permit(caller, ...readers);
    return this.database.snapshot((manager) => this.layOut(manager, caller, wanted));
  }

  /** Makes the report of days that are closed, keeps it as it is, and claims its hours for the grant. */
  async make(caller: Caller, wanted: Wanted): Promise<GrantReportEntity> {
    permit(caller, ...readers);
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      await refuseOpenDays(manager, organisationId, wanted);
      const document = await this.layOut(manager, caller, wanted);
      if (document.lines.length === 0)
        refuse('BAD_INPUT', 'No hours of these days count for this grant.', {
          field: 'from',
          remedy: 'Choose other days, or look at what the grant counts.',
          facts: document.leftOut.map(({ why, minutes }) => ({ name: why, value: `${minutes} minutes` })),
        });
      const csv = reportCsv(document);
      const report: GrantReportEntity = {
        id: newId('grantreport'),
        organisationId,
        grantId: wanted.grantId,
        fromOn: wanted.from,
        toOn: wanted.to,
        document,
        csv,
        hash: hashOfReport(document, csv),
        minutes: document.minutes,
        cents: document.cents,
        madeBy: caller.name,
        madeAt: this.realClock.now(),
        withdrawnAt: null,
        withdrawnBy: null,
        withdrawReason: null,
      };
      await manager.insert(GrantReportEntity, report);
      // One statement a row: the table has each entry once at most, whatever else is going on.
      for (const { entry } of document.lines)
        await manager.insert(HourClaimEntity, {
          id: newId('hourclaim'),
          organisationId,
          entryId: entry,
          grantId: wanted.grantId,
          reportId: report.id,
        });
      const { minutes, cents, hash } = report;
      await this.audit.note(manager, caller, 'makeGrantReport', report.id, {
        ...wanted,
        minutes,
        cents,
        hash,
      });
      return report;
    });
  }

  /** Withdraws a report: its hours may count elsewhere; what it said is kept, with who withdrew it and why. */
  async withdraw(caller: Caller, id: string, why: string): Promise<GrantReportEntity> {
    permit(caller, 'director');
    const reason = wordsOf(why, 'reason', 500, 'Why it is withdrawn');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const report =
        (await manager.findOneBy(GrantReportEntity, { organisationId, id, withdrawnAt: IsNull() })) ??
        refuse('NOT_FOUND', 'There is no such report in force.', { field: 'id', remedy: 'Read them again.' });
      const gone = {
        withdrawnAt: this.realClock.now(),
        withdrawnBy: caller.name,
        withdrawReason: reason,
      };
      await manager.update(GrantReportEntity, { id }, gone);
      await manager.delete(HourClaimEntity, { reportId: id });
      await this.audit.note(manager, caller, 'withdrawGrantReport', id, { reason });
      return Object.assign(report, gone);
    });
  }

  private async layOut(manager: EntityManager, caller: Caller, wanted: Wanted): Promise<ReportDocument> {
    const { organisationId } = caller;
    const { from, to } = wanted;
    const grant = await grantOf(manager, organisationId, wanted.grantId, 'grantId');
    if (to < from || from < grant.fromOn || to > grant.toOn)
      refuse('BAD_INPUT', `The grant counts hours from ${grant.fromOn} to ${grant.toOn}.`, {
        field: from < grant.fromOn ? 'from' : 'to',
        remedy: 'Choose days inside those, the first before the last.',
      });
    const yard = await yardNow(this.clock, this.yardDay, organisationId, manager);
    const { name: organisation } = await manager.findOneByOrFail(Organisation, { id: organisationId });
    const { id, name, funder, awardNumber, kindIds } = grant;
    const about = {
      organisation,
      grant: { id, name, funder, awardNumber, kindIds },
      from,
      to,
      madeBy: caller.name,
      madeOn: yard.today,
    };
    const entries = await countable(manager, organisationId, wanted, yard.zone);
    const rates = await manager.findBy(HourRateEntity, { organisationId });
    const laid = layOutReport(about, entries, rates);
    if ('noRate' in laid)
      return refuse('BAD_INPUT', `No rate holds for ${laid.noRate.kind} on ${laid.noRate.on}.`, {
        field: 'grantId',
        remedy: 'Add a rate for it, from that day or an earlier one, with where the figure comes from.',
      });
    return laid;
  }
}

/** Whoever has the document and the text can make it again and see that nothing was changed. */
export const hashOfReport = (document: ReportDocument, csv: string): string =>
  createHash('sha256')
    .update(`${JSON.stringify(document)}\n${csv}`)
    .digest('hex');

async function refuseOpenDays(manager: EntityManager, organisationId: string, wanted: Wanted): Promise<void> {
  for (let on = wanted.from; on <= wanted.to;) {
    const period = await periodOf(manager, organisationId, on);
    if (!period)
      return refuse('STILL_IN_USE', `The hours of ${on} are not closed yet.`, {
        field: 'from',
        remedy: 'Close the days of the report first: a report is kept as it was made.',
      });
    on = addDays(period.toOn, 1);
  }
}

/** Every entry of the days with what a report says of it. */
async function countable(
  manager: EntityManager,
  organisationId: string,
  { from, to }: Wanted,
  zone: string,
): Promise<Countable[]> {
  const entries = (await entriesBetween(manager, organisationId, from, to).getMany()).filter(
    (entry) => entry.minutes !== null && entry.minutes !== 0,
  );
  const people = await byId(manager, Volunteer, organisationId);
  const kinds = await byId(manager, WorkKindEntity, organisationId);
  const taskIds = [...new Set(entries.flatMap((entry) => entry.taskId ?? []))];
  const tasks = new Map(
    (await manager.findBy(Task, { id: In(taskIds) })).map((task) => [task.id, task.title]),
  );
  const claims = new Map(
    (await manager.findBy(HourClaimEntity, { organisationId })).map((claim) => [claim.entryId, claim]),
  );
  const time = (at: number | null) => (at === null ? null : instantToLocal(at, zone).time);
  return entries.map((entry): Countable => {
    const person = people.get(entry.volunteerId);
    return {
      entry: entry.rootId,
      on: entry.workedOn,
      person: person?.name ?? 'somebody who is no longer in the crew',
      isVolunteer: person === undefined || person.kind === 'volunteer',
      kindId: entry.kindId,
      kind: kinds.get(entry.kindId)?.name ?? '',
      task: entry.taskId === null ? null : (tasks.get(entry.taskId) ?? null),
      start: time(entry.startsAt),
      end: time(entry.endsAt),
      minutes: entry.minutes ?? 0,
      reason: entry.reason,
      claimedBy: claims.get(entry.adjustsId ?? entry.rootId)?.grantId ?? null,
      isReported: claims.has(entry.rootId),
    };
  });
}

async function byId<T extends { id: string; organisationId: string }>(
  manager: EntityManager,
  entity: new () => T,
  organisationId: string,
): Promise<Map<string, T>> {
  const rows = await manager.findBy(entity, { organisationId } as never);
  return new Map(rows.map((row) => [row.id, row]));
}
