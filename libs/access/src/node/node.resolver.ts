import { Inject } from '@nestjs/common';
import { Args, ID, Query, Resolver } from '@nestjs/graphql';
import { Node } from '@ribband/platform';
import type { Caller } from '../caller.js';
import { AllowSignedIn } from '../leave/allow.js';
import { CurrentCaller } from '../leave/current-caller.js';
import { NodeRegistry } from './node-registry.js';

@Resolver()
export class NodeResolver {
  constructor(@Inject(NodeRegistry) private readonly nodes: NodeRegistry) {}

  @AllowSignedIn()
  @Query(() => Node, {
    nullable: true,
    description: 'Anything by its id; null when there is no such thing or it is not yours to see.',
  })
  node(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'The id of any type that implements Node.' }) id: string,
  ): Promise<Node | null> {
    return this.nodes.find(id, caller);
  }
}
