import { Organisation } from '@ribband/access';
import {
  DayColumn,
  IdColumn,
  InstantColumn,
  IntegerColumn,
  JsonColumn,
  LocalDate,
  Node,
  RefColumn,
  TextColumn,
  VersionColumn,
} from '@ribband/platform';
import { Field, ID, Int, ObjectType } from '@nestjs/graphql';
import { Entity, Unique } from 'typeorm';

@ObjectType({ description: 'Who set a limit aside, and the reason that they wrote down.' })
export class LimitOverride {
  @Field(() => String, { description: 'Their name.' })
  by!: string;

  @Field(() => String, { description: 'Their reason.' })
  reason!: string;

  @Field(() => LocalDate, {
    nullable: true,
    description: 'The last day on which it counts; null until it is taken back.',
  })
  untilOn!: string | null;
}

/** How far the hull may be open at once: at most so many of these elements at any minute. */
@ObjectType({
  implements: () => Node,
  description: 'How far the hull may be open at once: at most so many of these elements.',
})
@Entity('opening_limit')
@Unique(['organisationId', 'ref'])
export class OpeningLimit {
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

  @Field(() => String, { description: 'The rule in a few words.' })
  @TextColumn()
  name!: string;

  @JsonColumn()
  elementIds!: string[];

  @Field(() => Int, { description: 'How many of the elements may be open at once.' })
  @IntegerColumn()
  atMost!: number;

  @Field(() => String, { description: 'Where the rule comes from.' })
  @TextColumn()
  basis!: string;

  @TextColumn({ nullable: true })
  overrideBy!: string | null;

  @TextColumn({ nullable: true })
  overrideReason!: string | null;

  @InstantColumn({ nullable: true })
  overriddenAt!: number | null;

  /** The elements that it lets be open and does not count; null: all. */
  @JsonColumn({ nullable: true })
  overrideElementIds!: string[] | null;

  /** The last day on which it counts; null: until it is taken back. */
  @DayColumn({ nullable: true })
  overrideUntilOn!: string | null;
}
