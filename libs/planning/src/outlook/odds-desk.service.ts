import type { Beliefs, Plan, Problem } from '@ribband/engine';
import { type ComputeControl, ComputeJob, Database } from '@ribband/platform';
import { YardBoard } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { In, type EntityManager } from 'typeorm';
import { beliefsFor, type ToldBelief, type YardExperience } from '../beliefs/beliefs.js';
import { readExperience } from '../beliefs/read-experience.js';
import { EngineThreads } from '../compute/engine-threads.js';
import { type Futures, type Looked, OddsThreads } from '../compute/odds-threads.js';
import { PlanningSettings } from '../compute/settings.js';
import { warmPlan } from '../compute/warm-plan.js';
import { PlanShelf } from '../plans/plan-shelf.service.js';
import type { ToldPlan } from '../plans/told-plan.js';

/** The plan in force with its yard's records, and what they make believe. */
export interface OnDesk extends Looked {
  told: ToldPlan;
  known: YardExperience;
  shown: ToldBelief[];
}

/** Futures in which two ways of doing things are compared. */
const mostFutures = 3_000;

/** Puts the plan in force and what is believed about it side by side, and holds other ways of doing things against it. */
@Injectable()
export class OddsDesk {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(PlanShelf) private readonly shelf: PlanShelf,
    @Inject(YardBoard) private readonly board: YardBoard,
    @Inject(EngineThreads) private readonly engine: EngineThreads,
    @Inject(OddsThreads) private readonly odds: OddsThreads,
    @Inject(PlanningSettings) private readonly settings: PlanningSettings,
  ) {}

  /** @returns null where no plan is in force, or it says that none exists */
  async look(organisationId: string): Promise<OnDesk | null> {
    const { told, known } = await this.database.snapshot(async (manager) => ({
      told: await this.shelf.inForce(organisationId, manager),
      known: await readExperience(manager, organisationId, await this.board.of(manager, organisationId)),
    }));
    if (!told?.plan) return null;
    const { beliefs, told: shown } = beliefsFor(told.problem, known);
    return { problem: told.problem, plan: told.plan, beliefs, told, known, shown };
  }

  /** Futures of the plan in force, to hold others against. */
  asItIs({ problem, plan, beliefs }: Looked, { signal }: ComputeControl): Promise<Futures> {
    return this.odds.futures({ problem, plan, beliefs }, this.futures, signal);
  }

  /**
   * The same futures with another problem. It is planned anew before it is looked at: a crew that changes would not keep
   * to the old order.
   * @returns null where no plan exists for it
   */
  async otherwise(
    { told }: OnDesk,
    other: { problem: Problem; beliefs: Beliefs },
    { signal }: ComputeControl,
  ): Promise<({ plan: Plan } & Futures) | null> {
    const { problem } = other;
    const { input } = told;
    const warm = told.plan ? warmPlan({ input, plan: told.plan }, problem, input.epochAt) : null;
    const millis = this.settings.seconds * 1_000;
    const outcome = await this.engine.run({ ...input, problem, warm }, { millis, signal });
    if (outcome.kind === 'no plan') return null;
    const { plan } = outcome;
    return { plan, ...(await this.odds.futures({ ...other, plan }, this.futures, signal)) };
  }

  /** Whether anybody still works at what was asked: a computing job that failed leaves its questions as they were. */
  async isAtWork(manager: EntityManager, organisationId: string, name: ComputeJob['name']): Promise<boolean> {
    return manager.existsBy(ComputeJob, { organisationId, name, state: In(['waiting', 'running']) });
  }

  private get futures(): number {
    return Math.min(this.settings.futures, mostFutures);
  }
}

/** Said of a question whose computing job failed. */
export const wentWrong = 'It could not be worked out: something went wrong at the server. Ask again.';
