import { ComputeJob, Database, RealClock } from '@ribband/platform';
import type { Forecast, Plan } from '@ribband/engine';
import { Inject, Injectable } from '@nestjs/common';
import { LessThan, Not } from 'typeorm';
import { type Looked, OddsThreads } from '../compute/odds-threads.js';
import { PlanningSettings } from '../compute/settings.js';
import { PlanShelf } from '../plans/plan-shelf.service.js';
import type { ToldPlan } from '../plans/told-plan.js';
import type { Reason } from './event-words.js';
import { ForecastEntity } from './forecast.entity.js';
import type { Before, Seen } from './last-move.js';
import { recordedEvents } from './recorded-events.js';

/** What lies between two forecasts. */
export interface Since {
  /** The forecast before; null for a first one. */
  last: ForecastEntity | null;
  /** Until when the records count for this one. */
  lookedAt: number;
  reasons: Reason[];
}

/** Finds what a forecast is to be compared with. */
@Injectable()
export class Befores {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(PlanShelf) private readonly shelf: PlanShelf,
    @Inject(OddsThreads) private readonly threads: OddsThreads,
    @Inject(PlanningSettings) private readonly settings: PlanningSettings,
  ) {}

  /**
   * The forecast before, and what was recorded since. A plan knows what was recorded until it was begun; where the same
   * plan is looked at again, something that is believed has changed until now.
   */
  async since({ entity }: ToldPlan): Promise<Since> {
    const { organisationId, id: planId, revision } = entity;
    const { read } = this.database;
    const own = await read.findOneBy(ForecastEntity, { planId });
    const last =
      own ??
      (await read.findOne(ForecastEntity, {
        where: { organisationId, planId: Not(planId), revision: LessThan(revision) },
        order: { revision: 'DESC', madeAt: 'DESC' },
      }));
    const job = await read.findOneBy(ComputeJob, { id: entity.jobId });
    const lookedAt = own ? this.clock.now() : (job?.startedAt ?? entity.madeAt);
    const from = last?.lookedAt ?? last?.madeAt ?? lookedAt;
    return { last, lookedAt, reasons: await recordedEvents(read, organisationId, from, lookedAt) };
  }

  /**
   * How things looked before the newest events, and how they look with the events in the order of work of then: two
   * plans differ by more than what happened, for the search is not the same twice. Where nothing was recorded since
   * the forecast before, that one's own comparison stays.
   * @returns null for a first forecast
   */
  async of(
    { told, problem, beliefs }: Looked & { told: ToldPlan },
    { last, reasons }: Since,
    signal: AbortSignal,
  ): Promise<Before | null> {
    if (!last) return null;
    const old = await this.shelf.find(told.entity.organisationId, last.planId);
    if (reasons.length === 0 || !old?.plan || !told.plan) return last.before;
    const plan = inOldOrder(old, old.plan, told, told.plan);
    const same = await this.threads.forecast({ problem, plan, beliefs }, this.settings.futures, signal);
    return { ...seenOf(old, last.document), reasons, inOldOrder: seenOf(told, same) };
  }
}

/** What a forecast says in few words. */
export function seenOf(told: ToldPlan, { gate, ready }: Pick<Forecast, 'gate' | 'ready'>): Seen {
  const { minute } = ready.p50;
  return {
    gateOdds: gate.odds,
    error: gate.error,
    evenOn: minute === null ? null : told.days.dayOf(told.instant(minute)),
  };
}

/** The tasks of a plan at the times of an older one; those that the older one does not know at their own. */
function inOldOrder(old: ToldPlan, before: Plan, now: ToldPlan, after: Plan): Pick<Plan, 'tasks'> {
  const shift = (old.input.epochAt - now.input.epochAt) / 60_000;
  return {
    tasks: after.tasks.map((times, i) => {
      const known = before.tasks[old.indexOf(now.taskId(i)) ?? -1];
      return known ? { ...known, start: known.start + shift, end: known.end + shift } : times;
    }),
  };
}
