import { LocalDate, LocalTime } from '@ribband/platform';
import { Field, ID, InputType, Int, ObjectType } from '@nestjs/graphql';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';

@InputType({ description: 'Watches one after the other, round the clock.' })
export class WatchesInput {
  @Field(() => ID, { description: 'The work that is done on watch.' })
  taskId!: string;

  @Field(() => LocalDate, { description: 'The day of the first watch.' })
  on!: string;

  @Field(() => LocalTime, { description: 'When the first watch starts.' })
  startTime!: string;

  @Field(() => Int, { description: 'For how many hours she is watched: 2 to 336.' })
  hours!: number;

  @Field(() => Int, { description: 'Hours of one watch: 2 to 8.' })
  hoursEach!: number;

  @Field(() => Int, { description: 'How many keep a watch: 2 to 6. Nobody watches alone.' })
  people!: number;

  @Field(() => ID, { description: 'The skill that one of them has.' })
  skillId!: string;

  @Field(() => Int, { description: 'At least at this level, 1 to 4.' })
  level!: number;
}

@ObjectType({ description: 'Watches as the change left them.' })
export class WatchesPayload {
  @Field(() => [TurnoutEntity], { description: 'The watches, in order of time; at most 168.' })
  watches!: TurnoutEntity[];
}
