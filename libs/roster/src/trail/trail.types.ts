import { DateTime, LocalDate, LocalTime } from '@ribband/platform';
import { Field, InputType, ObjectType } from '@nestjs/graphql';

/** What every writing of a record says that is corrected and never erased. */
@ObjectType({ isAbstract: true })
export abstract class Written {
  @Field(() => String, { nullable: true, description: 'Why it reads otherwise than before.' })
  reason!: string | null;

  @Field(() => String, { description: 'Who wrote it down.' })
  writtenBy!: string;

  @Field(() => DateTime, { description: 'When, by the yard’s clock.' })
  writtenAt!: number;
}

@InputType({ description: 'A day and a time of it at the yard.' })
export class LocalMomentInput {
  @Field(() => LocalDate, { description: 'The day.' })
  on!: string;

  @Field(() => LocalTime, { description: 'The time.' })
  time!: string;
}
