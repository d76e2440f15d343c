import { groupedBy, known, leaves, refsById, Skill, Volunteer } from '@ribband/crew';
import { Task } from '@ribband/repair';
import type { EntityManager, EntityTarget } from 'typeorm';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { GrantReportEntity, HourClaimEntity } from './grant-report.entity.js';
import { GrantEntity } from './grant.entity.js';
import { HourEntryEntity } from './hour-entry.entity.js';
import { HourPeriodEntity } from './hour-period.entity.js';
import { HourRateEntity } from './hour-rate.entity.js';
import type { HoursDocument } from './hours-document.js';
import { WorkKindEntity } from './work-kind.entity.js';

const { toMoment } = leaves;
const momentOf = (at: number | null): string | null => (at === null ? null : toMoment(at));

/** The hours book of an organisation, in the order of entry. */
export async function readHours(manager: EntityManager, organisationId: string): Promise<HoursDocument> {
  const rows = <T extends object>(entity: EntityTarget<T>): Promise<T[]> =>
    manager.find(entity, { where: { organisationId }, order: { id: 'ASC' } } as never);
  const skills = await refsById(manager, Skill, organisationId);
  const kinds = await rows(WorkKindEntity);
  const grants = await rows(GrantEntity);
  const kindNames = namesById(kinds);
  const grantNames = namesById(grants);
  const reports = await rows(GrantReportEntity);
  const claims = groupedBy(
    reports.map(({ id }) => id),
    await rows(HourClaimEntity),
    ({ reportId }) => reportId,
  );
  return {
    kinds: kinds.map(({ name, skillId }) => ({
      name,
      skill: skillId === null ? null : (skills.get(skillId) ?? null),
    })),
    grants: grants.map(({ name, funder, awardNumber, fromOn, toOn, kindIds }) => ({
      name,
      funder,
      awardNumber,
      from: fromOn,
      to: toOn,
      kinds: kindIds.map((id) => known(kindNames, id)),
    })),
    rates: (await rows(HourRateEntity)).map(({ kindId, grantId, fromOn, enteredAt, ...rate }) => ({
      kind: kindId === null ? null : known(kindNames, kindId),
      grant: grantId === null ? null : known(grantNames, grantId),
      from: fromOn,
      centsAnHour: rate.centsAnHour,
      source: rate.source,
      enteredBy: rate.enteredBy,
      enteredAt: toMoment(enteredAt),
    })),
    entries: await readEntries(manager, organisationId, kindNames),
    periods: (await rows(HourPeriodEntity)).map(({ fromOn, toOn, closedBy, closedAt }) => ({
      from: fromOn,
      to: toOn,
      closed: { at: toMoment(closedAt), by: closedBy },
    })),
    reports: reports.map(({ grantId, document, csv, hash, madeAt, madeBy, ...row }, at) => ({
      grant: known(grantNames, grantId),
      document,
      csv,
      hash,
      claims: (claims[at] ?? []).map(({ entryId }) => entryId),
      made: { at: toMoment(madeAt), by: madeBy },
      withdrawn:
        row.withdrawnAt === null
          ? null
          : {
              at: toMoment(row.withdrawnAt),
              by: row.withdrawnBy ?? '',
              reason: row.withdrawReason ?? '',
            },
    })),
  };
}

const namesById = (rows: readonly { id: string; name: string }[]): ReadonlyMap<string, string> =>
  new Map(rows.map(({ id, name }) => [id, name]));

/** Hours on a task that was dropped since keep its title as a remark: a document has no dropped tasks. */
async function readEntries(
  manager: EntityManager,
  organisationId: string,
  kinds: ReadonlyMap<string, string>,
): Promise<HoursDocument['entries']> {
  const inOrder = { where: { organisationId }, order: { id: 'ASC' } } as const;
  const volunteers = await refsById(manager, Volunteer, organisationId);
  const tasks = new Map((await manager.findBy(Task, { organisationId })).map((task) => [task.id, task]));
  const turnouts = new Map(
    (await manager.findBy(TurnoutEntity, { organisationId })).map((one) => [one.id, one]),
  );
  return (await manager.find(HourEntryEntity, inOrder)).map((entry) => {
    const task = entry.taskId === null ? undefined : tasks.get(entry.taskId);
    const isGone = task !== undefined && task.droppedAt !== null;
    const turnout = entry.turnoutId === null ? undefined : turnouts.get(entry.turnoutId);
    return {
      id: entry.id,
      volunteer: known(volunteers, entry.volunteerId),
      task: task && !isGone ? task.ref : null,
      turnout: turnout ? { on: turnout.heldOn, startTime: turnout.startTime } : null,
      kind: known(kinds, entry.kindId),
      on: entry.workedOn,
      startsAt: momentOf(entry.startsAt),
      endsAt: momentOf(entry.endsAt),
      minutes: entry.minutes,
      way: entry.way,
      note: isGone ? withTitle(entry.note, task.title) : entry.note,
      enteredAt: toMoment(entry.enteredAt),
      enteredBy: entry.enteredBy,
      endedBy: entry.endedBy,
      isVoid: entry.isVoid,
      corrects: entry.correctsId,
      adjusts: entry.adjustsId,
      reason: entry.reason,
    };
  });
}

/** The remark of an entry whose task is no longer there. */
export const withTitle = (note: string | null, title: string): string =>
  [...(note === null ? [] : [note]), `On “${title}”, which is no longer in the list.`].join(' ');
