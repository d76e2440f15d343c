import { type Caller, permit } from '@ribband/access';
import { Database, newId, RealClock, refuse, Revisions } from '@ribband/platform';
import { CareLevels } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { Not } from 'typeorm';
import { PlanShelf } from '../plans/plan-shelf.service.js';
import { staffRoles } from '../plans/plans.service.js';
import { OddsDesk, wentWrong } from '../outlook/odds-desk.service.js';
import { CareOddsEntity } from './care-odds.entity.js';

/** Asks for the odds of the gate at each level of care, and reads what is known of them. */
@Injectable()
export class CareOddsDesk {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(PlanShelf) private readonly shelf: PlanShelf,
    @Inject(CareLevels) private readonly levels: CareLevels,
    @Inject(OddsDesk) private readonly desk: OddsDesk,
  ) {}

  /** What is known or being worked out for the plan in force; at most three for each kind of fastening. */
  async known(organisationId: string): Promise<CareOddsEntity[]> {
    const manager = this.database.read;
    const told = await this.shelf.inForce(organisationId, manager);
    if (!told) return [];
    const planId = told.entity.id;
    const rows = await manager.find(CareOddsEntity, {
      where: { organisationId, planId },
      order: { id: 'ASC' },
    });
    if (rows.every(({ state }) => state !== 'waiting')) return rows;
    if (await this.desk.isAtWork(manager, organisationId, 'care-odds')) return rows;
    return rows.map((row) =>
      row.state === 'waiting' ? { ...row, state: 'failed', message: wentWrong } : row,
    );
  }

  /**
   * Has the odds of every choice that can be made now worked out for the plan in force. What is known or waits
   * already is not asked for again; what failed is.
   * @returns how many are asked for
   */
  async ask(caller: Caller): Promise<number> {
    permit(caller, ...staffRoles);
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const told = await this.shelf.inForce(organisationId, manager);
      if (!told?.plan)
        return refuse('NOT_FOUND', 'There is no plan yet whose odds could be worked out.', {
          remedy: 'Wait until a plan is in force.',
        });
      const planId = told.entity.id;
      await manager.delete(CareOddsEntity, { organisationId, planId: Not(planId) });
      await manager.delete(CareOddsEntity, { organisationId, planId, state: 'failed' });
      const there = await manager.findBy(CareOddsEntity, { organisationId, planId });
      const choices = await this.levels.ifChosen(manager, organisationId);
      const wanted = choices.filter(
        ({ fastening, care }) => !there.some((one) => one.fastening === fastening && one.care === care),
      );
      for (const { fastening, care } of wanted)
        await manager.insert(CareOddsEntity, {
          id: newId('careodds'),
          organisationId,
          planId,
          fastening,
          care,
          state: 'waiting',
          gate: null,
          message: null,
          askedAt: this.clock.now(),
        });
      if (wanted.length > 0 || there.some(({ state }) => state === 'waiting'))
        await this.revisions.request(manager, 'care-odds', organisationId, `${caller.name} weighs the care`);
      return wanted.length;
    });
  }
}
