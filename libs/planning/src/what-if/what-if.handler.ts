import { changedBy, type Forecast, gainsOf, percentileGained, type Problem } from '@ribband/engine';
import {
  type ComputeControl,
  type ComputeHandler,
  ComputeJobHandler,
  type ComputeTask,
  Database,
} from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { z } from 'zod';
import { type OnDesk, OddsDesk } from '../outlook/odds-desk.service.js';
import type { ToldPlan } from '../plans/told-plan.js';
import { changesOf, type Gained, type Look, type WhatIfResult } from './supposed.js';
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

  private async suppose(
    { changes }: WhatIfEntity,
    onDesk: OnDesk,
    control: ComputeControl,
  ): Promise<Partial<WhatIfEntity>> {
    const { told, problem, beliefs } = onDesk;
    const found = changes.flatMap((one) => changesOf(told, one));
    if (found.length === 0)
      return { state: 'failed', message: 'Nothing in the plan in force would change by that.' };
    const then = await this.desk.otherwise(onDesk, changedBy(problem, beliefs, found), control);
    if (!then)
      return { state: 'failed', message: 'With that change no plan exists: some wishes can’t all hold.' };
    const now = await this.desk.asItIs(onDesk, control);
    const result: WhatIfResult = {
      planId: told.entity.id,
      now: lookOf(told, told.plan?.ready ?? null, now.forecast),
      then: lookOf(told, then.plan.ready, then.forecast),
      gained: gainedBy(problem, now.ready, then.ready),
    };
    return { state: 'done', result };
  }
}

const noPlan: Partial<WhatIfEntity> = {
  state: 'failed',
  message: 'There is no plan to hold it against yet.',
};

/** Futures are held against each other one by one, as many as both were lived through. */
function gainedBy({ aim: { gate }, horizon }: Problem, now: Int32Array, then: Int32Array): Gained {
  const both = Math.min(now.length, then.length);
  const [before, after] = [now.subarray(0, both), then.subarray(0, both)];
  return {
    odds: gainsOf(before, after, { gate, horizon }).oddsGained,
    likely: percentileGained(before, after, { p: 0.8, horizon }),
  };
}

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
