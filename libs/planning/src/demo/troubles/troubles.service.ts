import { Audit, AuditEntry, type Caller, Organisation, permit } from '@ribband/access';
import { Availability, Cards, YardDay } from '@ribband/crew';
import { Database, RealClock, refuse, RefusalError, Revisions } from '@ribband/platform';
import { FasteningKinds, Links, Marks, SafetyRecords, Tasks, Trays } from '@ribband/repair';
import { Calling, Places } from '@ribband/roster';
import { Inject, Injectable } from '@nestjs/common';
import { Mornings } from '../../call/mornings.service.js';
import { PlanShelf } from '../../plans/plan-shelf.service.js';
import { staffRoles } from '../../plans/plans.service.js';
import { Weeks } from '../../week/weeks.service.js';
import { PlayOn } from '../play-on.service.js';
import { allTroubles } from './all-troubles.js';
import { afresh, type Trouble, type YardServices } from './trouble.js';
import { waitsUntil } from './waits-until.js';

/** A trouble, as it stands at the demo yard. */
export interface TroubleToday extends Trouble {
  wasPlayed: boolean;
  /** What the yard answered when it was played. */
  told: string[];
  waitsUntil: string | null;
}

/** Troubles that can be played on the demo yard, through the services that people use. */
@Injectable()
export class Troubles {
  /** Two who press at once: one of them does it. */
  readonly #atPlay = new Set<string>();

  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(YardDay) private readonly yardDay: YardDay,
    @Inject(Tasks) private readonly tasks: Tasks,
    @Inject(Links) private readonly links: Links,
    @Inject(Availability) private readonly availability: Availability,
    @Inject(Cards) private readonly cards: Cards,
    @Inject(Marks) private readonly marks: Marks,
    @Inject(Trays) private readonly trays: Trays,
    @Inject(FasteningKinds) private readonly kinds: FasteningKinds,
    @Inject(SafetyRecords) private readonly safety: SafetyRecords,
    @Inject(Places) private readonly places: Places,
    @Inject(Calling) private readonly calling: Calling,
    @Inject(Mornings) private readonly mornings: Mornings,
    @Inject(Weeks) private readonly weeks: Weeks,
    @Inject(PlanShelf) private readonly shelf: PlanShelf,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(PlayOn) private readonly playOn: PlayOn,
  ) {}

  /** @returns none at a real yard */
  async list(caller: Caller): Promise<TroubleToday[]> {
    permit(caller, ...staffRoles);
    if (!(await this.isDemo(caller))) return [];
    const { organisationId } = caller;
    const answers = await this.answers(organisationId);
    const plan = await this.shelf.inForce(organisationId);
    const today = await this.yardDay.today(organisationId);
    return Promise.all(
      allTroubles.map(async (trouble) => ({
        ...trouble,
        wasPlayed: answers.has(trouble.key),
        told: answers.get(trouble.key) ?? [],
        waitsUntil: plan && (await waitsUntil(this.database.read, trouble, plan, today)),
      })),
    );
  }

  /** Each is played once: a second time it would be another trouble than the one that is told. @returns what the yard answered */
  async play(caller: Caller, key: string): Promise<string[]> {
    permit(caller, ...staffRoles);
    if (!(await this.isDemo(caller))) refuse('DEMO_ONLY', 'Troubles are played at the demo yard only.');
    const trouble = allTroubles.find((one) => one.key === key);
    if (!trouble) return refuse('NOT_FOUND', 'There is no such trouble.', { field: 'key' });
    const { organisationId } = caller;
    const pressed = `${organisationId} ${key}`;
    if (this.#atPlay.has(pressed) || (await this.answers(organisationId)).has(key))
      refuse('ALREADY_EXISTS', `“${trouble.title}” was played already.`, { field: 'key', remedy: afresh });
    this.#atPlay.add(pressed);
    try {
      return await this.enter(caller, trouble);
    } finally {
      this.#atPlay.delete(pressed);
    }
  }

  private async enter(caller: Caller, trouble: Trouble): Promise<string[]> {
    const { organisationId } = caller;
    const since = this.clock.now();
    const today = await this.yardDay.today(organisationId);
    const told = await byTheNewestPlan(() =>
      trouble.play({ ...this.services(), read: this.database.read }, caller, today),
    );
    await this.database.write(async (manager) => {
      const { key, reason } = trouble;
      const facts = { key, told, ...(reason === null ? {} : { words: reason, way: 'later', since }) };
      await this.audit.note(manager, caller, 'playTrouble', null, facts);
      // What is told with the plan is what was noted before it.
      await this.revisions.requestPlan(manager, organisationId, reason ?? 'a trouble was stopped');
    });
    return told;
  }

  /** Plays the yard on to the morning on which a trouble can happen. @returns the organisation as it stands after */
  async letDaysGoBy(caller: Caller, key: string): Promise<Organisation> {
    const trouble = (await this.list(caller)).find((one) => one.key === key);
    if (!trouble) return refuse('NOT_FOUND', 'There is no such trouble.', { field: 'key' });
    if (trouble.waitsUntil === null)
      return refuse('TASK_NOT_READY', 'No later day is known on which this could happen.', {
        field: 'key',
        remedy: 'Let it happen today, or wait for a plan.',
      });
    return this.playOn.until(caller, trouble.waitsUntil);
  }

  /** What the yard answered to those that were played, by key. */
  private async answers(organisationId: string): Promise<ReadonlyMap<string, string[]>> {
    const played = await this.database.read.findBy(AuditEntry, { organisationId, operation: 'playTrouble' });
    return new Map(
      played.map(({ facts }) => {
        const { key, told } = facts as { key: string; told?: string[] };
        return [key, told ?? []] as const;
      }),
    );
  }

  private services(): Omit<YardServices, 'read'> {
    const { tasks, links, availability, cards, marks, trays, kinds, safety } = this;
    const { places, calling, mornings, weeks, shelf } = this;
    return {
      ...{ tasks, links, availability, cards, marks, trays, kinds, safety },
      ...{ places, calling, mornings, weeks, shelf },
    };
  }

  private async isDemo({ organisationId }: Caller): Promise<boolean> {
    const { isDemo } = await this.database.read.findOneByOrFail(Organisation, { id: organisationId });
    return isDemo;
  }
}

/** What posts a week needs the newest plan; whoever plays a trouble only waits for it. */
async function byTheNewestPlan<T>(act: () => Promise<T>): Promise<T> {
  try {
    return await act();
  } catch (error) {
    if (!(error instanceof RefusalError) || error.refusal.code !== 'PLAN_OUTDATED') throw error;
    return refuse('PLAN_OUTDATED', 'The plan is being reckoned anew.', {
      field: 'key',
      remedy: 'Wait until the newest plan is there, and let it happen then.',
    });
  }
}
