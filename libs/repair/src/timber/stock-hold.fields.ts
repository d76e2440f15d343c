import type { RequestContext } from '@ribband/access';
import { loader } from '@ribband/crew';
import { Database } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Context, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { In } from 'typeorm';
import { Task } from '../tasks/task.entity.js';
import { StockHold } from './stock-hold.entity.js';

@Resolver(() => Task)
export class StockHoldFields {
  constructor(@Inject(Database) private readonly database: Database) {}

  @ResolveField(() => StockHold, { nullable: true, description: 'Set while it waits for its timber.' })
  stockHold(@Parent() task: Task, @Context() context: RequestContext): Promise<StockHold | null> {
    return loader(context, 'repair.stockHold', async (ids: readonly string[]) => {
      const found = await this.database.read.findBy(StockHold, { taskId: In([...ids]) });
      return ids.map((id) => found.find((hold) => hold.taskId === id) ?? null);
    }).load(task.id);
  }
}
