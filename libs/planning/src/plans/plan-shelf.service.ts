import { Database, Revisions } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { PlanInForceEntity } from './plan-in-force.entity.js';
import { PlanInputEntity } from './plan-input.entity.js';
import { unsealed } from './plan-input.js';
import { PlanEntity } from './plan.entity.js';
import { ToldPlan } from './told-plan.js';

/** Plans that are held ready: one for each yard that is looked at just now. */
const mostHeld = 8;

/** Finds kept plans. */
@Injectable()
export class PlanShelf {
  readonly #held = new Map<string, ToldPlan>();

  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
  ) {}

  /** The plan that an organisation goes by, or null before the first. */
  async inForce(
    organisationId: string,
    manager: EntityManager = this.database.read,
  ): Promise<ToldPlan | null> {
    const pointer = await manager.findOneBy(PlanInForceEntity, { organisationId });
    return pointer?.planId ? this.find(organisationId, pointer.planId, manager) : null;
  }

  /** A plan by id, also one that is no longer in force. */
  async find(
    organisationId: string,
    planId: string,
    manager: EntityManager = this.database.read,
  ): Promise<ToldPlan | null> {
    // A run may say more about its own plan at its end: then `schedules` has grown.
    const row = await manager.findOne(PlanEntity, {
      select: { id: true, schedules: true },
      where: { id: planId, organisationId },
    });
    const held = this.#held.get(planId);
    if (row && held?.entity.schedules === row.schedules) return held;
    const entity = await manager.findOneBy(PlanEntity, { id: planId, organisationId });
    if (!entity) return null;
    const kept = await manager.findOneByOrFail(PlanInputEntity, { id: entity.inputId });
    const told = new ToldPlan(entity, unsealed(kept));
    this.#held.set(planId, told);
    for (const oldest of this.#held.keys()) {
      if (this.#held.size <= mostHeld) break;
      this.#held.delete(oldest);
    }
    return told;
  }

  /** Whether nothing that the plan depends on has changed since. */
  async isNewest(told: ToldPlan, manager: EntityManager = this.database.read): Promise<boolean> {
    return (await this.revisions.current(manager, told.entity.organisationId)) === told.entity.revision;
  }
}
