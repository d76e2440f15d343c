import { type Caller, permit } from '@ribband/access';
import { Database } from '@ribband/platform';
import { haulOutInForce, HullDay, slotStandingsOf } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import type { ToldBelief } from '../beliefs/beliefs.js';
import { PlanShelf } from '../plans/plan-shelf.service.js';
import { staffRoles } from '../plans/plans.service.js';
import type { ToldPlan } from '../plans/told-plan.js';
import { gainWords } from '../words/change-words.js';
import { count } from '../words/days.js';
import { oddsSentence, oddsWords } from '../words/odds-words.js';
import { AdviceEntity } from './advice.entity.js';
import { decisionsOf, type SlotSeen } from './decisions.js';
import { asReason } from './event-words.js';
import { ForecastEntity } from './forecast.entity.js';
import { seenOf } from './befores.service.js';
import { lastMove } from './last-move.js';
import { OrdersDue } from './orders-due.service.js';
import { OutlookMark } from './outlook-mark.entity.js';
import type { NextHand, OutlookModel, PaceBelief } from './outlook.types.js';
import { trendOf } from './trend.js';

const mostMarks = 60;

/** What the director asks: will she float on the day? */
@Injectable()
export class Outlooks {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(PlanShelf) private readonly shelf: PlanShelf,
    @Inject(HullDay) private readonly hull: HullDay,
    @Inject(OrdersDue) private readonly orders: OrdersDue,
  ) {}

  /** @returns null before the first forecast, and where no plan exists */
  async now(caller: Caller): Promise<OutlookModel | null> {
    permit(caller, ...staffRoles);
    const { organisationId } = caller;
    return this.database.snapshot(async (manager) => {
      const inForce = await this.shelf.inForce(organisationId, manager);
      const kept = await manager.findOne(ForecastEntity, {
        where: { organisationId },
        order: { madeAt: 'DESC' },
      });
      const told = kept ? await this.shelf.find(organisationId, kept.planId, manager) : null;
      // Where no plan exists now, the odds of the one before say nothing.
      if (!kept || !told?.plan || (inForce !== null && inForce.plan === null)) return null;
      return this.model(manager, told, kept, inForce?.entity.id === kept.planId);
    });
  }

  private async model(
    manager: EntityManager,
    told: ToldPlan,
    kept: ForecastEntity,
    isOfPlan: boolean,
  ): Promise<OutlookModel> {
    const { organisationId, document: forecast } = kept;
    const dayOf = (minute: number | null) => (minute === null ? null : told.days.dayOf(told.instant(minute)));
    const marks = await manager.find(OutlookMark, {
      where: { organisationId },
      order: { markedOn: 'DESC' },
      take: mostMarks,
    });
    marks.reverse();
    const slots = await slotsOf(manager, told, forecast.slots);
    const hull = await this.hull.of(manager, organisationId);
    return {
      sentence: oddsSentence(forecast, told.problem, (minute) =>
        told.days.weekday(told.days.dayOf(told.instant(minute))),
      ),
      lastMove: lastMove(kept.before, seenOf(told, forecast)),
      futures: forecast.futures,
      madeAt: kept.madeAt,
      isOfPlan,
      evenOn: dayOf(forecast.ready.p50.minute),
      likelyOn: dayOf(forecast.ready.p80.minute),
      sureOn: dayOf(forecast.ready.p95.minute),
      gateOdds: forecast.gate.odds,
      slots: slots.map(({ slot, role, odds }) => ({ slot, role, odds, words: oddsWords(odds) })),
      spread: forecast.spread.flatMap((minute) => dayOf(minute) ?? []),
      decisiveWeeks: decisive(forecast.weeks).map((minute) => dayOf(minute) ?? ''),
      trend: {
        ...trendOf(marks, told.days),
        marks: marks.map(({ markedOn, likelyOn, gateOdds, reasons }) => ({
          on: markedOn,
          likelyOn,
          gateOdds,
          reasons: reasons.map((one) => asReason(one).words),
        })),
      },
      nextHand: await nextHand(manager, organisationId),
      decisions: decisionsOf(told, hull, slots, await this.orders.of(manager, told, hull.today))
        .slice(0, 50)
        .map(({ slot = null, ...due }) => ({ ...due, slot })),
      paces: kept.beliefs.slice(0, 200).map(paceBelief),
    };
  }
}

async function slotsOf(
  manager: EntityManager,
  told: ToldPlan,
  odds: readonly { odds: number }[],
): Promise<SlotSeen[]> {
  const haulOut = await haulOutInForce(manager, told.entity.organisationId);
  const standings = haulOut ? await slotStandingsOf(manager, haulOut.id) : [];
  return told.input.slots.flatMap(({ id, kind: role }, index) => {
    const found = standings.find(({ slot }) => slot.id === id);
    return found ? [{ ...found, role, odds: odds[index]?.odds ?? 0 }] : [];
  });
}

/** The weeks that decide most, in order of time. */
function decisive(weeks: readonly { from: number; share: number }[]): number[] {
  const most = [...weeks].sort((a, b) => b.share - a.share).slice(0, 3);
  return most
    .filter(({ share }) => share > 0.02)
    .map(({ from }) => from)
    .sort((a, b) => a - b);
}

async function nextHand(manager: EntityManager, organisationId: string): Promise<NextHand[]> {
  const kept = await manager.findOneBy(AdviceEntity, { organisationId });
  if (!kept) return [];
  const { advice, words } = kept.document;
  return advice.ranked.map((item, index) => ({
    what: words[index] ?? '',
    gains: gainWords(item, advice.base.gate.odds),
    gateOdds: item.gate.odds,
    oddsGained: item.oddsGained.odds,
    oddsError: item.oddsGained.error,
    daysGained: item.minutesGained.minutes / 1440,
  }));
}

/** '11 nails a person-hour from 6 turnouts; the book said 8 to 20.' */
export function paceBelief({ key, name, pace, turnouts, book, pinned }: ToldBelief): PaceBelief {
  const figure = (value: number) => String(Number(value.toPrecision(2)));
  const from = turnouts === 0 ? 'nothing tallied yet' : `from ${count(turnouts, 'turnout')}`;
  const set = pinned ? 'set by hand; ' : '';
  return {
    kind: key,
    name,
    pace,
    sentence: `${figure(pace)} ${name} a person-hour, ${set}${from}; the book said ${figure(book.low)} to ${figure(book.high)}.`,
    pinnedWhy: pinned?.reason ?? null,
  };
}
