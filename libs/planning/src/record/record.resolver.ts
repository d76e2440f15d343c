import { Allow, type Caller, CurrentCaller, type RequestContext } from '@ribband/access';
import { Database, refusable } from '@ribband/platform';
import { rosterTaskLoader } from '@ribband/roster';
import { Inject } from '@nestjs/common';
import { Args, Context, Mutation, Query, Resolver } from '@nestjs/graphql';
import { KeepBaselinePayload, RecordModel } from './record.types.js';
import { Records } from './records.service.js';

const KeepBaselineResult = refusable('KeepBaselineResult', () => KeepBaselinePayload);

@Resolver(() => RecordModel)
export class RecordResolver {
  constructor(
    @Inject(Records) private readonly records: Records,
    @Inject(Database) private readonly database: Database,
  ) {}

  @Allow('director', 'coordinator', 'shipwright')
  @Query(() => RecordModel, {
    name: 'planRecord',
    description: 'How things went against the baseline, and hints about the schedule.',
  })
  async record(@CurrentCaller() caller: Caller, @Context() context: RequestContext): Promise<RecordModel> {
    const { hints, ...record } = await this.records.read(caller);
    const tasks = rosterTaskLoader(context, this.database.read);
    return {
      ...record,
      hints: await Promise.all(
        hints.map(async ({ taskIds, ...hint }) => ({
          ...hint,
          tasks: await Promise.all(taskIds.map((id) => tasks.load(id))),
        })),
      ),
    };
  }

  @Allow('director', 'shipwright')
  @Mutation(() => KeepBaselineResult, { description: 'Keeps the plan in force to be measured against.' })
  async keepBaseline(
    @CurrentCaller() caller: Caller,
    @Args('name', { type: () => String, description: 'Its name.' }) name: string,
  ): Promise<KeepBaselinePayload> {
    return Object.assign(new KeepBaselinePayload(), { baseline: await this.records.keep(caller, name) });
  }
}
