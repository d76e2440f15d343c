import { insertAll, known, leaves } from '@ribband/crew';
import { newId, refuse } from '@ribband/platform';
import { In, type EntityManager } from 'typeorm';
import type { RosterRefs } from '../document/roster-document.js';
import type { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { GrantReportEntity, HourClaimEntity } from './grant-report.entity.js';
import { GrantEntity } from './grant.entity.js';
import { HourEntryEntity } from './hour-entry.entity.js';
import { HourPeriodEntity } from './hour-period.entity.js';
import { HourRateEntity } from './hour-rate.entity.js';
import { claimsOf, type HoursDocument } from './hours-document.js';
import { readHours, withTitle } from './read-hours.js';
import { WorkKindEntity } from './work-kind.entity.js';

const { fromMoment } = leaves;
const instantOf = (moment: string | null): number | null => (moment === null ? null : fromMoment(moment));

/** What the hours book refers to, by the document's keys; turnouts by day and start. */
type Around = RosterRefs & { turnouts: ReadonlyMap<string, TurnoutEntity> };

/** The keys that a document has itself. */
interface Given {
  hours?: HoursDocument | undefined;
  volunteers: readonly { ref: string; name: string }[];
  skills: readonly { ref: string }[];
}

/**
 * The hours that a yard has once a document was read in: the document's, or, where it is silent, those that are there.
 * @throws RefusalError STILL_IN_USE when somebody with hours is not in the document's crew
 */
export async function hoursToKeep(
  manager: EntityManager,
  organisationId: string,
  { hours, volunteers, skills }: Given,
): Promise<HoursDocument> {
  if (hours) return hours;
  const kept = await readHours(manager, organisationId);
  const people = new Set(volunteers.map(({ ref }) => ref));
  const missing = [...new Set(kept.entries.map(({ volunteer }) => volunteer))].filter(
    (one) => !people.has(one),
  );
  if (missing.length > 0)
    refuse(
      'STILL_IN_USE',
      `The hours book has hours of people whom the document does not have: ${missing.slice(0, 5).join(', ')}.`,
      {
        field: 'document',
        remedy:
          'Put them among its volunteers, or give it the hours itself: an empty hours book lets what is there go.',
        facts: { people: String(missing.length) },
      },
    );
  const known = new Set(skills.map(({ ref }) => ref));
  return {
    ...kept,
    kinds: kept.kinds.map(({ name, skill }) => ({
      name,
      skill: skill !== null && known.has(skill) ? skill : null,
    })),
  };
}

/** Writes the hours book; crew, tasks and turnouts must be there, and no hours of the organisation. */
export async function writeHours(
  manager: EntityManager,
  organisationId: string,
  document: HoursDocument,
  around: Around,
): Promise<void> {
  const base = (kind: string) => ({ id: newId(kind), organisationId });
  const kinds = document.kinds.map(({ name, skill }) => ({
    ...base('workkind'),
    version: 1,
    name,
    skillId: skill === null ? null : known(around.skills, skill),
  }));
  await insertAll(manager, WorkKindEntity, kinds);
  const kindIds = new Map(kinds.map(({ name, id }) => [name, id]));
  const grants = document.grants.map(({ from, to, kinds: names, ...grant }) => ({
    ...base('grant'),
    version: 1,
    ...grant,
    fromOn: from,
    toOn: to,
    kindIds: names.map((name) => known(kindIds, name)),
  }));
  await insertAll(manager, GrantEntity, grants);
  const grantIds = new Map(grants.map(({ name, id }) => [name, id]));
  await insertAll(
    manager,
    HourRateEntity,
    document.rates.map(({ kind, grant, from, enteredAt, ...rate }) => ({
      ...base('hourrate'),
      kindId: kind === null ? null : known(kindIds, kind),
      grantId: grant === null ? null : known(grantIds, grant),
      fromOn: from,
      ...rate,
      enteredAt: fromMoment(enteredAt),
    })),
  );
  const idOf = await entryIds(manager, document);
  await insertAll(manager, HourEntryEntity, entryRows(organisationId, document, around, kindIds, idOf));
  await insertAll(
    manager,
    HourPeriodEntity,
    document.periods.map(({ from, to, closed }) => ({
      ...base('hourperiod'),
      fromOn: from,
      toOn: to,
      closedBy: closed.by,
      closedAt: fromMoment(closed.at),
    })),
  );
  for (const report of document.reports)
    await writeReport(manager, organisationId, report, known(grantIds, report.grant), idOf);
}

/** Entries keep their ids; where another yard has one of them already, all get new ones. */
async function entryIds(manager: EntityManager, { entries }: HoursDocument): Promise<(id: string) => string> {
  const ids = entries.map(({ id }) => id);
  let isTaken = false;
  for (let at = 0; at < ids.length && !isTaken; at += 500)
    isTaken = await manager.existsBy(HourEntryEntity, { id: In(ids.slice(at, at + 500)) });
  if (!isTaken) return (id) => id;
  const fresh = new Map(ids.map((id) => [id, newId('hours')]));
  return (id) => known(fresh, id);
}

function entryRows(
  organisationId: string,
  { entries }: HoursDocument,
  { tasks, turnouts, volunteers }: Around,
  kinds: ReadonlyMap<string, string>,
  idOf: (id: string) => string,
): HourEntryEntity[] {
  const roots = new Map<string, string>();
  return entries.map(({ volunteer, task, turnout, kind, on, corrects, adjusts, note, ...entry }) => {
    const root = corrects === null ? entry.id : known(roots, corrects);
    roots.set(entry.id, root);
    const taskId = task === null ? null : (tasks.get(task) ?? null);
    return {
      ...entry,
      id: idOf(entry.id),
      organisationId,
      rootId: idOf(root),
      volunteerId: known(volunteers, volunteer),
      taskId,
      // A book that was kept through another document may name work that is in it no more.
      note: task !== null && taskId === null ? withTitle(note, task) : note,
      turnoutId: turnout && (turnouts.get(`${turnout.on} ${turnout.startTime}`)?.id ?? null),
      kindId: known(kinds, kind),
      workedOn: on,
      startsAt: instantOf(entry.startsAt),
      endsAt: instantOf(entry.endsAt),
      enteredAt: fromMoment(entry.enteredAt),
      correctsId: corrects === null ? null : idOf(corrects),
      adjustsId: adjusts === null ? null : idOf(adjusts),
    };
  });
}

async function writeReport(
  manager: EntityManager,
  organisationId: string,
  report: HoursDocument['reports'][number],
  grantId: string,
  idOf: (id: string) => string,
): Promise<void> {
  const id = newId('grantreport');
  const { document, csv, hash, made, withdrawn } = report;
  const { minutes, cents } = document;
  await manager.insert(GrantReportEntity, {
    id,
    organisationId,
    grantId,
    fromOn: document.from,
    toOn: document.to,
    document,
    csv,
    hash,
    minutes,
    cents,
    madeBy: made.by,
    madeAt: fromMoment(made.at),
    withdrawnAt: withdrawn && fromMoment(withdrawn.at),
    withdrawnBy: withdrawn?.by ?? null,
    withdrawReason: withdrawn?.reason ?? null,
  });
  await insertAll(
    manager,
    HourClaimEntity,
    claimsOf(report).map((entry) => ({
      id: newId('hourclaim'),
      organisationId,
      entryId: idOf(entry),
      grantId,
      reportId: id,
    })),
  );
}
