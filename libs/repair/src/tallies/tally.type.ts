import { DateTime, LocalDate } from '@ribband/platform';
import { Field, ID, InputType, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import type { SaySoVerdict } from './say-so.entity.js';

@ObjectType({ description: 'What somebody got done on a task. Corrections stand beside what they correct.' })
export class Tally {
  @Field(() => ID, { description: 'Opaque.' })
  id!: string;

  volunteerId!: string | null;

  enteredBy!: string;

  @Field(() => LocalDate, { name: 'on', description: 'The day on which it was done.' })
  workedOn!: string;

  @Field(() => Int, { nullable: true, description: 'Pieces done; null where nothing is counted.' })
  count!: number | null;

  @Field(() => Int, { description: 'Person-minutes.' })
  minutes!: number;

  @Field(() => Boolean, { description: 'Whether the task was said to be finished with it.' })
  finished!: boolean;

  @Field(() => String, { nullable: true, description: 'Anything to know about it.' })
  note!: string | null;

  @Field(() => DateTime, { description: 'When it was entered.' })
  enteredAt!: number;

  @Field(() => ID, { nullable: true, description: 'Id of the tally that it replaces.' })
  correctsId!: string | null;

  @Field(() => ID, {
    nullable: true,
    description: 'Id of the tally that replaces it: then it no longer counts.',
  })
  correctedById!: string | null;

  @Field(() => String, { nullable: true, description: 'Why it was corrected.' })
  reason!: string | null;
}

const SaySoVerdictEnum = { PASSED: 'passed', SENT_BACK: 'sent-back' } as const;
registerEnumType(SaySoVerdictEnum, {
  name: 'SaySoVerdict',
  description: 'What the shipwright said.',
  valuesMap: {
    PASSED: { description: 'It is good.' },
    SENT_BACK: { description: 'Some of it is to be done again.' },
  },
});

@ObjectType('SaySo', { description: 'What the shipwright said about work that was shown.' })
export class SaySoType {
  @Field(() => ID, { description: 'Opaque.' })
  id!: string;

  @Field(() => SaySoVerdictEnum, { description: 'What was said.' })
  verdict!: SaySoVerdict;

  @Field(() => String, { description: 'Who said it.' })
  saidBy!: string;

  @Field(() => DateTime, { description: 'When, by the yard’s clock.' })
  yardAt!: number;

  @Field(() => String, { nullable: true, description: 'A remark, or the reason for sending it back.' })
  note!: string | null;

  @Field(() => Int, { description: 'Pieces to do again.' })
  countBack!: number;

  @Field(() => Int, { description: 'Person-minutes to do again, where nothing is counted.' })
  minutesBack!: number;
}

@InputType({ description: 'What somebody got done.' })
export class TallyInput {
  @Field(() => ID, { description: 'On which task.' })
  taskId!: string;

  @Field(() => ID, {
    nullable: true,
    description: 'Who did it: volunteers enter their own; staff leave it out when it was several.',
  })
  volunteerId?: string | null;

  @Field(() => ID, { nullable: true, description: 'At which turnout.' })
  turnoutId?: string | null;

  @Field(() => LocalDate, {
    nullable: true,
    description: 'On which day, where no turnout is named; else today.',
  })
  on?: string | null;

  @Field(() => Int, { nullable: true, description: 'Pieces done; leave it out where nothing is counted.' })
  count?: number | null;

  @Field(() => Int, { description: 'Person-minutes, those of all hands together.' })
  minutes!: number;

  @Field(() => Boolean, { nullable: true, description: 'Whether the task is finished with it.' })
  finished?: boolean | null;

  @Field(() => String, { nullable: true, description: 'Anything to know about it.' })
  note?: string | null;

  @Field(() => String, {
    nullable: true,
    description: 'Your own for this tally: sent again with the same key, it is entered once.',
  })
  key?: string | null;
}
