import { Field, ID, InterfaceType } from '@nestjs/graphql';

/** Implemented by every GraphQL type whose rows can be fetched again by id (`node(id)`). */
@InterfaceType('Node', { description: 'Anything that has an id of its own.' })
export abstract class Node {
  @Field(() => ID, { description: 'Opaque; the same wherever the row is shown.' })
  id!: string;
}
