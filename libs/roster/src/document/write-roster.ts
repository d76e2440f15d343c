import { insertAll, known, leaves } from '@ribband/crew';
import { addDays, localToInstant, newId } from '@ribband/platform';
import type { EntityManager } from 'typeorm';
import { AbsenceEntity } from '../call/absence.entity.js';
import { TurnoutCallEntity } from '../call/turnout-call.entity.js';
import { DeedEntity } from '../deeds/deed.entity.js';
import { eraseHours } from '../hours/erase-hours.js';
import { StopOverride } from '../overrides/stop-override.entity.js';
import { formerLearners } from '../places/former-learners.js';
import { PlaceEntity } from '../places/place.entity.js';
import { ClosedDayEntity } from '../turnouts/closed-day.entity.js';
import { relayOut } from '../turnouts/relay-out.js';
import { TurnoutRuleEntity } from '../turnouts/turnout-rule.entity.js';
import { turnoutTimes } from '../turnouts/turnout-times.js';
import { SwingHandEntity } from '../swing/swing-hand.entity.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { eraseTurnoutBook } from './write-turnout-book.js';
import type { RosterDocument, RosterRefs } from './roster-document.js';

/** Takes the whole roster of an organisation out of the records. */
export async function eraseRoster(manager: EntityManager, organisationId: string): Promise<void> {
  await eraseHours(manager, organisationId);
  await eraseTurnoutBook(manager, organisationId);
  const inOrder = [
    DeedEntity,
    TurnoutCallEntity,
    AbsenceEntity,
    PlaceEntity,
    StopOverride,
    SwingHandEntity,
    TurnoutEntity,
    TurnoutRuleEntity,
    ClosedDayEntity,
  ];
  for (const entity of inOrder) await manager.delete(entity, { organisationId });
}

/** Before any turnout: all are laid out. */
const beforeAll = Number.NEGATIVE_INFINITY;

/** Which turnout each day and start is. */
export type TurnoutsByStart = ReadonlyMap<string, TurnoutEntity>;
export const turnoutKey = (on: string, startTime: string): string => `${on} ${startTime}`;

function turnoutOf(turnouts: TurnoutsByStart, on: string, startTime: string): TurnoutEntity {
  const turnout = turnouts.get(turnoutKey(on, startTime));
  if (!turnout) throw new Error(`No turnout on ${on} at ${startTime}: the document was not checked`);
  return turnout;
}

/**
 * Writes turnouts of a document that has been checked whole: rules laid out from the haul-out on, single ones, and
 * which were called off. The haul-out must have been written.
 */
export async function writeTurnouts(
  manager: EntityManager,
  organisationId: string,
  timeZone: string,
  document: RosterDocument,
): Promise<TurnoutsByStart> {
  const own = { organisationId };
  await insertAll(
    manager,
    TurnoutRuleEntity,
    document.turnoutRules.map((rule) => ({ id: newId('turnoutrule'), ...own, version: 1, ...rule })),
  );
  await insertAll(
    manager,
    ClosedDayEntity,
    document.closedDays.map(({ on, reason }) => ({ id: newId('closedday'), ...own, closedOn: on, reason })),
  );
  await insertAll(
    manager,
    TurnoutEntity,
    document.singleTurnouts.map((turnout) => ({
      id: newId('turnout'),
      ...own,
      ruleId: null,
      version: 1,
      kind: turnout.kind ?? null,
      heldOn: turnout.on,
      startTime: turnout.startTime,
      endTime: turnout.endTime,
      ...turnoutTimes(timeZone, turnout),
      note: turnout.note,
      cancelledAt: null,
      cancelReason: null,
    })),
  );
  await relayOut(manager, organisationId, beforeAll);
  const all = await manager.findBy(TurnoutEntity, own);
  const byKey = new Map(all.map((turnout) => [turnoutKey(turnout.heldOn, turnout.startTime), turnout]));
  for (const { on, startTime, reason, at } of document.cancelledTurnouts) {
    const turnout = turnoutOf(byKey, on, startTime);
    const cancelledAt = at === undefined ? turnout.startsAt : leaves.fromMoment(at);
    const calledOff = { cancelledAt, cancelReason: reason };
    Object.assign(turnout, calledOff);
    await manager.update(TurnoutEntity, { id: turnout.id }, calledOff);
  }
  return byKey;
}

/** Writes the places of a document, in its order. */
export async function writePlaces(
  manager: EntityManager,
  organisationId: string,
  timeZone: string,
  document: Pick<RosterDocument, 'places'>,
  turnouts: TurnoutsByStart,
  refs: RosterRefs,
): Promise<void> {
  await insertAll(
    manager,
    PlaceEntity,
    document.places.map((place): PlaceEntity => {
      const turnout = turnoutOf(turnouts, place.on, place.startTime);
      // A watch goes over midnight: what is earlier than its start is on the next day.
      const dayOf = (time: string) => (time < place.startTime ? addDays(place.on, 1) : place.on);
      const at = (time: string | null, otherwise: number) =>
        time === null ? otherwise : localToInstant(dayOf(time), time, timeZone);
      return {
        id: newId('place'),
        organisationId,
        turnoutId: turnout.id,
        taskId: known(refs.tasks, place.task),
        version: 1,
        skillId: place.skill === null ? null : known(refs.skills, place.skill),
        level: place.level ?? 0,
        role: place.role ?? null,
        cardKindId: place.card === undefined ? null : known(refs.cardKinds, place.card),
        volunteerId: place.volunteer === null ? null : known(refs.volunteers, place.volunteer),
        state: place.state,
        teacherId: place.teacher === undefined ? null : known(refs.volunteers, place.teacher),
        startsAt: at(place.from, turnout.startsAt),
        endsAt: at(place.to, turnout.endsAt),
        why: place.why,
        planId: null,
        takenAt: place.takenAt === undefined ? null : leaves.fromMoment(place.takenAt),
        leftAt: place.leftAt === undefined ? null : leaves.fromMoment(place.leftAt),
        leftReason: place.leftReason ?? null,
      };
    }),
  );
  // A document of before names no teachers.
  for (const statement of formerLearners) await manager.query(statement);
}
