import { type Caller, CurrentCaller, type RequestContext } from '@ribband/access';
import { Database } from '@ribband/platform';
import { Task } from '@ribband/repair';
import { Inject } from '@nestjs/common';
import { Context, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { inForceLoader, linkLoader } from './plan-loaders.js';
import { PlanShelf } from './plan-shelf.service.js';
import { NetworkTimes, PlannedTask } from './plan.types.js';
import { plannedTask } from './planned-task.js';

/** What the plan says of a task. */
@Resolver(() => Task)
export class TaskPlanResolver {
  constructor(
    @Inject(PlanShelf) private readonly shelf: PlanShelf,
    @Inject(Database) private readonly database: Database,
  ) {}

  @ResolveField(() => PlannedTask, {
    nullable: true,
    description:
      'Where it lies in the plan in force; null where there is none, and for volunteers: it names others.',
  })
  async planned(
    @Parent() task: Task,
    @CurrentCaller() caller: Caller,
    @Context() context: RequestContext,
  ): Promise<PlannedTask | null> {
    if (caller.role === 'volunteer') return null;
    const told = await inForceLoader(context, this.shelf).load(task.organisationId);
    return told ? plannedTask(told, task) : null;
  }

  @ResolveField(() => NetworkTimes, {
    nullable: true,
    description: 'Where it could lie if there were people enough; null where the plan leaves it out.',
  })
  async network(@Parent() task: Task, @Context() context: RequestContext): Promise<NetworkTimes | null> {
    const told = await inForceLoader(context, this.shelf).load(task.organisationId);
    const index = told?.indexOf(task.id);
    const pass = told?.network;
    if (!told || !pass || index === undefined) return null;
    const at = (minutes: Int32Array) => told.instant(Math.min(minutes[index] ?? 0, told.problem.horizon));
    const link = told.linkId(pass.drivesStart[index] ?? -1);
    return {
      earlyStartAt: at(pass.earlyStart),
      earlyFinishAt: at(pass.earlyFinish),
      lateStartAt: at(pass.lateStart),
      lateFinishAt: at(pass.lateFinish),
      totalFloatMinutes: pass.totalFloat[index] ?? 0,
      freeFloatMinutes: pass.freeFloat[index] ?? 0,
      critical: pass.totalFloat[index] === 0,
      drivenBy: link === null ? null : await linkLoader(context, this.database.read).load(link),
    };
  }
}
