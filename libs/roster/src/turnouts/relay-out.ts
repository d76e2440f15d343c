import { newId } from '@ribband/platform';
import { In, type EntityManager } from 'typeorm';
import { PlaceEntity } from '../places/place.entity.js';
import { SwingHandEntity } from '../swing/swing-hand.entity.js';
import { ClosedDayEntity } from './closed-day.entity.js';
import { layOut, type DatedTurnout } from './lay-out.js';
import { TurnoutRuleEntity } from './turnout-rule.entity.js';
import { TurnoutEntity } from './turnout.entity.js';
import { yardDays } from './yard-days.js';

/** Rows a statement: below the variables that SQLite takes in one. */
const chunk = 200;

/** The turnouts that an organisation's rules make, in order of time; none before it has a haul-out. */
export async function wantedTurnouts(
  manager: EntityManager,
  organisationId: string,
): Promise<DatedTurnout[]> {
  const days = await yardDays(manager, organisationId);
  if (!days) return [];
  const rules = await manager.find(TurnoutRuleEntity, { where: { organisationId }, order: { id: 'ASC' } });
  const closed = await manager.findBy(ClosedDayEntity, { organisationId });
  const closedDays = new Set(closed.map((day) => day.closedOn));
  return layOut(rules, closedDays, days.timeZone, days.hauledOutOn, days.lastDay);
}

/**
 * Lays the rules out anew and brings the dated turnouts in line with them.
 * @param now turnouts that ended by then are left as they were
 */
export async function relayOut(manager: EntityManager, organisationId: string, now: number): Promise<void> {
  const known = await manager.findBy(TurnoutEntity, { organisationId });
  const wanted = await wantedTurnouts(manager, organisationId);
  const changes = changesBetween(wanted, known, await turnoutsWithPlaces(manager, organisationId), now);
  for (let at = 0; at < changes.remove.length; at += chunk)
    await manager.delete(TurnoutEntity, { id: In(changes.remove.slice(at, at + chunk)) });
  for (const { id, endTime, endsAt } of changes.stretch)
    await manager.update(TurnoutEntity, { id }, { endTime, endsAt });
  const rows = changes.insert.map((turnout) => ({
    id: newId('turnout'),
    organisationId,
    version: 1,
    kind: null,
    note: null,
    cancelledAt: null,
    cancelReason: null,
    ...turnout,
  }));
  for (let at = 0; at < rows.length; at += chunk)
    await manager.insert(TurnoutEntity, rows.slice(at, at + chunk));
}

export interface TurnoutChanges {
  insert: DatedTurnout[];
  /** Same start, another end. */
  stretch: { id: string; endTime: string; endsAt: number }[];
  /** Ids. */
  remove: string[];
}

/**
 * What has to change so that the turnouts are those of the rules. One that has places stays whatever the rules say
 * now, since people were told of it; one that was cancelled stays cancelled; one entered by hand is not touched; and
 * nothing is laid over what stays.
 */
export function changesBetween(
  wanted: readonly DatedTurnout[],
  known: readonly TurnoutEntity[],
  withPlaces: ReadonlySet<string>,
  now: number,
): TurnoutChanges {
  const bySlot = new Map(known.map((turnout) => [slotOf(turnout), turnout]));
  const wantedSlots = new Set(wanted.map(slotOf));
  const isIdle = (turnout: TurnoutEntity) =>
    turnout.ruleId !== null &&
    turnout.endsAt > now &&
    turnout.cancelledAt === null &&
    !withPlaces.has(turnout.id) &&
    !wantedSlots.has(slotOf(turnout));
  const remove = known.filter(isIdle);
  // A watch goes on whatever the yard does besides.
  const staying = known.filter(
    (turnout) => turnout.kind === null && turnout.cancelledAt === null && !isIdle(turnout),
  );
  const stretch = wanted.flatMap((turnout) => {
    const same = bySlot.get(slotOf(turnout));
    if (!same || same.ruleId === null || same.endsAt === turnout.endsAt || same.endsAt <= now) return [];
    return [{ id: same.id, endTime: turnout.endTime, endsAt: turnout.endsAt }];
  });
  const insert = wanted.filter(
    (turnout) =>
      turnout.endsAt > now &&
      !bySlot.has(slotOf(turnout)) &&
      !staying.some((other) => overlap(turnout, other)),
  );
  return { insert, stretch, remove: remove.map((turnout) => turnout.id) };
}

/** Whether two spans share a moment. */
export function overlap(
  a: { startsAt: number; endsAt: number },
  b: { startsAt: number; endsAt: number },
): boolean {
  return a.startsAt < b.endsAt && b.startsAt < a.endsAt;
}

/** What tells two turnouts of a yard apart. */
export const slotOf = (turnout: { heldOn: string; startTime: string }): string =>
  `${turnout.heldOn} ${turnout.startTime}`;

async function turnoutsWithPlaces(manager: EntityManager, organisationId: string): Promise<Set<string>> {
  const rows = await manager
    .createQueryBuilder(PlaceEntity, 'place')
    .select('DISTINCT place.turnoutId', 'turnoutId')
    .where({ organisationId })
    .getRawMany<{ turnoutId: string }>();
  const standing = await manager.findBy(SwingHandEntity, { organisationId });
  return new Set([...rows, ...standing].map((row) => row.turnoutId));
}
