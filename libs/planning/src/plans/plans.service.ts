import { permit, type Caller } from '@ribband/access';
import { ComputeJob, Database, refuse, Revisions } from '@ribband/platform';
import { HaulOut, LiftSlot } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import { planModel } from './plan-model.js';
import { PlanShelf } from './plan-shelf.service.js';
import type { PlanModel } from './plan.types.js';
import type { ToldPlan } from './told-plan.js';

export const staffRoles = ['director', 'coordinator', 'shipwright'] as const;

/** The plan in force, asking for a new one, and how far that is. */
@Injectable()
export class Plans {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(PlanShelf) private readonly shelf: PlanShelf,
  ) {}

  async inForce(caller: Caller): Promise<PlanModel | null> {
    permit(caller, ...staffRoles);
    const told = await this.shelf.inForce(caller.organisationId);
    return told ? this.model(told) : null;
  }

  async byIds(caller: Caller, ids: readonly string[]): Promise<PlanModel[]> {
    if (!(staffRoles as readonly string[]).includes(caller.role)) return [];
    const told = await Promise.all(ids.map((id) => this.shelf.find(caller.organisationId, id)));
    return Promise.all(told.filter((one) => one !== null).map((one) => this.model(one)));
  }

  async model(told: ToldPlan): Promise<PlanModel> {
    const slots = await this.database.read.findBy(LiftSlot, {
      id: In(told.input.slots.map((slot) => slot.id)),
    });
    return planModel(told, new Map(slots.map((slot) => [slot.id, slot])));
  }

  /** Asks for a plan of the newest records. Records change nothing by it, but the search starts anew. */
  async ask(caller: Caller, seconds: number | null): Promise<ComputeJob> {
    permit(caller, ...staffRoles);
    if (seconds !== null && !(seconds >= 1 && seconds <= mostSeconds))
      refuse('BAD_INPUT', 'A search takes 1 to 600 seconds.', {
        field: 'seconds',
        remedy: 'Leave it out, or say 10.',
      });
    return this.database.write(async (manager) => {
      const { organisationId } = caller;
      if (!(await manager.existsBy(HaulOut, { organisationId })))
        refuse('NOT_FOUND', 'There is no haul-out yet.', { remedy: 'Import a yard first.' });
      const payload = seconds === null ? {} : { seconds };
      return this.revisions.requestPlan(manager, organisationId, `${caller.name} asked for a plan`, payload);
    });
  }

  /** The newest computation of a plan. */
  newestJob(organisationId: string): Promise<ComputeJob | null> {
    const where = { organisationId, name: 'plan' };
    return this.database.read.findOne(ComputeJob, { where, order: { id: 'DESC' } });
  }

  job(organisationId: string, id: string): Promise<ComputeJob | null> {
    return this.database.read.findOneBy(ComputeJob, { organisationId, id });
  }
}

const mostSeconds = 600;
