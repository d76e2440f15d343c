import { type Caller, CurrentCaller, type RequestContext } from '@ribband/access';
import { YardDay } from '@ribband/crew';
import { Database, instantToLocal, LocalDate, refuse } from '@ribband/platform';
import { FasteningKind, Task, Tray } from '@ribband/repair';
import { Inject } from '@nestjs/common';
import { Args, Context, Field, Int, ObjectType, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { In } from 'typeorm';
import { inForceLoader } from '../plans/plan-loaders.js';
import { PlanShelf } from '../plans/plan-shelf.service.js';
import { DayWords } from '../words/days.js';
import { plannedTask } from '../plans/planned-task.js';
import { daysOf, type Days, orderWords } from './kind-plan.js';

@ObjectType({
  description:
    'When the fastenings of a kind come out, go back and have to be ordered, by the plan in force.',
})
export class FasteningPlan {
  @Field(() => LocalDate, { nullable: true, description: 'First day on which some come out.' })
  pulledFrom!: string | null;

  @Field(() => LocalDate, { nullable: true, description: 'Last day on which some come out.' })
  pulledUntil!: string | null;

  @Field(() => LocalDate, { nullable: true, description: 'First day on which some go back.' })
  drivenFrom!: string | null;

  @Field(() => LocalDate, { nullable: true, description: 'Last day on which some go back.' })
  drivenUntil!: string | null;

  @Field(() => LocalDate, { nullable: true, description: 'Last day to order those that will be wanting.' })
  orderBy!: string | null;

  @Field(() => String, { description: 'The same in words.' })
  orderWords!: string;
}

/** What the plan says of a kind of fastening. */
@Resolver(() => FasteningKind)
export class KindPlanResolver {
  constructor(
    @Inject(PlanShelf) private readonly shelf: PlanShelf,
    @Inject(Database) private readonly database: Database,
    @Inject(YardDay) private readonly yardDay: YardDay,
  ) {}

  @ResolveField(() => FasteningPlan, {
    nullable: true,
    description: 'When they come out, go back and are to be ordered; null for volunteers.',
  })
  async planned(
    @Parent() kind: FasteningKind,
    @CurrentCaller() caller: Caller,
    @Args('leadDays', {
      type: () => Int,
      defaultValue: 21,
      description: 'Days from order to delivery, 0 to 365; three weeks unless you say otherwise.',
    })
    leadDays: number,
    @Context() context: RequestContext,
  ): Promise<FasteningPlan | null> {
    if (caller.role === 'volunteer') return null;
    if (leadDays < 0 || leadDays > 365)
      refuse('BAD_INPUT', `${leadDays} days are no time to deliver.`, {
        field: 'leadDays',
        remedy: '0 to 365.',
      });
    const { organisationId } = caller;
    const trays = await this.database.read.findBy(Tray, { organisationId, fastening: kind.fastening });
    const pulled = await this.daysOf(
      caller,
      trays.flatMap((tray) => tray.pullRef ?? []),
      context,
    );
    const driven = await this.daysOf(
      caller,
      trays.flatMap((tray) => tray.driveRef ?? []),
      context,
    );
    const today = await this.yardDay.today(organisationId);
    const words = new DayWords(await this.yardDay.zone(organisationId), today.slice(0, 4));
    const order = orderWords(kind.nineInTenShort, driven?.from ?? null, leadDays, today, (day) =>
      words.weekday(day),
    );
    return {
      pulledFrom: pulled?.from ?? null,
      pulledUntil: pulled?.until ?? null,
      drivenFrom: driven?.from ?? null,
      drivenUntil: driven?.until ?? null,
      orderBy: order.on,
      orderWords: order.words,
    };
  }

  private async daysOf(
    { organisationId }: Caller,
    refs: string[],
    context: RequestContext,
  ): Promise<Days | null> {
    const told = await inForceLoader(context, this.shelf).load(organisationId);
    if (!told || refs.length === 0) return null;
    const zone = await this.yardDay.zone(organisationId);
    const day = (instant: number): string => instantToLocal(instant, zone).day;
    const tasks = await this.database.read.findBy(Task, { organisationId, ref: In(refs) });
    return daysOf(
      tasks.flatMap((task) => {
        const planned = plannedTask(told, task);
        return planned ? [{ from: day(planned.startsAt), until: day(planned.endsAt) }] : [];
      }),
    );
  }
}
