import { type Caller, permit } from '@ribband/access';
import { CardEntity, CardKind, crewHands, YardDay } from '@ribband/crew';
import { addDays, Database, localToInstant, refuse, YardClock } from '@ribband/platform';
import { hazardsOf, Seat, Task } from '@ribband/repair';
import { PlaceEntity, TurnoutEntity } from '@ribband/roster';
import { Inject, Injectable } from '@nestjs/common';
import { In, IsNull, MoreThan, Not } from 'typeorm';
import { PlanShelf } from '../plans/plan-shelf.service.js';
import { staffRoles } from '../plans/plans.service.js';
import {
  type CardWork,
  gateGoesBy,
  lapsing,
  leavesNobody,
  othersHoldOne,
  seatAsks,
  workAsks,
} from './lapsing.js';
import type { LapsingCard, WorkAfterCard } from './lapsing-cards.types.js';

const mostDays = 730;
const mostCards = 200;
const mostPlaces = 50;
const mostWork = 5;

/** Which cards lapse, and what needs them after that. */
@Injectable()
export class LapsingCards {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(YardDay) private readonly yardDay: YardDay,
    @Inject(PlanShelf) private readonly shelf: PlanShelf,
  ) {}

  /** Within so many days from the yard's today, the earliest first; at most 200. */
  async within(caller: Caller, days: number): Promise<LapsingCard[]> {
    permit(caller, ...staffRoles);
    if (!Number.isInteger(days) || days < 0 || days > mostDays)
      refuse('BAD_INPUT', 'That is no number of days ahead.', {
        field: 'withinDays',
        remedy: `0 to ${mostDays}.`,
      });
    const { organisationId } = caller;
    return this.database.snapshot(async (manager) => {
      const today = await this.yardDay.today(organisationId, manager);
      const zone = await this.yardDay.zone(organisationId, manager);
      const now = await this.clock.now(organisationId, manager);
      const kinds = new Map((await manager.findBy(CardKind, { organisationId })).map((one) => [one.id, one]));
      const shown = await manager.findBy(CardEntity, { organisationId });
      const all = lapsing(shown, addDays(today, days));
      const cards = all.slice(0, mostCards);
      const whose = [...new Set(cards.map(({ volunteerId }) => volunteerId))];
      const hands = new Map((await crewHands(manager, organisationId, whose)).map((hand) => [hand.id, hand]));
      const tasks = await manager.findBy(Task, { organisationId, droppedAt: IsNull() });
      const seats = await manager.findBy(Seat, { organisationId });
      const works = new Map(
        tasks.map((task): [string, CardWork] => [
          task.id,
          { cardKindIds: task.cardKindIds, seats: seats.filter(({ taskId }) => taskId === task.id) },
        ]),
      );
      const taskOf = new Map(tasks.map((task) => [task.id, task]));
      const turnouts = await manager.findBy(TurnoutEntity, {
        ...{ organisationId, cancelledAt: IsNull(), endsAt: MoreThan(now) },
      });
      const turnoutOf = new Map(turnouts.map((turnout) => [turnout.id, turnout]));
      const places = await manager.find(PlaceEntity, {
        where: {
          ...{ organisationId, volunteerId: Not(IsNull()), state: In(['posted', 'taken']) },
          endsAt: MoreThan(now),
        },
        order: { startsAt: 'ASC', id: 'ASC' },
      });
      const told = await this.shelf.inForce(organisationId, manager);
      const planned = (told?.plan?.tasks ?? [])
        .flatMap(({ start, end }, index) => {
          const task = taskOf.get(told?.taskId(index) ?? '');
          return task && told ? [{ task, from: told.instant(start), to: told.instant(end) }] : [];
        })
        .filter(({ to }) => to > now)
        .sort((a, b) => a.from - b.from);
      return cards.flatMap(({ volunteerId, kindId, expiresOn }): LapsingCard[] => {
        const [hand, kind] = [hands.get(volunteerId), kinds.get(kindId)];
        if (!hand || !kind) return [];
        const over = Math.max(now, localToInstant(addDays(expiresOn, 1), '00:00', zone));
        const work = planned.flatMap(({ task, from, to }): WorkAfterCard[] => {
          const asks = works.get(task.id);
          if (to <= over || !asks || !workAsks(asks, kindId, hand.levels)) return [];
          return [{ task, startsAt: Math.max(from, over) }];
        });
        return [
          {
            hand: { volunteerId, name: hand.name },
            ...{ kind, expiresOn, hasLapsed: expiresOn < today },
            places: places
              .flatMap((place) => {
                const [turnout, task] = [turnoutOf.get(place.turnoutId), taskOf.get(place.taskId)];
                const asks = works.get(place.taskId);
                if (place.volunteerId !== volunteerId || !turnout || !task || !asks) return [];
                const needs = seatAsks(asks, kindId, place) || gateGoesBy(kind.purpose, hazardsOf(task));
                if (turnout.heldOn <= expiresOn || !needs) return [];
                const kindIds = new Set(
                  [...kinds.values()].flatMap(({ id, purpose }) => (purpose === kind.purpose ? id : [])),
                );
                const among = { places, cards: shown, kindIds };
                const isOnly = leavesNobody(kind.purpose, place, turnout.heldOn, among);
                const othersLapsed = isOnly && othersHoldOne(kind.purpose, place, among);
                return [{ turnout, task, isOnly, othersLapsed }];
              })
              .slice(0, mostPlaces),
            work: work.slice(0, mostWork),
            workCount: work.length,
          },
        ];
      });
    });
  }
}
