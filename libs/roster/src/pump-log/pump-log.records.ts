import { Account, type Caller, Membership } from '@ribband/access';
import { instantToLocal } from '@ribband/platform';
import { Between, In, type EntityManager } from 'typeorm';
import { sayDay } from '../news/roster-words.js';
import { PlaceEntity } from '../places/place.entity.js';
import { wasHeld } from '../turnouts/call-off.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { yardDays } from '../turnouts/yard-days.js';
import { hasFigures, PumpEntryEntity } from './pump-entry.entity.js';
import { type PumpTrend, pumpTrends } from './pump-trend.js';

/** One entry as it counts now, and what stood in its place before, the newest first. */
export interface PumpLine {
  now: PumpEntryEntity;
  before: PumpEntryEntity[];
}

/** What was written at the pumps on one watch, and how the water goes. */
export interface PumpLog {
  turnout: TurnoutEntity;
  zone: string;
  mayWrite: boolean;
  /** The latest round first. */
  lines: PumpLine[];
  trends: PumpTrend[];
  warnings: string[];
}

const hourMillis = 3_600_000;
/** How the water goes is read over the watches of this long before. */
const trendMillis = 48 * hourMillis;
/** For this long after its round a rise is told of, also where no watch goes on. Common practice, no source. */
const toldMillis = 6 * hourMillis;

/** The watch that goes on, or the one that began last; null before the first. */
export async function watchNow(
  manager: EntityManager,
  organisationId: string,
  now: number,
): Promise<TurnoutEntity | null> {
  const begun = await manager.find(TurnoutEntity, {
    where: { organisationId, kind: 'watch', startsAt: Between(0, now) },
    order: { startsAt: 'DESC' },
    take: 200,
  });
  return begun.find(wasHeld) ?? null;
}

/** Who leads, and who has a place on the watch. */
export async function mayWriteLog(
  manager: EntityManager,
  caller: Caller,
  turnoutId: string,
): Promise<boolean> {
  if (caller.role !== 'volunteer') return true;
  if (caller.volunteerId === null) return false;
  const { organisationId, volunteerId } = caller;
  return manager.existsBy(PlaceEntity, {
    ...{ organisationId, turnoutId, volunteerId, state: In(['posted', 'taken']) },
  });
}

export async function pumpLogOf(
  manager: EntityManager,
  caller: Caller,
  turnout: TurnoutEntity,
  now: number,
): Promise<PumpLog> {
  const { organisationId } = caller;
  const watches = await manager.findBy(TurnoutEntity, {
    ...{ organisationId, kind: 'watch', startsAt: Between(turnout.startsAt - trendMillis, turnout.startsAt) },
  });
  const entries = await manager.find(PumpEntryEntity, {
    where: { organisationId, turnoutId: In(watches.map(({ id }) => id)) },
    order: { readAt: 'ASC', id: 'ASC' },
  });
  const corrected = new Set(entries.flatMap(({ correctsId }) => correctsId ?? []));
  const heads = entries.filter(({ id }) => !corrected.has(id));
  const counting = heads.filter(hasFigures);
  const byId = new Map(entries.map((entry) => [entry.id, entry]));
  const trends = pumpTrends(counting);
  const zone = (await yardDays(manager, organisationId))?.timeZone ?? 'UTC';
  const latestAt = counting.at(-1)?.readAt ?? null;
  const rising = trends.filter(({ goes }) => goes === 'rising').map((trend) => trend.latestAt);
  const rosenAt = rising.length === 0 ? null : Math.max(...rising);
  return {
    ...{ turnout, zone, trends },
    mayWrite: await mayWriteLog(manager, caller, turnout.id),
    lines: heads
      .filter(({ turnoutId }) => turnoutId === turnout.id)
      .reverse()
      .map((head) => ({ now: head, before: beforeOf(head, byId) })),
    warnings: [
      ...gapWords(turnout, latestAt, now, zone),
      ...(rosenAt === null
        ? []
        : [
            goesOn(turnout, now) || now - rosenAt <= toldMillis
              ? risingWords(await shipwrightNames(manager, organisationId))
              : roseWords(rosenAt, zone),
          ]),
    ],
  };
}

function beforeOf(
  { correctsId }: PumpEntryEntity,
  byId: ReadonlyMap<string, PumpEntryEntity>,
): PumpEntryEntity[] {
  const before: PumpEntryEntity[] = [];
  for (let one = byId.get(correctsId ?? ''); one; one = byId.get(one.correctsId ?? '')) before.push(one);
  return before;
}

const goesOn = ({ startsAt, endsAt, cancelledAt }: TurnoutEntity, now: number): boolean =>
  now >= startsAt && now < Math.min(endsAt, cancelledAt ?? endsAt);

async function shipwrightNames(manager: EntityManager, organisationId: string): Promise<string[]> {
  const members = await manager.findBy(Membership, { organisationId, role: 'shipwright' });
  const accounts = await manager.findBy(Account, { id: In(members.map(({ accountId }) => accountId)) });
  return accounts.map(({ name }) => name).sort();
}

/** Common practice: who watches reports a rise at once, and people come before the vessel. It never says what is safe. */
function risingWords(names: readonly string[]): string {
  const whom = names.length === 0 ? 'the shipwright' : `${names.join(' or ')}, shipwright`;
  return `More water is found, or more is pumped, than before. Tell ${whom}, and the yard, now, and not at the next round: what is done is theirs to decide. Whoever is in danger leaves her first and calls the local emergency number.`;
}

/** What was seen, once it is too late to be an order. */
function roseWords(at: number, zone: string): string {
  const { day, time } = instantToLocal(at, zone);
  return `Up to the round at ${time} on ${sayDay(day)} more water was found, or more was pumped, than before. That says nothing of how she is now.`;
}

/** Common practice: a round at least every hour while she is watched; the shipwright may ask for more. */
function gapWords(turnout: TurnoutEntity, latestAt: number | null, now: number, zone: string): string[] {
  const since = Math.max(latestAt ?? turnout.startsAt, turnout.startsAt);
  if (!goesOn(turnout, now) || now - since <= hourMillis) return [];
  const { time } = instantToLocal(since, zone);
  return [
    `Nothing is written down since ${time}: a round is usual every hour, or oftener as the shipwright says.`,
  ];
}
