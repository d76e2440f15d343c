import { Database } from '@ribband/platform';
import { YardBoard } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { beliefsFor, type ToldBelief } from '../beliefs/beliefs.js';
import { readExperience } from '../beliefs/read-experience.js';
import type { Looked } from '../compute/odds-threads.js';
import { PlanShelf } from '../plans/plan-shelf.service.js';
import type { ToldPlan } from '../plans/told-plan.js';

/** Puts the plan in force and what is believed about it side by side. */
@Injectable()
export class OddsDesk {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(PlanShelf) private readonly shelf: PlanShelf,
    @Inject(YardBoard) private readonly board: YardBoard,
  ) {}

  /** @returns null where no plan is in force, or it says that none exists */
  async look(organisationId: string): Promise<(Looked & { told: ToldPlan; shown: ToldBelief[] }) | null> {
    const { told, known } = await this.database.snapshot(async (manager) => ({
      told: await this.shelf.inForce(organisationId, manager),
      known: await readExperience(manager, organisationId, await this.board.of(manager, organisationId)),
    }));
    if (!told?.plan) return null;
    const { beliefs, told: shown } = beliefsFor(told.problem, known);
    return { problem: told.problem, plan: told.plan, beliefs, told, shown };
  }
}
