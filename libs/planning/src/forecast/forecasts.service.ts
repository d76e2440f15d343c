import { permit, type Caller } from '@ribband/access';
import { Database } from '@ribband/platform';
import { LiftSlot, type Task } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import { staffRoles } from '../plans/plans.service.js';
import { PlanShelf } from '../plans/plan-shelf.service.js';
import type { ToldPlan } from '../plans/told-plan.js';
import { ForecastDay, ForecastEntity } from './forecast.entity.js';
import { chainWords, oddsSentence, oddsWords, readyByWords } from './forecast-words.js';
import type { ForecastModel, ReadyBy, SlotOdds } from './forecast.types.js';

const mostSlots = 12;
const mostCritical = 20;
const mostWeeks = 60;
const mostPaces = 100;
const mostDays = 400;

/** The newest forecast as it is shown; the tasks that decide still by id. */
export type ToldForecast = Omit<ForecastModel, 'criticalTasks'> & {
  critical: { taskId: Task['id']; share: number }[];
};

/** What was forecast, in days and words. */
@Injectable()
export class Forecasts {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(PlanShelf) private readonly shelf: PlanShelf,
  ) {}

  /** The newest forecast: of the plan in force, or of the one before while the next is being made. */
  async newest(caller: Caller): Promise<ToldForecast | null> {
    permit(caller, ...staffRoles);
    const { organisationId } = caller;
    const entity = await this.database.read.findOne(ForecastEntity, {
      where: { organisationId },
      order: { madeAt: 'DESC', id: 'DESC' },
    });
    const told = entity && (await this.shelf.find(organisationId, entity.planId));
    if (!told) return null;
    const inForce = await this.shelf.inForce(organisationId);
    const gateAt = told.input.slots.find(({ kind }) => kind === 'gate')?.startsAt;
    if (gateAt === undefined) return null;
    const { result } = entity;
    const around = { problem: told.problem, days: told.days, gateAt };
    return {
      madeAt: entity.madeAt,
      futures: result.futures,
      isOfPlanInForce: inForce?.entity.id === told.entity.id,
      sentence: oddsSentence(result, around),
      slots: await this.slots(told, entity),
      readyBy: readyBy(told, entity, gateAt),
      spread: result.spread.flatMap((minute) => dayOrNull(told, minute) ?? []),
      chain: chainWords(result, told.problem),
      critical: result.tasks
        .map(({ criticality }, i) => ({ taskId: told.taskId(i), share: criticality }))
        .filter(({ share }) => share > 0.005)
        .sort((a, b) => b.share - a.share)
        .slice(0, mostCritical),
      weeks: result.weeks
        .slice(0, mostWeeks)
        .map(({ from, share }) => ({ from: told.days.dayOf(told.instant(from)), share })),
      paces: entity.paces.slice(0, mostPaces),
      trend: await this.trend(organisationId),
    };
  }

  private async trend(organisationId: string): Promise<ForecastModel['trend']> {
    const lines = await this.database.read.find(ForecastDay, {
      where: { organisationId },
      order: { madeOn: 'DESC' },
      take: mostDays,
    });
    return lines.reverse().map(({ madeOn, odds, readyOn, why }) => ({
      on: madeOn,
      gateOdds: odds.gate,
      p50On: readyOn.p50,
      p80On: readyOn.p80,
      why,
    }));
  }

  private async slots(told: ToldPlan, { result }: ForecastEntity): Promise<SlotOdds[]> {
    const ids = told.input.slots.map(({ id }) => id);
    const slots = new Map(
      (await this.database.read.findBy(LiftSlot, { id: In(ids) })).map((slot) => [slot.id, slot]),
    );
    return result.slots
      .flatMap(({ odds, error }, i): SlotOdds[] => {
        const slot = slots.get(ids[i] ?? '');
        return slot ? [{ slot, odds, error, words: oddsWords(odds) }] : [];
      })
      .slice(0, mostSlots);
  }
}

const dayOrNull = (told: ToldPlan, minute: number | null): string | null =>
  minute === null ? null : told.days.dayOf(told.instant(minute));

function readyBy(told: ToldPlan, { result }: ForecastEntity, gateAt: number): ReadyBy[] {
  const { p50, p80, p95 } = result.ready;
  const rows = [
    [50, p50, 'In 5 of 10 futures'],
    [80, p80, 'In 8 of 10'],
    [95, p95, 'In 19 of 20'],
  ] as const;
  return rows.map(([futures, { minute, from, to }, words]) => {
    const at = minute === null ? null : told.instant(minute);
    return {
      futures,
      at,
      on: dayOrNull(told, minute),
      from: dayOrNull(told, from),
      to: dayOrNull(told, to),
      words: readyByWords(words, at, { days: told.days, gateAt }),
    };
  });
}
