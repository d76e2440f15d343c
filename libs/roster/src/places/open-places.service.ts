import type { Caller } from '@ribband/access';
import { type Finding, type NamedHand, VolunteerSkill } from '@ribband/crew';
import { type CautionLine, OpeningGate, PlanView } from '@ribband/repair';
import { Database, YardClock } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { In, IsNull, MoreThan, type EntityManager } from 'typeorm';
import { overlap } from '../turnouts/relay-out.js';
import { isFreed, standsByAt } from '../swing/swing.records.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { placesDuring } from './elsewhere.js';
import { GateBook } from './gate-book.js';
import { PlaceEntity } from './place.entity.js';
import { mostPlaces } from './places.service.js';
import { firstNames } from './first-names.js';
import { underWay, withoutCrewSize } from './under-way.js';
import { usefulness } from './usefulness.js';

/** A place that somebody may take, with what they will want to know first. */
export interface PermittedPlace {
  place: PlaceEntity;
  alongside: NamedHand[];
  /** Why this place more than another, in sentences; empty where it is like any other. */
  useful: string[];
  /** Whether somebody left it and the person stands by then; they may leave other work for it. */
  standsBy: boolean;
  cautions: CautionLine[];
}

/** Turnouts that are looked at: the soonest. Who plans further ahead asks the coordinator. */
const turnoutsAhead = 60;

/** What is open to somebody: only what they are permitted to take. */
@Injectable()
export class OpenPlaces {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(OpeningGate) private readonly openings: OpeningGate,
    @Inject(PlanView) private readonly plan: PlanView,
  ) {}

  /** Soonest turnout first, in it the most useful; places of one kind on one task once, since one person takes one. */
  async permittedTo(caller: Caller): Promise<PermittedPlace[]> {
    const { organisationId, volunteerId } = caller;
    if (volunteerId === null) return [];
    const now = await this.clock.now(organisationId);
    return this.database.snapshot(async (manager) => {
      const open = await soonestOpen(manager, organisationId, now);
      const turnouts = await manager.findBy(TurnoutEntity, {
        organisationId,
        id: In([...new Set(open.map((place) => place.turnoutId))]),
        cancelledAt: IsNull(),
      });
      const days = new Map(turnouts.map((turnout) => [turnout.id, turnout.heldOn]));
      const held = await manager.findBy(PlaceEntity, {
        organisationId,
        turnoutId: In([...days.keys()]),
      });
      const seated = held.filter((place) => place.state !== 'left' && place.volunteerId !== null);
      const swing = await standsByAt(manager, organisationId, volunteerId);
      const standsBy = (place: PlaceEntity) => swing.has(place.turnoutId) && isFreed(place, held);
      const book = await GateBook.read(
        manager,
        organisationId,
        {
          volunteerIds: [volunteerId, ...seated.flatMap((place) => place.volunteerId ?? [])],
          taskIds: open.map((place) => place.taskId),
          days,
        },
        await underWay(manager, turnouts, now),
      );
      const span = {
        startsAt: Math.min(...open.map((place) => place.startsAt)),
        endsAt: Math.max(...open.map((place) => place.endsAt)),
      };
      const own = open.length > 0 ? await placesDuring(manager, organisationId, [volunteerId], span) : [];
      const isTheirs = (other: PlaceEntity, place: PlaceEntity) =>
        other.volunteerId === volunteerId && overlap(other, place);
      const isFree = (place: PlaceEntity) => {
        const then = own.filter((other) => overlap(other, place));
        const away = then.some((other) => other.turnoutId !== place.turnoutId && other.state === 'taken');
        return !away && (standsBy(place) || then.every((other) => other.turnoutId !== place.turnoutId));
      };
      const company = (place: PlaceEntity) => seated.filter((other) => !isTheirs(other, place));
      const planned = await this.plan.spans(manager, organisationId);
      const skilled = await howManyCan(manager, organisationId, open);
      const stops = await this.openings.stops(manager, organisationId, open);
      const waits = new Set(open.filter((_, i) => (stops[i]?.length ?? 0) > 0));
      return onceEach(
        open.filter(
          (place) =>
            days.has(place.turnoutId) &&
            !waits.has(place) &&
            isFree(place) &&
            book.job(place.taskId)?.closed === null,
        ),
      )
        .map((place) => ({
          place,
          findings: withoutCrewSize(book.findings(volunteerId, place, company(place))),
        }))
        .filter(({ findings }) => findings.every((finding) => finding.weight !== 'stop'))
        .map(({ place, findings }) => {
          const crew = company(place).filter((other) => isAlongside(other, place));
          const useful = usefulness(place, {
            isOnLaunchChain: planned.get(place.taskId)?.isOnLaunchChain ?? false,
            hands: new Set(crew.map((other) => other.volunteerId)).size,
            crewMin: book.job(place.taskId)?.task.crewMin ?? 1,
            othersWhoCan: (skilled.get(place.id) ?? Infinity) - 1,
          });
          return {
            place,
            alongside: alongside(book, crew),
            useful,
            standsBy: standsBy(place),
            cautions: [...findings.map(asCaution), ...(book.job(place.taskId)?.cautions ?? [])],
          };
        })
        .sort(
          (a, b) =>
            (days.get(a.place.turnoutId) ?? '').localeCompare(days.get(b.place.turnoutId) ?? '') ||
            Number(b.standsBy) - Number(a.standsBy) ||
            b.useful.length - a.useful.length ||
            a.place.startsAt - b.place.startsAt ||
            a.place.id.localeCompare(b.place.id),
        );
    });
  }
}

async function soonestOpen(
  manager: EntityManager,
  organisationId: string,
  now: number,
): Promise<PlaceEntity[]> {
  const open = await manager.find(PlaceEntity, {
    where: { organisationId, state: 'posted', volunteerId: IsNull(), endsAt: MoreThan(now) },
    order: { startsAt: 'ASC', id: 'ASC' },
    take: 5 * mostPlaces,
  });
  const turnouts = [...new Set(open.map((place) => place.turnoutId))].slice(0, turnoutsAhead);
  return open.filter((place) => turnouts.includes(place.turnoutId)).slice(0, mostPlaces);
}

/** Of places that differ in nothing that a person would notice, the first. */
function onceEach(places: readonly PlaceEntity[]): PlaceEntity[] {
  const seen = new Set<string>();
  return places.filter(({ turnoutId, taskId, skillId, level, role, startsAt, endsAt }) => {
    const key = [turnoutId, taskId, skillId, level, startsAt, endsAt, role].join(' ');
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

const isAlongside = (other: PlaceEntity, place: PlaceEntity): boolean =>
  other.turnoutId === place.turnoutId && other.taskId === place.taskId && overlap(other, place);

/** By their first names: more of one another volunteers need not know before they meet. */
function alongside(book: GateBook, crew: readonly PlaceEntity[]): NamedHand[] {
  const ids = [...new Set(crew.flatMap((other) => other.volunteerId ?? []))];
  const names = firstNames(ids.map((id) => book.hand(id)?.name ?? ''));
  return ids.map((id, i) => ({ volunteerId: id, name: names[i] ?? '' }));
}

/** How many of the crew have the level that a place asks for, by place; a hand’s place is not among them. */
async function howManyCan(
  manager: EntityManager,
  organisationId: string,
  places: readonly PlaceEntity[],
): Promise<ReadonlyMap<string, number>> {
  const asked = places.filter((place) => place.skillId !== null);
  if (asked.length === 0) return new Map();
  const skillIds = [...new Set(asked.flatMap((place) => place.skillId ?? []))];
  const holders = await manager.findBy(VolunteerSkill, { organisationId, skillId: In(skillIds) });
  return new Map(
    asked.map((place) => [
      place.id,
      holders.filter((holder) => holder.skillId === place.skillId && holder.level >= place.level).length,
    ]),
  );
}

const asCaution = (finding: Finding): CautionLine => ({ words: finding.words, basis: finding.basis });
