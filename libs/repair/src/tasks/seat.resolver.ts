import type { RequestContext } from '@ribband/access';
import { CardKind, cardKindLoader, inWords, Skill, skillLoader } from '@ribband/crew';
import { Database } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Context, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { toolLoader } from '../repair.loaders.js';
import { Tool } from '../tools/tool.entity.js';
import { Seat } from './seat.entity.js';
import { TaskToolType } from './task-tool.type.js';

@Resolver(() => Seat)
export class SeatResolver {
  constructor(@Inject(Database) private readonly database: Database) {}

  @ResolveField(() => Skill, { description: 'The skill that it asks for.' })
  skill(@Parent() seat: Seat, @Context() context: RequestContext): Promise<Skill> {
    return skillLoader(context, this.database.read).load(seat.skillId);
  }

  @ResolveField(() => String, { description: 'The level in words, such as "works alone".' })
  levelWords(@Parent() seat: Seat): string {
    return inWords(seat.level);
  }

  @ResolveField(() => [CardKind], { description: 'Cards that only who sits here must hold; at most 20.' })
  async cards(@Parent() seat: Seat, @Context() context: RequestContext): Promise<CardKind[]> {
    return Promise.all(seat.cardKindIds.map((id) => cardKindLoader(context, this.database.read).load(id)));
  }
}

@Resolver(() => TaskToolType)
export class TaskToolResolver {
  constructor(@Inject(Database) private readonly database: Database) {}

  @ResolveField(() => Tool, { description: 'Which tool.' })
  tool(@Parent() use: TaskToolType, @Context() context: RequestContext): Promise<Tool> {
    return toolLoader(context, this.database.read).load(use.toolId);
  }
}
