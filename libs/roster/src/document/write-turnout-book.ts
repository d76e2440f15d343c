import { Membership } from '@ribband/access';
import { insertAll, known, leaves } from '@ribband/crew';
import { newId, QuietHours } from '@ribband/platform';
import { IsNull, Not, type EntityManager } from 'typeorm';
import { AttendanceEntity } from '../attendance/attendance.entity.js';
import { AbsenceEntity } from '../call/absence.entity.js';
import { TurnoutCallEntity } from '../call/turnout-call.entity.js';
import { StopOverride } from '../overrides/stop-override.entity.js';
import { FireWatchEntity } from '../fire-watch/fire-watch.entity.js';
import { ClosingListEntity, ClosingRoundEntity } from '../safety/closing-round.entity.js';
import { IncidentEntity } from '../safety/incident.entity.js';
import { PumpEntryEntity } from '../pump-log/pump-entry.entity.js';
import { pumpRows } from '../pump-log/pump-log.document.js';
import { RosterSettingsEntity } from '../settings/roster-settings.entity.js';
import { SwingHandEntity } from '../swing/swing-hand.entity.js';
import type { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { readTurnoutBook, withOwnPhotographs } from './read-turnout-book.js';
import type { RosterRefs } from './roster-document.js';
import type { TurnoutBook } from './turnout-book.js';

const { fromMoment } = leaves;

type Around = RosterRefs & { turnouts: ReadonlyMap<string, TurnoutEntity> };

/**
 * What a yard has kept at its turnouts once a document was read in: the document's; where it is silent, what is there
 * and belongs to no turnout. A photograph goes with no document that had no room for it. An incident of somebody whom the document does not have is nobody's to see to.
 */
export async function turnoutBookToKeep(
  manager: EntityManager,
  organisationId: string,
  {
    turnoutBook,
    volunteers,
  }: { turnoutBook?: TurnoutBook | undefined; volunteers: readonly { ref: string }[] },
): Promise<TurnoutBook> {
  if (turnoutBook)
    return {
      ...turnoutBook,
      incidents: await withOwnPhotographs(manager, organisationId, turnoutBook.incidents),
    };
  const { settings, quietHours, closingList, incidents } = await readTurnoutBook(
    manager,
    organisationId,
    Infinity,
  );
  const there = new Set(volunteers.map(({ ref }) => ref));
  const or = (ref: string | null) => (ref !== null && there.has(ref) ? ref : null);
  return {
    settings,
    quietHours,
    closingList,
    attendance: [],
    calls: [],
    setAside: [],
    absences: [],
    swingHands: [],
    closingRounds: [],
    fireWatches: [],
    pumpLog: [],
    incidents: incidents.map((one) => ({ ...one, reporter: or(one.reporter), owner: or(one.owner) })),
  };
}

/** What hangs on turnouts goes with them; this is the rest. */
export async function eraseTurnoutBook(manager: EntityManager, organisationId: string): Promise<void> {
  for (const entity of [RosterSettingsEntity, QuietHours, ClosingListEntity, IncidentEntity])
    await manager.delete(entity, { organisationId });
}

/** Writes what was kept at turnouts; crew, tasks and turnouts must be there. */
export async function writeTurnoutBook(
  manager: EntityManager,
  organisationId: string,
  book: TurnoutBook,
  around: Around,
): Promise<void> {
  const { volunteers, turnouts } = around;
  const base = (kind: string) => ({ id: newId(kind), organisationId });
  const ids = new Map([...turnouts].map(([key, { id }]) => [key, id]));
  const at: AtTurnout = ({ on, startTime }) => ({ turnoutId: known(ids, `${on} ${startTime}`) });
  if (book.settings)
    await manager.insert(RosterSettingsEntity, { organisationId, version: 1, ...book.settings });
  if (book.quietHours) {
    const { from, to } = book.quietHours;
    await manager.insert(QuietHours, { organisationId, fromTime: from, toTime: to });
  }
  if (book.closingList) await manager.insert(ClosingListEntity, { organisationId, items: book.closingList });
  await insertAll(
    manager,
    AttendanceEntity,
    book.attendance.map(({ volunteer, arrivedAt, leftAt, how, enteredBy, ...turnout }) => ({
      ...base('attendance'),
      ...at(turnout),
      volunteerId: known(volunteers, volunteer),
      arrivedAt: fromMoment(arrivedAt),
      leftAt: leftAt === null ? null : fromMoment(leftAt),
      how,
      enteredBy,
    })),
  );
  await insertAll(manager, TurnoutCallEntity, callRows(organisationId, book.calls, around, at));
  await insertAll(
    manager,
    StopOverride,
    book.setAside.map(({ task, volunteer, granted, withdrawn, on, startTime, ...row }) => ({
      ...base('stopoverride'),
      ...at({ on, startTime }),
      ...row,
      taskId: known(around.tasks, task),
      volunteerId: known(volunteers, volunteer),
      grantedBy: granted.by,
      grantedAt: fromMoment(granted.at),
      withdrawnAt: withdrawn && fromMoment(withdrawn.at),
      withdrawnBy: withdrawn?.by ?? null,
    })),
  );
  await insertAll(
    manager,
    SwingHandEntity,
    book.swingHands.map(({ volunteer, postedAt, leftAt, ...turnout }) => ({
      ...base('swing'),
      ...at(turnout),
      volunteerId: known(volunteers, volunteer),
      postedAt: fromMoment(postedAt),
      leftAt: leftAt === null ? null : fromMoment(leftAt),
    })),
  );
  await insertAll(
    manager,
    AbsenceEntity,
    book.absences.map(({ volunteer, saidSo, ...turnout }) => ({
      ...base('absence'),
      ...at(turnout),
      volunteerId: known(volunteers, volunteer),
      saidSo,
    })),
  );
  await insertAll(
    manager,
    ClosingRoundEntity,
    book.closingRounds.map(({ items, accounted, closed, ...turnout }) => ({
      ...base('closinground'),
      ...at(turnout),
      items,
      accountedIds: accounted.map((one) => known(volunteers, one)),
      closedBy: closed.by,
      closedAt: fromMoment(closed.at),
    })),
  );
  await insertAll(manager, FireWatchEntity, watchRows(organisationId, book.fireWatches, around, at));
  await insertAll(manager, PumpEntryEntity, pumpRows(organisationId, book.pumpLog, at));
  await writeIncidents(manager, organisationId, book.incidents, volunteers);
}

type AtTurnout = (turnout: { on: string; startTime: string }) => { turnoutId: string };

function callRows(
  organisationId: string,
  calls: TurnoutBook['calls'],
  { tasks, volunteers, skills }: Around,
  at: AtTurnout,
): TurnoutCallEntity[] {
  const versions = new Map<string, number>();
  return calls.map(({ called, fallen, replaced, visitors, turnedAway, ...turnout }) => {
    const { turnoutId } = at(turnout);
    const version = (versions.get(turnoutId) ?? 0) + 1;
    versions.set(turnoutId, version);
    return {
      id: newId('call'),
      organisationId,
      turnoutId,
      version,
      calledAt: fromMoment(called.at),
      calledBy: called.by,
      visitors,
      turnedAway,
      fallen: fallen.map(({ task, why }) => ({ taskId: known(tasks, task), why })),
      replaced: replaced.map(({ task, volunteer, skill, startsAt, endsAt, ...place }) => ({
        taskId: known(tasks, task),
        volunteerId: volunteer === null ? null : known(volunteers, volunteer),
        skillId: skill === null ? null : known(skills, skill),
        ...place,
        startsAt: fromMoment(startsAt),
        endsAt: fromMoment(endsAt),
      })),
    };
  });
}

function watchRows(
  organisationId: string,
  watches: TurnoutBook['fireWatches'],
  { tasks, volunteers }: Around,
  at: AtTurnout,
): FireWatchEntity[] {
  const versions = new Map<string, number>();
  const maybe = (moment: string | null) => (moment === null ? null : fromMoment(moment));
  return watches.map(({ on, startTime, task, watch, written, ...row }) => {
    const key = `${on} ${startTime} ${task}`;
    const version = (versions.get(key) ?? 0) + 1;
    versions.set(key, version);
    return {
      id: newId('firewatch'),
      organisationId,
      ...at({ on, startTime }),
      ...row,
      taskId: known(tasks, task),
      version,
      watchId: watch === null ? null : known(volunteers, watch),
      lastSparkAt: maybe(row.lastSparkAt),
      lookDueAt: maybe(row.lookDueAt),
      lookedAt: maybe(row.lookedAt),
      writtenBy: written.by,
      writtenAt: fromMoment(written.at),
    };
  });
}

/** Whose account reported it is found again by the person; without one nobody but those who run the yard reads whom it was about. */
async function writeIncidents(
  manager: EntityManager,
  organisationId: string,
  incidents: TurnoutBook['incidents'],
  volunteers: ReadonlyMap<string, string>,
): Promise<void> {
  const members = await manager.findBy(Membership, { organisationId, volunteerId: Not(IsNull()) });
  const accounts = new Map(members.map(({ volunteerId, accountId }) => [volunteerId, accountId]));
  await insertAll(
    manager,
    IncidentEntity,
    incidents.map(({ reported, reporter, owner, closed, picture, ...row }) => ({
      id: newId('incident'),
      organisationId,
      version: 1,
      ...row,
      reportedAt: fromMoment(reported.at),
      reportedBy: reported.by,
      accountId: (reporter === null ? undefined : accounts.get(known(volunteers, reporter))) ?? '',
      ownerId: owner === null ? null : known(volunteers, owner),
      closedAt: closed && fromMoment(closed.at),
      closedBy: closed?.by ?? null,
      picture: picture?.base64 ?? null,
      pictureType: picture?.type ?? null,
    })),
  );
}
