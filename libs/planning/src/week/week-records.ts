import { Organisation } from '@ribband/access';
import { CardKind, crewHands } from '@ribband/crew';
import { addDays } from '@ribband/platform';
import { Task } from '@ribband/repair';
import { PlaceEntity, swingAt, TurnoutEntity } from '@ribband/roster';
import { Between, In, IsNull, Not, type EntityManager } from 'typeorm';
import { comingOf, whoCame } from '../beliefs/coming.js';
import { readFacts } from './roster/read-facts.js';
import { seatsOfWeek } from './roster/seats-of-week.js';
import type { RosterBasis } from './roster/told-roster.js';
import type { WeekRecords } from './week-book.js';

/** What a week is told from but for its roster, and what that is made from; null where there is no plan. */
export type ReadWeek = Omit<WeekRecords, 'roster'> & { basis: RosterBasis | null };

/** The usual turnouts of the week that begins on a Monday. */
export function turnoutsOfWeek(
  manager: EntityManager,
  organisationId: string,
  monday: string,
): Promise<TurnoutEntity[]> {
  return manager.find(TurnoutEntity, {
    where: { organisationId, kind: IsNull(), heldOn: Between(monday, addDays(monday, 6)) },
    order: { startsAt: 'ASC' },
    take: 50,
  });
}

/** Reads what a week is told from, and what its roster is made from where there is a plan. */
export async function readWeek(
  manager: EntityManager,
  organisationId: string,
  { told, turnouts, now }: Pick<WeekRecords, 'told' | 'turnouts'> & { now: number },
): Promise<ReadWeek> {
  const hands = await crewHands(manager, organisationId);
  const kinds = await manager.findBy(CardKind, { organisationId, purpose: 'first-aid' });
  const places = await manager.find(PlaceEntity, {
    where: { organisationId, turnoutId: In(turnouts.map((turnout) => turnout.id)) },
    order: { id: 'ASC' },
  });
  const swing = await swingAt(
    manager,
    organisationId,
    turnouts.map(({ id }) => id),
  );
  const coming = comingOf(hands, await whoCame(manager, organisationId, now));
  const dropped = await droppedIds(manager, organisationId);
  const rest = { told, turnouts, places, swing, coming, droppedIds: dropped, now };
  return {
    ...rest,
    basis: await basisOf(manager, organisationId, rest),
    hands,
    firstAidIds: new Set(kinds.map(({ id }) => id)),
  };
}

/** Null where there is no plan. Turnouts that are over or called off have no roster to make. */
async function basisOf(
  manager: EntityManager,
  organisationId: string,
  read: Pick<WeekRecords, 'told' | 'turnouts' | 'places' | 'swing' | 'coming' | 'droppedIds'> & {
    now: number;
  },
): Promise<RosterBasis | null> {
  const { told, places, swing, coming, now } = read;
  if (!told) return null;
  const toCome = read.turnouts.filter((turnout) => turnout.cancelledAt === null && turnout.endsAt > now);
  const days = new Map(toCome.map((turnout) => [turnout.id, turnout.heldOn]));
  const turnouts = told.problem.turnouts.flatMap(({ id }, w) => (days.has(id) ? [w] : []));
  const seats = seatsOfWeek(told, new Set(turnouts), read.droppedIds);
  const facts = await readFacts(manager, organisationId, told, seats, { places, swing, days, now });
  const { crewOddsWish } = await manager.findOneByOrFail(Organisation, { id: organisationId });
  return { told, seats, turnouts, facts, coming, oddsWish: crewOddsWish };
}

async function droppedIds(manager: EntityManager, organisationId: string): Promise<Set<string>> {
  const dropped = await manager.find(Task, {
    select: { id: true },
    where: { organisationId, droppedAt: Not(IsNull()) },
  });
  return new Set(dropped.map((task) => task.id));
}
