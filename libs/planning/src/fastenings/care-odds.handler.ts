import type { Forecast, Problem } from '@ribband/engine';
import {
  type ComputeControl,
  type ComputeHandler,
  ComputeJobHandler,
  type ComputeTask,
  Database,
} from '@ribband/platform';
import { CareLevels } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { z } from 'zod';
import { beliefsFor, type YardExperience } from '../beliefs/beliefs.js';
import type { Futures } from '../compute/odds-threads.js';
import { type OnDesk, OddsDesk } from '../outlook/odds-desk.service.js';
import { atRate } from './at-care.js';
import { CareOddsEntity } from './care-odds.entity.js';

const payload = z.object({});

type Answer = Pick<CareOddsEntity, 'state' | 'gate' | 'message'>;

/**
 * Works out the odds of the gate at each level of care, on copies of the plan's problem, as a what-if does: planned
 * anew with the rate of that care, then lived through in the same futures.
 */
@Injectable()
@ComputeJobHandler('care-odds')
export class CareOddsHandler implements ComputeHandler<z.infer<typeof payload>> {
  readonly payload = payload;
  readonly tries = 2;
  readonly runTwice = 'It takes up only what still waits, and writes each answer once.';

  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(CareLevels) private readonly levels: CareLevels,
    @Inject(OddsDesk) private readonly desk: OddsDesk,
  ) {}

  async run({ organisationId }: ComputeTask, control: ComputeControl): Promise<void> {
    const onDesk = await this.desk.look(organisationId);
    const { choices, waiting } = await this.database.snapshot(async (manager) => ({
      choices: await this.levels.ifChosen(manager, organisationId),
      waiting: await manager.find(CareOddsEntity, {
        where: { organisationId, state: 'waiting' },
        order: { id: 'ASC' },
      }),
    }));
    let asItIs: Promise<Futures> | null = null;
    for (const row of waiting) {
      const choice = choices.find(({ fastening, care }) => fastening === row.fastening && care === row.care);
      let answer = overtaken;
      if (onDesk?.told.entity.id === row.planId && choice) {
        const other = atRate(onDesk.problem, onDesk.known, choice.tasks, choice.rate);
        const found = other
          ? await this.otherwise(onDesk, other, control)
          : (await (asItIs ??= this.desk.asItIs(onDesk, control))).forecast;
        answer = found ? { state: 'done', gate: found.gate, message: null } : noPlan;
      }
      await control.publish((manager) =>
        manager.update(CareOddsEntity, { id: row.id, state: 'waiting' }, answer),
      );
    }
  }

  private async otherwise(
    onDesk: OnDesk,
    { problem, known }: { problem: Problem; known: YardExperience },
    control: ComputeControl,
  ): Promise<Forecast | null> {
    const { beliefs } = beliefsFor(problem, known);
    return (await this.desk.otherwise(onDesk, { problem, beliefs }, control))?.forecast ?? null;
  }
}

const noPlan: Answer = { state: 'failed', gate: null, message: 'With that care no plan exists.' };

const overtaken: Answer = {
  state: 'failed',
  gate: null,
  message: 'The plan has changed since; ask again.',
};
