import { Membership } from '@ribband/access';
import { highestLevel, known, leaves, refsById, Skill, Volunteer } from '@ribband/crew';
import { QuietHours } from '@ribband/platform';
import { type PictureType, Task } from '@ribband/repair';
import { IsNull, type EntityManager, type EntityTarget } from 'typeorm';
import { AttendanceEntity } from '../attendance/attendance.entity.js';
import { AbsenceEntity } from '../call/absence.entity.js';
import { TurnoutCallEntity } from '../call/turnout-call.entity.js';
import { StopOverride } from '../overrides/stop-override.entity.js';
import { FireWatchEntity } from '../fire-watch/fire-watch.entity.js';
import { ClosingListEntity, ClosingRoundEntity } from '../safety/closing-round.entity.js';
import { IncidentEntity } from '../safety/incident.entity.js';
import { PumpEntryEntity } from '../pump-log/pump-entry.entity.js';
import { readPumpLog } from '../pump-log/pump-log.document.js';
import { RosterSettingsEntity } from '../settings/roster-settings.entity.js';
import { SwingHandEntity } from '../swing/swing-hand.entity.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import type { TurnoutBook } from './turnout-book.js';

const { asByAt, toMoment } = leaves;

/**
 * What was kept at the turnouts of an organisation, in the order of entry. Dropped tasks are left out.
 * @param room the most characters of incidents' photographs; those that do not fit are left out
 */
export async function readTurnoutBook(
  manager: EntityManager,
  organisationId: string,
  room: number,
): Promise<TurnoutBook> {
  const rows = <T extends object>(entity: EntityTarget<T>): Promise<T[]> =>
    manager.find(entity, { where: { organisationId }, order: { id: 'ASC' } } as never);
  const volunteers = await refsById(manager, Volunteer, organisationId);
  const skills = await refsById(manager, Skill, organisationId);
  const tasks = await liveTasks(manager, organisationId);
  const turnouts = new Map(
    (await manager.findBy(TurnoutEntity, { organisationId })).map(({ id, heldOn, startTime }) => [
      id,
      { on: heldOn, startTime },
    ]),
  );
  const at = (turnoutId: string) => {
    const turnout = turnouts.get(turnoutId);
    if (!turnout) throw new Error(`there is no turnout ${turnoutId}`);
    return turnout;
  };
  const settings = await manager.findOneBy(RosterSettingsEntity, { organisationId });
  const quiet = await manager.findOneBy(QuietHours, { organisationId });
  const closingList = await manager.findOneBy(ClosingListEntity, { organisationId });
  return {
    settings: settings && { lateHours: settings.lateHours, staleHours: settings.staleHours },
    quietHours: quiet && { from: quiet.fromTime, to: quiet.toTime },
    closingList: closingList && closingList.items,
    attendance: (await rows(AttendanceEntity)).map(
      ({ turnoutId, volunteerId, arrivedAt, leftAt, how, enteredBy }) => ({
        ...at(turnoutId),
        volunteer: known(volunteers, volunteerId),
        arrivedAt: toMoment(arrivedAt),
        leftAt: leftAt === null ? null : toMoment(leftAt),
        how,
        enteredBy,
      }),
    ),
    calls: (await rows(TurnoutCallEntity)).map(({ turnoutId, calledAt, calledBy, ...call }) => ({
      ...at(turnoutId),
      called: { at: toMoment(calledAt), by: calledBy },
      visitors: call.visitors,
      fallen: call.fallen.flatMap(({ taskId, why }) => {
        const task = tasks.get(taskId);
        return task === undefined ? [] : [{ task, why }];
      }),
      turnedAway: call.turnedAway,
      replaced: call.replaced.flatMap(({ taskId, volunteerId, skillId, startsAt, endsAt, level, state }) => {
        const task = tasks.get(taskId);
        const skill = skillId === null ? null : skills.get(skillId);
        if (task === undefined || skill === undefined || !isSeatLevel(level)) return [];
        const volunteer = volunteerId === null ? null : known(volunteers, volunteerId);
        const when = { startsAt: toMoment(startsAt), endsAt: toMoment(endsAt) };
        return [{ task, volunteer, skill, level, state, ...when }];
      }),
    })),
    setAside: (await rows(StopOverride)).flatMap(({ turnoutId, taskId, volunteerId, rule, ...row }) => {
      const task = tasks.get(taskId);
      if (task === undefined) return [];
      return [
        {
          ...at(turnoutId),
          task,
          volunteer: known(volunteers, volunteerId),
          rule,
          stopped: row.stopped,
          reason: row.reason,
          granted: { at: toMoment(row.grantedAt), by: row.grantedBy },
          withdrawn: asByAt(row.withdrawnAt, row.withdrawnBy),
        },
      ];
    }),
    swingHands: (await rows(SwingHandEntity)).map(({ turnoutId, volunteerId, postedAt, leftAt }) => ({
      ...at(turnoutId),
      volunteer: known(volunteers, volunteerId),
      postedAt: toMoment(postedAt),
      leftAt: leftAt === null ? null : toMoment(leftAt),
    })),
    // A call was once kept whoever it named as missing.
    absences: (await rows(AbsenceEntity)).flatMap(({ turnoutId, volunteerId, saidSo }) => {
      const volunteer = volunteers.get(volunteerId);
      return volunteer === undefined ? [] : [{ ...at(turnoutId), volunteer, saidSo }];
    }),
    closingRounds: (await rows(ClosingRoundEntity)).map(
      ({ turnoutId, items, accountedIds, closedAt, closedBy }) => ({
        ...at(turnoutId),
        items,
        accounted: accountedIds.map((id) => known(volunteers, id)),
        closed: { at: toMoment(closedAt), by: closedBy },
      }),
    ),
    fireWatches: (await rows(FireWatchEntity)).flatMap(({ turnoutId, taskId, watchId, ...row }) => {
      const task = tasks.get(taskId);
      const maybe = (instant: number | null) => (instant === null ? null : toMoment(instant));
      if (task === undefined) return [];
      return [
        {
          ...at(turnoutId),
          task,
          watch: watchId === null ? null : known(volunteers, watchId),
          notLit: row.notLit,
          lastSparkAt: maybe(row.lastSparkAt),
          lookBy: row.lookBy,
          lookDueAt: maybe(row.lookDueAt),
          lookedAt: maybe(row.lookedAt),
          found: row.found,
          reason: row.reason,
          written: { at: toMoment(row.writtenAt), by: row.writtenBy },
        },
      ];
    }),
    pumpLog: readPumpLog(await rows(PumpEntryEntity), at),
    incidents: await readIncidents(manager, organisationId, volunteers, room),
  };
}

/** 0 is a hand's. */
export const isSeatLevel = (level: number): boolean => level >= 0 && level <= highestLevel;

/** Refs of tasks by id, without those that were dropped: a document has none of them. */
export async function liveTasks(
  manager: EntityManager,
  organisationId: string,
): Promise<ReadonlyMap<string, string>> {
  const live = await manager.findBy(Task, { organisationId, droppedAt: IsNull() });
  return new Map(live.map(({ id, ref }) => [id, ref]));
}

async function readIncidents(
  manager: EntityManager,
  organisationId: string,
  volunteers: ReadonlyMap<string, string>,
  room: number,
): Promise<TurnoutBook['incidents']> {
  const members = new Map(
    (await manager.findBy(Membership, { organisationId })).map((one) => [one.accountId, one.volunteerId]),
  );
  const refOf = (id: string | null | undefined) => volunteers.get(id ?? '') ?? null;
  let left = room;
  const rows = await manager.find(IncidentEntity, { where: { organisationId }, order: { id: 'ASC' } });
  return rows.map(({ kind, what, place, who, followUp, dueOn, outcome, picture, pictureType, ...row }) => {
    const fits = picture !== null && picture.length <= left;
    if (fits) left -= picture.length;
    return {
      kind,
      what,
      place,
      who,
      reported: { at: toMoment(row.reportedAt), by: row.reportedBy },
      reporter: refOf(members.get(row.accountId)),
      owner: refOf(row.ownerId),
      followUp,
      dueOn,
      closed: asByAt(row.closedAt, row.closedBy),
      outcome,
      picture: fits ? photograph(picture, pictureType) : null,
    };
  });
}

const photograph = (base64: string, type: string | null) => ({
  type: (type ?? 'image/jpeg') as PictureType,
  base64,
});

/**
 * The same incidents, with the photographs of the yard's own records where they come without one: those outlive a
 * document that had no room for them. An incident is found again by its kind, and by who reported it when.
 */
export async function withOwnPhotographs(
  manager: EntityManager,
  organisationId: string,
  incidents: TurnoutBook['incidents'],
): Promise<TurnoutBook['incidents']> {
  if (incidents.every(({ picture }) => picture !== null)) return incidents;
  const key = (kind: string, at: string, by: string) => `${kind} ${at} ${by}`;
  const own = new Map<string, IncidentEntity[]>();
  for (const row of await manager.find(IncidentEntity, {
    where: { organisationId },
    order: { id: 'ASC' },
  })) {
    const named = key(row.kind, toMoment(row.reportedAt), row.reportedBy);
    own.set(named, [...(own.get(named) ?? []), row]);
  }
  return incidents.map((one) => {
    const row = own.get(key(one.kind, one.reported.at, one.reported.by))?.shift();
    if (one.picture !== null || !row || row.picture === null) return one;
    return { ...one, picture: photograph(row.picture, row.pictureType) };
  });
}
