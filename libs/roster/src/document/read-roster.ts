import { CardKind, known, leaves, refsById, Skill, Volunteer } from '@ribband/crew';
import { instantToLocal } from '@ribband/platform';
import type { EntityManager } from 'typeorm';
import { readHours } from '../hours/read-hours.js';
import { PlaceEntity } from '../places/place.entity.js';
import { ClosedDayEntity } from '../turnouts/closed-day.entity.js';
import { slotOf, wantedTurnouts } from '../turnouts/relay-out.js';
import { TurnoutRuleEntity } from '../turnouts/turnout-rule.entity.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { isSeatLevel, liveTasks, readTurnoutBook } from './read-turnout-book.js';
import { mostIncidentCharacters } from './turnout-book.js';
import type { RosterDocument } from './roster-document.js';

/** The roster's part of an organisation's yard document, in the order in which things were entered. */
export async function readRoster(
  manager: EntityManager,
  organisationId: string,
  timeZone: string,
): Promise<RosterDocument> {
  const inOrder = { where: { organisationId }, order: { id: 'ASC' } } as const;
  const rules = await manager.find(TurnoutRuleEntity, inOrder);
  const closed = await manager.find(ClosedDayEntity, inOrder);
  const turnouts = await manager.find(TurnoutEntity, inOrder);
  const byId = new Map(turnouts.map((turnout) => [turnout.id, turnout]));
  const refs = {
    tasks: await liveTasks(manager, organisationId),
    volunteers: await refsById(manager, Volunteer, organisationId),
    skills: await refsById(manager, Skill, organisationId),
    cardKinds: await refsById(manager, CardKind, organisationId),
  };
  const byRule = new Set((await wantedTurnouts(manager, organisationId)).map(slotOf));
  // A turnout that the rules no longer make was kept for the people posted to it, and is one of its own now.
  const single = turnouts.filter((turnout) => turnout.ruleId === null || !byRule.has(slotOf(turnout)));
  const calledOff = turnouts
    .filter((turnout) => turnout.cancelledAt !== null)
    .sort((a, b) => a.startsAt - b.startsAt);
  // Places on work that was dropped are gone with it. A call was once kept whatever skill its seats named.
  const places = (await manager.find(PlaceEntity, inOrder)).filter(
    ({ taskId, skillId, level }) =>
      refs.tasks.has(taskId) && (skillId === null || refs.skills.has(skillId)) && isSeatLevel(level),
  );
  return {
    turnoutRules: rules.map(({ ref, rule, startsOn, untilOn, startTime, endTime }) => ({
      ref,
      rule,
      startsOn,
      untilOn,
      startTime,
      endTime,
    })),
    closedDays: closed.map(({ closedOn, reason }) => ({ on: closedOn, reason })),
    singleTurnouts: single.map(({ heldOn, startTime, endTime, note, kind }) => ({
      on: heldOn,
      startTime,
      endTime,
      note,
      ...(kind === null ? {} : { kind }),
    })),
    cancelledTurnouts: calledOff.map(({ heldOn, startTime, startsAt, cancelReason, cancelledAt }) => ({
      on: heldOn,
      startTime,
      reason: cancelReason ?? '',
      ...(cancelledAt === null || cancelledAt === startsAt ? {} : { at: leaves.toMoment(cancelledAt) }),
    })),
    places: places.map((place) => {
      const turnout = byId.get(place.turnoutId);
      if (!turnout) throw new Error(`${place.id} is at no turnout`);
      const isWhole = place.startsAt === turnout.startsAt && place.endsAt === turnout.endsAt;
      return {
        on: turnout.heldOn,
        startTime: turnout.startTime,
        task: known(refs.tasks, place.taskId),
        from: isWhole ? null : instantToLocal(place.startsAt, timeZone).time,
        to: isWhole ? null : instantToLocal(place.endsAt, timeZone).time,
        volunteer: place.volunteerId === null ? null : known(refs.volunteers, place.volunteerId),
        skill: place.skillId === null ? null : known(refs.skills, place.skillId),
        level: place.level === 0 ? null : place.level,
        ...(place.role === null ? {} : { role: place.role }),
        ...(place.cardKindId === null ? {} : { card: known(refs.cardKinds, place.cardKindId) }),
        state: place.state,
        why: place.why,
        ...(place.teacherId === null ? {} : { teacher: known(refs.volunteers, place.teacherId) }),
        ...(place.takenAt === null ? {} : { takenAt: leaves.toMoment(place.takenAt) }),
        ...(place.leftAt === null ? {} : { leftAt: leaves.toMoment(place.leftAt) }),
        ...(place.leftReason === null ? {} : { leftReason: place.leftReason }),
      };
    }),
    hours: await readHours(manager, organisationId),
    turnoutBook: await readTurnoutBook(manager, organisationId, mostIncidentCharacters),
  };
}
