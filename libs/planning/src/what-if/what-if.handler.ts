import { changedBy, type Forecast } from '@ribband/engine';
import {
  type ComputeControl,
  type ComputeHandler,
  ComputeJobHandler,
  type ComputeTask,
  Database,
} from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { z } from 'zod';
import { EngineThreads } from '../compute/engine-threads.js';
import { type Looked, OddsThreads } from '../compute/odds-threads.js';
import { PlanningSettings } from '../compute/settings.js';
import { warmPlan } from '../compute/warm-plan.js';
import { OddsDesk } from '../outlook/odds-desk.service.js';
import type { ToldPlan } from '../plans/told-plan.js';
import { changesOf, type Look, type WhatIfResult } from './supposed.js';
import { WhatIfEntity } from './what-if.entity.js';

const payload = z.object({});

/** Computes what changes would do, on a copy of the plan's problem: nothing that the yard goes by is touched. */
@Injectable()
@ComputeJobHandler('what-if')
export class WhatIfHandler implements ComputeHandler<z.infer<typeof payload>> {
  readonly payload = payload;
  readonly tries = 2;
  readonly runTwice = 'It takes up only what still waits, and writes each answer once.';

  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(OddsDesk) private readonly desk: OddsDesk,
    @Inject(EngineThreads) private readonly engine: EngineThreads,
    @Inject(OddsThreads) private readonly odds: OddsThreads,
    @Inject(PlanningSettings) private readonly settings: PlanningSettings,
  ) {}

  async run({ organisationId }: ComputeTask, control: ComputeControl): Promise<void> {
    for (;;) {
      const waiting = await this.database.read.findOne(WhatIfEntity, {
        where: { organisationId, state: 'waiting' },
        order: { id: 'ASC' },
      });
      if (!waiting) return;
      const looked = await this.desk.look(organisationId);
      const answer = looked ? await this.suppose(waiting, looked, control) : noPlan;
      await control.publish((manager) =>
        manager.update(WhatIfEntity, { id: waiting.id, state: 'waiting' }, answer),
      );
    }
  }

  /** A change is planned anew before it is looked at: a crew that changes would not keep to the old order. */
  private async suppose(
    { changes }: WhatIfEntity,
    { told, problem, plan, beliefs }: Looked & { told: ToldPlan },
    control: ComputeControl,
  ): Promise<Partial<WhatIfEntity>> {
    const found = changes.flatMap((one) => changesOf(told, one));
    if (found.length === 0)
      return { state: 'failed', message: 'Nothing in the plan in force would change by that.' };
    const other = changedBy(problem, beliefs, found);
    const outcome = await this.engine.run(
      {
        ...told.input,
        problem: other.problem,
        warm: told.plan
          ? warmPlan({ input: told.input, plan: told.plan }, other.problem, told.input.epochAt)
          : null,
      },
      { millis: this.settings.seconds * 1_000, signal: control.signal },
    );
    if (outcome.kind === 'no plan')
      return { state: 'failed', message: 'With that change no plan exists: some wishes can’t all hold.' };
    const futures = Math.min(this.settings.futures, mostFutures);
    const now = await this.odds.forecast({ problem, plan, beliefs }, futures, control.signal);
    const then = await this.odds.forecast({ ...other, plan: outcome.plan }, futures, control.signal);
    const result: WhatIfResult = {
      planId: told.entity.id,
      now: lookOf(told, told.plan?.ready ?? null, now),
      then: lookOf(told, outcome.plan.ready, then),
    };
    return { state: 'done', result };
  }
}

const mostFutures = 3_000;

const noPlan: Partial<WhatIfEntity> = {
  state: 'failed',
  message: 'There is no plan to hold it against yet.',
};

function lookOf(told: ToldPlan, ready: number | null, { ready: when, gate, spread }: Forecast): Look {
  const at = (minute: number | null) => (minute === null ? null : told.instant(minute));
  return {
    readyAt: at(ready),
    evenAt: at(when.p50.minute),
    likelyAt: at(when.p80.minute),
    gate,
    spread: spread.map(at),
  };
}
