import { known, refsById, Skill, Volunteer } from '@ribband/crew';
import { instantToLocal } from '@ribband/platform';
import { Task } from '@ribband/repair';
import type { EntityManager } from 'typeorm';
import { PlaceEntity } from '../places/place.entity.js';
import { ClosedDayEntity } from '../turnouts/closed-day.entity.js';
import { slotOf, wantedTurnouts } from '../turnouts/relay-out.js';
import { TurnoutRuleEntity } from '../turnouts/turnout-rule.entity.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
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
    tasks: await refsById(manager, Task, organisationId),
    volunteers: await refsById(manager, Volunteer, organisationId),
    skills: await refsById(manager, Skill, organisationId),
  };
  const byRule = new Set((await wantedTurnouts(manager, organisationId)).map(slotOf));
  // A turnout that the rules no longer make was kept for the people posted to it, and is one of its own now.
  const single = turnouts.filter((turnout) => turnout.ruleId === null || !byRule.has(slotOf(turnout)));
  const calledOff = turnouts
    .filter((turnout) => turnout.cancelledAt !== null)
    .sort((a, b) => a.startsAt - b.startsAt);
  const places = await manager.find(PlaceEntity, inOrder);
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
    singleTurnouts: single.map(({ heldOn, startTime, endTime, note }) => ({
      on: heldOn,
      startTime,
      endTime,
      note,
    })),
    cancelledTurnouts: calledOff.map(({ heldOn, startTime, cancelReason }) => ({
      on: heldOn,
      startTime,
      reason: cancelReason ?? '',
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
        state: place.state,
        why: place.why,
      };
    }),
  };
}
