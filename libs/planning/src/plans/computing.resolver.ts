import { Allow, AllowSignedIn, type Caller, CurrentCaller } from '@ribband/access';
import { Bus, type ComputeJob, type ComputeNews, computeTopic, refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, Int, Mutation, Query, Resolver, Subscription } from '@nestjs/graphql';
import type { PlanProgress } from '../compute/plan.handler.js';
import { AskForPlanPayload, Computing } from './computing.types.js';
import { sentenceOf } from './plan-model.js';
import { type PlanNews, planTopic } from './plan-news.js';
import { PlanShelf } from './plan-shelf.service.js';
import { PlanPublished } from './plan.types.js';
import { Plans } from './plans.service.js';

const AskForPlanResult = refusable('AskForPlanResult', () => AskForPlanPayload);

@Resolver(() => Computing)
export class ComputingResolver {
  constructor(
    @Inject(Plans) private readonly plans: Plans,
    @Inject(PlanShelf) private readonly shelf: PlanShelf,
    @Inject(Bus) private readonly bus: Bus,
  ) {}

  @AllowSignedIn()
  @Query(() => Computing, {
    name: 'computing',
    nullable: true,
    description: 'The newest computation; null before the first.',
  })
  async newest(@CurrentCaller() caller: Caller): Promise<Computing | null> {
    const job = await this.plans.newestJob(caller.organisationId);
    return job ? computingOf(job) : null;
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Mutation(() => AskForPlanResult, { description: 'Asks for a new search of a plan.' })
  async askForPlan(
    @CurrentCaller() caller: Caller,
    @Args('seconds', { type: () => Int, nullable: true, description: 'How long it may take: 1 to 600.' })
    seconds: number | null = null,
  ): Promise<AskForPlanPayload> {
    const job = await this.plans.ask(caller, seconds);
    return Object.assign(new AskForPlanPayload(), { computing: computingOf(job) });
  }

  @AllowSignedIn()
  @Subscription(() => Computing, {
    name: 'computing',
    description: 'How far the computation is, each time that it says so.',
  })
  async *computingNews(@CurrentCaller() caller: Caller): AsyncGenerator<{ computing: Computing }> {
    let job: ComputeJob | null = null;
    for await (const news of this.bus.listen<ComputeNews>(computeTopic(caller.organisationId))) {
      // The row is read when the state changes; progress comes with the news.
      if (job?.id !== news.jobId || job.state !== news.state)
        job = await this.plans.job(caller.organisationId, news.jobId);
      if (job?.name !== 'plan') continue;
      yield {
        computing: computingOf({ ...job, state: news.state, progress: news.progress ?? job.progress }),
      };
    }
  }

  @AllowSignedIn()
  @Subscription(() => PlanPublished, { description: 'Each time that a plan comes in force.' })
  async *planPublished(@CurrentCaller() caller: Caller): AsyncGenerator<{ planPublished: PlanPublished }> {
    for await (const news of this.bus.listen<PlanNews>(planTopic(caller.organisationId))) {
      const told = await this.shelf.find(caller.organisationId, news.planId);
      // A better one may have taken its place already.
      if (told) yield { planPublished: { ...news, sentence: sentenceOf(told) } };
    }
  }
}

type JobRow = Pick<
  ComputeJob,
  'id' | 'state' | 'revision' | 'askedAt' | 'startedAt' | 'finishedAt' | 'progress' | 'message'
>;

function computingOf(job: JobRow): Computing {
  const { id, state, revision, askedAt, startedAt, finishedAt, message } = job;
  return {
    id,
    state,
    revision,
    askedAt,
    startedAt,
    finishedAt,
    message,
    progress: job.progress as PlanProgress | null,
  };
}
