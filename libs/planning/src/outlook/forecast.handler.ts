import {
  Bus,
  type ComputeControl,
  type ComputeHandler,
  ComputeJobHandler,
  type ComputeTask,
  Database,
  RealClock,
  Revisions,
} from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { z } from 'zod';
import { type Looked, OddsThreads } from '../compute/odds-threads.js';
import { PlanningSettings } from '../compute/settings.js';
import { type PlanNews, planTopic } from '../plans/plan-news.js';
import type { ToldPlan } from '../plans/told-plan.js';
import type { ToldBelief } from '../beliefs/beliefs.js';
import { Befores } from './befores.service.js';
import type { ForecastEntity } from './forecast.entity.js';
import { keepForecast } from './keep-forecast.js';
import { OddsDesk } from './odds-desk.service.js';
import { weekStarts } from './week-starts.js';

const payload = z.object({});

/** A first look, so that there is a sentence soon. */
const quickFutures = 500;

/** Lives through many futures of the plan in force: a quick look first, then the whole. */
@Injectable()
@ComputeJobHandler('forecast')
export class ForecastHandler implements ComputeHandler<z.infer<typeof payload>> {
  readonly payload = payload;
  readonly tries = 3;
  readonly runTwice = 'It reads the plan in force again and keeps the same forecast with it.';

  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(Bus) private readonly bus: Bus,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(OddsDesk) private readonly desk: OddsDesk,
    @Inject(Befores) private readonly befores: Befores,
    @Inject(OddsThreads) private readonly threads: OddsThreads,
    @Inject(PlanningSettings) private readonly settings: PlanningSettings,
  ) {}

  async run({ organisationId }: ComputeTask, control: ComputeControl): Promise<void> {
    const looked = await this.desk.look(organisationId);
    if (!looked) return;
    const since = await this.befores.since(looked.told);
    const { lookedAt } = since;
    if (this.settings.futures > quickFutures)
      await this.keep(looked, quickFutures, { lookedAt, before: null }, control);
    if (control.shouldStop()) return;
    // The quick look says no more than the odds and does not wait for it.
    const before = await this.befores.of(looked, since, control.signal);
    await this.keep(looked, this.settings.futures, { lookedAt, before }, control);
    await control.publish((manager) =>
      this.revisions.request(manager, 'advice', organisationId, 'a forecast was made'),
    );
  }

  private async keep(
    { told, beliefs, shown }: Looked & { told: ToldPlan; shown: ToldBelief[] },
    futures: number,
    kept: Pick<ForecastEntity, 'before' | 'lookedAt'>,
    control: ComputeControl,
  ): Promise<void> {
    const { plan, problem, entity } = told;
    if (!plan) return;
    const weeks = weekStarts(told);
    const forecast = await this.threads.forecast({ problem, plan, beliefs, weeks }, futures, control.signal);
    const madeAt = this.clock.now();
    await control.publish(async (manager) => {
      await keepForecast(manager, told, forecast, { ...kept, beliefs: shown, madeAt });
      this.bus.publishAfter(manager, planTopic(entity.organisationId), {
        planId: entity.id,
        revision: entity.revision,
        readyAt: entity.readyAt,
      } satisfies PlanNews);
    });
  }
}
