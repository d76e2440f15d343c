import { Organisation } from '@ribband/access';
import { Field, Int, ObjectType } from '@nestjs/graphql';

@ObjectType('YardFault', { description: 'One thing wrong in a yard document.' })
export class YardFaultModel {
  @Field(() => String, { description: 'Where it stands, such as tasks[12].seats[0].skill.' })
  path!: string;

  @Field(() => String, { description: 'What is wrong.' })
  message!: string;

  @Field(() => String, { description: 'What would be right.' })
  wouldBeRight!: string;
}

@ObjectType({ description: 'The document has faults; nothing was written.' })
export class YardFaults {
  @Field(() => [YardFaultModel], { description: 'Every fault, the first 1,000 of them.' })
  faults!: YardFaultModel[];
}

@ObjectType({ description: 'The yard as it was read in.' })
export class ImportYardPayload {
  @Field(() => Organisation, { description: 'The organisation.' })
  organisation!: Organisation;

  @Field(() => Int, { description: 'How many tasks it has.' })
  tasks!: number;
}

@ObjectType({ description: 'The yard with its clock as it was moved.' })
export class MoveYardClockPayload {
  @Field(() => Organisation, { description: 'The organisation.' })
  organisation!: Organisation;
}
