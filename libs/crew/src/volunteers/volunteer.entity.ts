import { Organisation } from '@ribband/access';
import {
  DayColumn,
  IdColumn,
  IntegerColumn,
  LocalDate,
  Node,
  OneOfColumn,
  RealColumn,
  RefColumn,
  TextColumn,
  VersionColumn,
} from '@ribband/platform';
import { Field, ID, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { Check, Entity, Unique } from 'typeorm';

export const volunteerKinds = ['volunteer', 'staff', 'paid'] as const;
export type VolunteerKind = (typeof volunteerKinds)[number];

/** As GraphQL shows it. */
export const VolunteerKindEnum = { VOLUNTEER: 'volunteer', STAFF: 'staff', PAID: 'paid' } as const;
registerEnumType(VolunteerKindEnum, {
  name: 'VolunteerKind',
  description: 'On what terms somebody comes.',
  valuesMap: {
    VOLUNTEER: { description: 'Unpaid.' },
    STAFF: { description: 'Employed by the organisation.' },
    PAID: { description: 'Hired for the job.' },
  },
});

/** Somebody who may come to the yard, with or without an account. Only staff and they themselves see this record. */
@ObjectType({
  implements: () => Node,
  description: 'Somebody who may come to the yard. Volunteers see their own record and nobody else’s.',
})
@Entity('volunteer')
@Unique(['organisationId', 'ref'])
@Check('"showUpChance" >= 0 AND "showUpChance" <= 1')
export class Volunteer {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  /** The key that yard documents use. */
  @TextColumn()
  ref!: string;

  @Field(() => Int, { description: 'Raised by every edit; edits carry the one that was read.' })
  @VersionColumn()
  version!: number;

  @Field(() => String, { description: 'As they want to be called.' })
  @TextColumn()
  name!: string;

  @Field(() => VolunteerKindEnum, { description: 'On what terms they come.' })
  @OneOfColumn(volunteerKinds)
  kind!: VolunteerKind;

  @Field(() => LocalDate, { nullable: true, description: 'Day of birth; kept for the age gates only.' })
  @DayColumn({ nullable: true })
  bornOn!: string | null;

  @Field(() => String, { nullable: true, description: 'Where mail goes; null for people without.' })
  @TextColumn({ nullable: true })
  email!: string | null;

  /** How likely they come when they have said so, 0 to 1. For the odds of crews only: shown to nobody. */
  @RealColumn()
  showUpChance!: number;

  @Field(() => Int, { nullable: true, description: 'Most minutes of work in a week; null for no cap.' })
  @IntegerColumn({ nullable: true })
  minutesAWeek!: number | null;

  @Field(() => Int, { nullable: true, description: 'Most minutes of work in one turnout; null for no cap.' })
  @IntegerColumn({ nullable: true })
  minutesATurnout!: number | null;
}
