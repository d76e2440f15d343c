import { AllowSignedIn, CurrentCaller, type Caller } from '@ribband/access';
import { Database } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Query, Resolver } from '@nestjs/graphql';
import { Tool } from './tool.entity.js';

@Resolver()
export class ToolsResolver {
  constructor(@Inject(Database) private readonly database: Database) {}

  @AllowSignedIn()
  @Query(() => [Tool], { description: 'Machines, benches and hired plant; at most 100.' })
  tools(@CurrentCaller() { organisationId }: Caller): Promise<Tool[]> {
    return this.database.read.find(Tool, { where: { organisationId }, order: { id: 'ASC' }, take: 100 });
  }
}
