import type { Forecast } from '@ribband/engine';
import {
  Bus,
  type ComputeControl,
  type ComputeHandler,
  ComputeJob,
  ComputeJobHandler,
  type ComputeTask,
  Database,
  GiveUp,
  newId,
  RealClock,
  Stopped,
} from '@ribband/platform';
import { YardBoard } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { Not, type EntityManager } from 'typeorm';
import { z } from 'zod';
import { PlanInForceEntity } from '../plans/plan-in-force.entity.js';
import { type PlanNews, planTopic } from '../plans/plan-news.js';
import { PlanShelf } from '../plans/plan-shelf.service.js';
import type { ToldPlan } from '../plans/told-plan.js';
import { beliefsOf, paceSentence } from './beliefs.js';
import { ForecastDay, ForecastEntity } from './forecast.entity.js';
import { readRecord } from './read-record.js';
import { runForecast } from './run-forecast.js';

const payload = z.object({});

/** Always the same futures, so that a change shows and not the luck. */
const seed = 1;
/** A standard error of at most 1.2 in 100. */
const futures = 2_000;
/** So many changes of one day are kept by name. */
const mostWhys = 20;

/** Lives through many futures of the plan in force and keeps what they say. */
@Injectable()
@ComputeJobHandler('forecast')
export class ForecastHandler implements ComputeHandler<z.infer<typeof payload>> {
  readonly payload = payload;
  readonly tries = 2;
  readonly runTwice =
    'It forecasts the plan then in force and puts its forecast in place of that plan’s last one.';

  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(Bus) private readonly bus: Bus,
    @Inject(YardBoard) private readonly board: YardBoard,
    @Inject(PlanShelf) private readonly shelf: PlanShelf,
  ) {}

  async run({ organisationId }: ComputeTask, control: ComputeControl): Promise<void> {
    const told = await this.shelf.inForce(organisationId);
    const plan = told?.plan;
    if (!told || !plan) throw new GiveUp('There is no plan to forecast.');
    const { problem } = told;
    const record = await this.database.snapshot(async (manager) => {
      const board = await this.board.of(manager, organisationId);
      return readRecord(manager, organisationId, board, problem);
    });
    const { beliefs, paces } = beliefsOf(problem, record);
    const order = { problem, tasks: plan.tasks, beliefs, seed, futures };
    const result = await runForecast(order, control.signal).catch((error: unknown) => {
      throw control.signal.aborted ? new Stopped() : error;
    });
    await control.publish(async (manager) => {
      const inForce = await manager.findOneBy(PlanInForceEntity, { organisationId });
      // A newer plan asks for a forecast of its own.
      if (inForce?.planId !== told.entity.id) return;
      await this.keep(manager, told, result, paces.map(paceSentence));
      this.bus.publishAfter(manager, planTopic(organisationId), {
        planId: told.entity.id,
        revision: told.entity.revision,
        readyAt: told.entity.readyAt,
      } satisfies PlanNews);
    });
  }

  private async keep(
    manager: EntityManager,
    told: ToldPlan,
    result: Forecast,
    paces: string[],
  ): Promise<void> {
    const { organisationId, id: planId } = told.entity;
    const id = newId('forecast');
    await manager.insert(ForecastEntity, {
      id,
      organisationId,
      planId,
      madeAt: this.clock.now(),
      result,
      paces,
    });
    await manager.delete(ForecastEntity, { organisationId, planId, id: Not(id) });
    const dayOf = (minute: number | null) => (minute === null ? null : told.days.dayOf(told.instant(minute)));
    const { p50, p80, p95 } = result.ready;
    const madeOn = told.days.dayOf(told.instant(told.problem.now));
    const old = await manager.findOneBy(ForecastDay, { organisationId, madeOn });
    const job = await manager.findOneBy(ComputeJob, { organisationId, id: told.entity.jobId });
    const line: Omit<ForecastDay, 'id'> = {
      organisationId,
      madeOn,
      readyOn: { p50: dayOf(p50.minute), p80: dayOf(p80.minute), p95: dayOf(p95.minute) },
      odds: { gate: result.gate.odds, fallback: fallbackOdds(told, result) },
      why: [...new Set([...(old?.why ?? []), ...(job ? [job.why] : [])])].slice(-mostWhys),
    };
    await manager.save(ForecastDay, { ...line, id: old?.id ?? newId('forecastday') });
  }
}

/** Odds of the first slot after the gate, or of the gate where there is none. */
function fallbackOdds(told: ToldPlan, result: Forecast): number {
  const fallback = told.input.slots.findIndex((slot) => slot.kind === 'fallback');
  return (result.slots[fallback] ?? result.gate).odds;
}
