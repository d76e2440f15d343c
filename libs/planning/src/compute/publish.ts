import type { Outcome } from '@ribband/engine';
import { newId } from '@ribband/platform';
import { PlaceEntity } from '@ribband/roster';
import { In, Not, type EntityManager } from 'typeorm';
import { noPlanValue, PlanInForceEntity } from '../plans/plan-in-force.entity.js';
import { PlanInputEntity } from '../plans/plan-input.entity.js';
import type { PlanInput } from '../plans/plan-input.js';
import { sealed } from '../plans/plan-input.js';
import { PlanEntity } from '../plans/plan.entity.js';

export interface Publication {
  organisationId: string;
  jobId: string;
  /** The state of the records that the input was read from. */
  revision: number;
  input: PlanInput;
  outcome: Outcome;
  notices: string[];
  /** Epoch milliseconds by the real clock. */
  madeAt: number;
  /** Whether the run ends with it: its last word may take the place of a plan of its own that is as good. */
  isLast: boolean;
}

/**
 * Puts a plan in force if it is made from a newer state of the records than the one in force, or from the same state
 * and better; otherwise changes nothing. One conditional statement decides, so that of any number of processes that
 * publish at once the newest and best stays.
 * @returns the plan, or null when the one in force stays
 */
export async function publish(manager: EntityManager, made: Publication): Promise<PlanEntity | null> {
  const { organisationId, jobId, revision, input, outcome } = made;
  const readyAt = outcome.kind === 'plan' ? input.epochAt + outcome.plan.ready * 60_000 : null;
  const planId = newId('plan');
  if (!(await comesInForce(manager, organisationId, planId, revision, readyAt ?? noPlanValue))) {
    const own = made.isLast ? await ownInForce(manager, made, readyAt) : null;
    if (!own) return null;
    if (isSameWork(own.outcome, outcome)) return amend(manager, own, outcome);
    await manager.update(PlanInForceEntity, { organisationId, planId: own.id }, { planId });
  }
  const plan: PlanEntity = {
    id: planId,
    organisationId,
    inputId: await keepInput(manager, organisationId, input),
    revision,
    jobId,
    madeAt: made.madeAt,
    readyAt,
    schedules: outcome.kind === 'plan' ? outcome.plan.schedules : 0,
    outcome,
    notices: made.notices,
  };
  await manager.insert(PlanEntity, plan);
  await forget(manager, organisationId, planId);
  return plan;
}

/** The plan in force if this run made it and it is as good. */
async function ownInForce(
  manager: EntityManager,
  { organisationId, jobId, revision }: Publication,
  readyAt: number | null,
): Promise<PlanEntity | null> {
  const pointer = await manager.findOneBy(PlanInForceEntity, { organisationId });
  if (!pointer?.planId || pointer.revision !== revision) return null;
  const plan = await manager.findOneBy(PlanEntity, { id: pointer.planId, jobId });
  return plan?.readyAt === readyAt ? plan : null;
}

/** The same work by the same people at the same minutes; what was proved of it may differ. */
function isSameWork(a: Outcome, b: Outcome): boolean {
  const work = (one: Outcome) => (one.kind === 'plan' ? [one.plan.tasks, one.plan.segments] : one.wishes);
  return JSON.stringify(work(a)) === JSON.stringify(work(b));
}

/** The same plan, of which more is known: a higher bound, or that it is the best. */
async function amend(manager: EntityManager, plan: PlanEntity, outcome: Outcome): Promise<PlanEntity> {
  const schedules = outcome.kind === 'plan' ? outcome.plan.schedules : 0;
  await manager.update(PlanEntity, { id: plan.id }, { outcome, schedules });
  return Object.assign(plan, { outcome, schedules });
}

async function comesInForce(
  manager: EntityManager,
  organisationId: string,
  planId: string,
  revision: number,
  value: number,
): Promise<boolean> {
  await manager
    .createQueryBuilder()
    .insert()
    .into(PlanInForceEntity)
    .values({ organisationId, planId: null, revision: -1, value: noPlanValue })
    .orIgnore()
    .execute();
  const { affected } = await manager
    .createQueryBuilder()
    .update(PlanInForceEntity)
    .set({ planId, revision, value })
    .where('organisationId = :organisationId', { organisationId })
    .andWhere('(revision < :revision OR (revision = :revision AND value > :value))', { revision, value })
    .execute();
  return affected === 1;
}

async function keepInput(manager: EntityManager, organisationId: string, input: PlanInput): Promise<string> {
  const { document, hash } = sealed(input);
  const known = await manager.findOne(PlanInputEntity, {
    select: { id: true },
    where: { organisationId, hash },
  });
  if (known) return known.id;
  const id = newId('planinput');
  await manager.insert(PlanInputEntity, { id, organisationId, hash, document });
  return id;
}

/** Plans that are kept besides the one in force and those that people were posted from. */
const keptPlans = 20;

async function forget(manager: EntityManager, organisationId: string, inForce: string): Promise<void> {
  const newest = await manager.find(PlanEntity, {
    select: { id: true },
    where: { organisationId, id: Not(inForce) },
    order: { id: 'DESC' },
  });
  const old = newest.slice(keptPlans).map((plan) => plan.id);
  if (old.length === 0) return;
  const posted = await manager
    .createQueryBuilder(PlaceEntity, 'place')
    .select('DISTINCT place.planId', 'planId')
    .where({ organisationId, planId: In(old) })
    .getRawMany<{ planId: string }>();
  const needed = new Set(posted.map((row) => row.planId));
  const gone = old.filter((id) => !needed.has(id));
  if (gone.length > 0) await manager.delete(PlanEntity, { id: In(gone) });
  await manager
    .createQueryBuilder()
    .delete()
    .from(PlanInputEntity)
    .where('organisationId = :organisationId', { organisationId })
    .andWhere(
      `id NOT IN (${manager.createQueryBuilder(PlanEntity, 'plan').select('plan.inputId').getQuery()})`,
    )
    .execute();
}
