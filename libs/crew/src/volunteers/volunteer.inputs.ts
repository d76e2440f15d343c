import { LocalDate } from '@ribband/platform';
import { Field, InputType, Int, PartialType } from '@nestjs/graphql';
import type { VolunteerKind } from './volunteer.entity.js';
import { VolunteerKindEnum } from './volunteer.entity.js';

@InputType({ description: 'What is written down about somebody.' })
export class VolunteerInput {
  @Field(() => String, { description: 'As they want to be called; 1 to 200 characters.' })
  name!: string;

  @Field(() => VolunteerKindEnum, { description: 'On what terms they come.' })
  kind!: VolunteerKind;

  @Field(() => LocalDate, {
    nullable: true,
    description: 'Day of birth; work with a least age stays shut without it.',
  })
  bornOn?: string | null;

  @Field(() => String, { nullable: true, description: 'Where mail goes; leave it out for people without.' })
  email?: string | null;

  @Field(() => Int, { nullable: true, description: 'Most minutes of work in a week.' })
  minutesAWeek?: number | null;

  @Field(() => Int, { nullable: true, description: 'Most minutes of work in one turnout.' })
  minutesATurnout?: number | null;
}

@InputType({ description: 'What changes about somebody; what is left out stays, null takes it away.' })
export class VolunteerChanges extends PartialType(VolunteerInput) {}
