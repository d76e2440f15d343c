import { Allow, type Caller, CurrentCaller, type RequestContext } from '@ribband/access';
import { Database } from '@ribband/platform';
import { rosterTaskLoader } from '@ribband/roster';
import { Inject } from '@nestjs/common';
import { Context, Parent, Query, ResolveField, Resolver } from '@nestjs/graphql';
import { ForecastModel, TaskCriticality } from './forecast.types.js';
import { Forecasts, type ToldForecast } from './forecasts.service.js';

@Resolver(() => ForecastModel)
export class ForecastResolver {
  constructor(
    @Inject(Forecasts) private readonly forecasts: Forecasts,
    @Inject(Database) private readonly database: Database,
  ) {}

  @Allow('director', 'coordinator', 'shipwright')
  @Query(() => ForecastModel, { nullable: true, description: 'The newest forecast; null before the first.' })
  forecast(@CurrentCaller() caller: Caller): Promise<ToldForecast | null> {
    return this.forecasts.newest(caller);
  }

  @ResolveField(() => [TaskCriticality])
  criticalTasks(
    @Parent() { critical }: ToldForecast,
    @Context() context: RequestContext,
  ): Promise<TaskCriticality[]> {
    const tasks = rosterTaskLoader(context, this.database.read);
    return Promise.all(
      critical.map(async ({ taskId, share }) => ({ task: await tasks.load(taskId), share })),
    );
  }
}
