import { Database, log, Revisions, YardClock } from '@ribband/platform';
import { TurnoutEntity } from '@ribband/roster';
import { Inject, Injectable, type OnApplicationBootstrap, type OnApplicationShutdown } from '@nestjs/common';
import { Between, IsNull, type EntityManager } from 'typeorm';
import { PlanInForceEntity } from '../plans/plan-in-force.entity.js';
import { PlanShelf } from '../plans/plan-shelf.service.js';

const lookMillis = 10 * 60_000;

/**
 * Asks for a new plan when time has overtaken the one in force: a turnout went by since it was made, and what was
 * not entered by then was not done. It looks when the process starts and every ten minutes; any number of processes
 * may look, since the first that asks raises the revision and the others see that.
 */
@Injectable()
export class Overtaken implements OnApplicationBootstrap, OnApplicationShutdown {
  #timer: NodeJS.Timeout | null = null;
  #looking: Promise<void> = Promise.resolve();

  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(PlanShelf) private readonly shelf: PlanShelf,
  ) {}

  async onApplicationBootstrap(): Promise<void> {
    await this.look();
    this.#timer = setInterval(() => {
      this.#looking = this.look();
    }, lookMillis);
    this.#timer.unref();
  }

  async onApplicationShutdown(): Promise<void> {
    if (this.#timer) clearInterval(this.#timer);
    await this.#looking;
  }

  /** One look at every yard that has a plan. Trouble with one is logged, and the others are looked at all the same. */
  async look(): Promise<void> {
    for (const { organisationId, planId } of await this.database.read.find(PlanInForceEntity)) {
      if (planId === null) continue;
      try {
        if (!(await this.isOvertaken(this.database.read, organisationId))) continue;
        await this.database.write(async (manager) => {
          if (await this.isOvertaken(manager, organisationId))
            await this.revisions.requestPlan(manager, organisationId, 'a turnout went by');
        });
      } catch (error) {
        log.error({ error, organisationId }, 'could not see whether a plan has been overtaken');
      }
    }
  }

  private async isOvertaken(manager: EntityManager, organisationId: string): Promise<boolean> {
    const told = await this.shelf.inForce(organisationId, manager);
    if (!told || !(await this.shelf.isNewest(told, manager))) return false;
    const from = told.instant(told.problem.now) + 1;
    const now = await this.clock.now(organisationId, manager);
    if (now < from) return false;
    return manager.existsBy(TurnoutEntity, {
      organisationId,
      kind: IsNull(),
      cancelledAt: IsNull(),
      endsAt: Between(from, now),
    });
  }
}
