import { Field, ID, ObjectType } from '@nestjs/graphql';

@ObjectType({ description: 'Somebody by name: all that volunteers see of one another.' })
export class NamedHand {
  @Field(() => ID, { description: 'Id of their entry in the crew’s list.' })
  volunteerId!: string;

  @Field(() => String, { description: 'As they want to be called.' })
  name!: string;
}
