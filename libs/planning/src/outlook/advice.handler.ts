import { crewHands } from '@ribband/crew';
import {
  Bus,
  type ComputeControl,
  type ComputeHandler,
  ComputeJobHandler,
  type ComputeTask,
  Database,
  RealClock,
} from '@ribband/platform';
import { Task } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { z } from 'zod';
import { OddsThreads } from '../compute/odds-threads.js';
import { PlanningSettings } from '../compute/settings.js';
import { type PlanNews, planTopic } from '../plans/plan-news.js';
import { changeWords } from '../words/change-words.js';
import { AdviceEntity } from './advice.entity.js';
import { ForecastEntity } from './forecast.entity.js';
import { OddsDesk } from './odds-desk.service.js';
import { candidates } from './possible.js';

const payload = z.object({});

/** Ranks what would help most by the plan in force, once its odds are known. */
@Injectable()
@ComputeJobHandler('advice')
export class AdviceHandler implements ComputeHandler<z.infer<typeof payload>> {
  readonly payload = payload;
  readonly tries = 2;
  readonly runTwice = 'It ranks the same candidates by the same futures and keeps the same answer.';

  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(Bus) private readonly bus: Bus,
    @Inject(OddsDesk) private readonly desk: OddsDesk,
    @Inject(OddsThreads) private readonly threads: OddsThreads,
    @Inject(PlanningSettings) private readonly settings: PlanningSettings,
  ) {}

  async run({ organisationId }: ComputeTask, control: ComputeControl): Promise<void> {
    const looked = await this.desk.look(organisationId);
    const sentences = looked?.told.told;
    if (!looked || !sentences) return;
    const { told } = looked;
    const planId = told.entity.id;
    const kept = await this.database.read.findOneBy(ForecastEntity, { planId });
    if (!kept) return;
    const tasks = await this.database.read.findBy(Task, { organisationId });
    const positions = new Map(tasks.map(({ id, position }) => [id, position ?? '']));
    const positionOf = (task: number) => positions.get(told.taskId(task)) ?? '';
    const { problem, plan, beliefs } = looked;
    const hands = await crewHands(this.database.read, organisationId);
    const wishes = new Map(hands.map((hand) => [hand.id, hand.wouldLearn]));
    const wouldLearn = (person: number, skill: number): boolean =>
      wishes.get(problem.people[person]?.id ?? '')?.includes(problem.skills[skill]?.id ?? '') ?? false;
    const wanted = candidates(told, kept.document, positionOf, wouldLearn);
    const futures = Math.min(this.settings.futures, mostFutures);
    const advice = await this.threads.advise({ problem, plan, beliefs }, wanted, futures, control.signal);
    if (control.shouldStop()) return;
    const words = advice.ranked.map(({ change }) => changeWords(sentences, change, positionOf));
    const madeAt = this.clock.now();
    await control.publish(async (manager) => {
      await manager.upsert(AdviceEntity, { organisationId, planId, madeAt, document: { advice, words } }, [
        'organisationId',
      ]);
      const { revision, readyAt } = told.entity;
      this.bus.publishAfter(manager, planTopic(organisationId), {
        planId,
        revision,
        readyAt,
      } satisfies PlanNews);
    });
  }
}

const mostFutures = 2_000;
