import type { Outcome, Problem } from '@ribband/engine';
import { checkProblem } from '@ribband/engine';
import {
  Bus,
  type ComputeControl,
  type ComputeHandler,
  ComputeJobHandler,
  type ComputeTask,
  Database,
  GiveUp,
  instantToLocal,
  RealClock,
  Revisions,
} from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { z } from 'zod';
import type { PlanInput } from '../plans/plan-input.js';
import { type PlanNews, planTopic } from '../plans/plan-news.js';
import { PlanShelf } from '../plans/plan-shelf.service.js';
import { buildProblem } from '../problem/build-problem.js';
import { DayWords } from '../words/days.js';
import { wishSentence } from '../words/wishes.js';
import { EngineThreads } from './engine-threads.js';
import { Expected } from './expected.js';
import { YardLoader } from './load-yard.js';
import { publish } from './publish.js';
import { PlanningSettings } from './settings.js';
import { warmPlan } from './warm-plan.js';

const payload = z.object({ seconds: z.number().min(0.1).max(600).optional() });

/** What the run shows of itself while it computes. */
export interface PlanProgress {
  schedules: number;
  /** Epoch milliseconds. */
  bestReadyAt: number | null;
  boundReadyAt: number | null;
  /** Of the time that it may take, 0 to 1. */
  fraction: number;
}

/** The input that was read, with the state of the records that it was read from. */
interface ReadInput {
  input: PlanInput;
  revision: number;
}

/** Always the same; of two searches the other one has the next. */
const seed = 1;

/** Computes a plan of the newest records and puts it in force: a first one at once, then better ones. */
@Injectable()
@ComputeJobHandler('plan')
export class PlanHandler implements ComputeHandler<z.infer<typeof payload>> {
  readonly payload = payload;
  readonly tries = 3;
  readonly runTwice =
    'It reads the newest records again and publishes only what is newer or better than the plan in force.';

  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(Bus) private readonly bus: Bus,
    @Inject(YardLoader) private readonly yard: YardLoader,
    @Inject(Expected) private readonly expected: Expected,
    @Inject(PlanShelf) private readonly shelf: PlanShelf,
    @Inject(EngineThreads) private readonly threads: EngineThreads,
    @Inject(PlanningSettings) private readonly settings: PlanningSettings,
  ) {}

  async run(task: ComputeTask<z.infer<typeof payload>>, control: ComputeControl): Promise<void> {
    const read = await this.read(task.organisationId);
    const millis = (task.payload.seconds ?? this.settings.seconds) * 1_000;
    const released: string[] = [];
    for (;;) {
      const outcome = await this.search(task, read, millis, released, control);
      const freed = outcome.kind === 'plan' ? [] : release(read.input, outcome);
      if (freed.length === 0) {
        await this.publish(task, read, outcome, released, control, true);
        return;
      }
      released.push(...freed);
    }
  }

  /** The records as the engine sees them, all of one moment. */
  private async read(organisationId: string): Promise<ReadInput> {
    const { loaded, old, revision } = await this.database.snapshot(async (manager) => ({
      loaded: await this.yard.load(manager, organisationId),
      old: await this.shelf.inForce(organisationId, manager),
      revision: await this.revisions.current(manager, organisationId),
    }));
    if (!loaded) throw new GiveUp('There is no haul-out yet: import a yard first.');
    const yard = await this.expected.at(loaded);
    const { problem, epochAt, linkIds } = buildProblem(yard);
    refuseMalformed(problem);
    return {
      revision,
      input: {
        format: 'ribband-plan-input/1',
        epochAt,
        timeZone: yard.timeZone,
        slots: yard.slots.map(({ id, kind, startsAt }) => ({ id, kind, startsAt })),
        linkIds,
        problem,
        seed,
        warm: old?.plan ? warmPlan({ input: old.input, plan: old.plan }, problem, epochAt) : null,
      },
    };
  }

  /** One search. Better plans are put in force while it goes on, the first one at once. */
  private async search(
    task: ComputeTask,
    read: ReadInput,
    millis: number,
    notices: string[],
    control: ComputeControl,
  ): Promise<Outcome> {
    const { input } = read;
    const startedAt = this.clock.now();
    const instant = (minute: number) => input.epochAt + minute * 60_000;
    let publishing: Promise<void> = Promise.resolve();
    const outcome = await this.threads.run(input, {
      millis,
      signal: control.signal,
      onWork: ({ schedules, ready, bound }) => {
        control.report({
          schedules,
          bestReadyAt: instant(ready),
          boundReadyAt: instant(bound),
          fraction: Math.min(1, (this.clock.now() - startedAt) / millis),
        } satisfies PlanProgress);
      },
      onBetter: (plan) => {
        publishing = publishing.then(() =>
          this.publish(task, read, { kind: 'plan', plan }, notices, control, false),
        );
        // Its failure is met where it is awaited.
        publishing.catch(() => undefined);
      },
    });
    await publishing;
    return outcome;
  }

  private async publish(
    task: ComputeTask,
    { input, revision }: ReadInput,
    outcome: Outcome,
    notices: string[],
    control: ComputeControl,
    isLast: boolean,
  ): Promise<void> {
    const { id: jobId, organisationId } = task;
    const madeAt = this.clock.now();
    await control.publish(async (manager) => {
      const plan = await publish(manager, {
        organisationId,
        jobId,
        revision,
        input,
        outcome,
        notices,
        madeAt,
        isLast,
      });
      if (plan)
        this.bus.publishAfter(manager, planTopic(organisationId), {
          planId: plan.id,
          revision,
          readyAt: plan.readyAt,
        } satisfies PlanNews);
      // The odds are of the plan that stays; those on the way to it need none.
      if (isLast) await this.revisions.request(manager, 'forecast', organisationId, 'a plan was made');
    });
  }
}

function refuseMalformed(problem: Problem): void {
  const faults = checkProblem(problem).filter((fault) => fault.kind === 'malformed');
  if (faults.length === 0) return;
  const told = faults.slice(0, 5).map((fault) => `${fault.path} ${fault.says}`);
  throw new Error(`The records make no sound problem: ${told.join('; ')}`);
}

/**
 * Where places that people took are all that stands in the way, they are let go as far as the plan is concerned, and
 * it says so: one promise that can't be kept shall not leave the yard without a plan.
 */
function release(input: PlanInput, outcome: Extract<Outcome, { kind: 'no plan' }>): string[] {
  const postings = outcome.wishes.flatMap((wish) => (wish.kind === 'posting' ? [wish] : []));
  const firm = postings.filter((wish) => input.problem.posted[wish.posting]?.firm);
  const today = instantToLocal(input.epochAt + input.problem.now * 60_000, input.timeZone).day;
  const days = new DayWords(input.timeZone, today.slice(0, 4));
  return firm.map((wish) => {
    const posting = input.problem.posted[wish.posting];
    if (posting) posting.firm = false;
    return wishSentence(input.problem, wish, input.epochAt, days).sentence;
  });
}
