import { Organisation } from '@ribband/access';
import {
  DayColumn,
  IdColumn,
  IntegerColumn,
  LocalDate,
  Node,
  RefColumn,
  TextColumn,
} from '@ribband/platform';
import { Field, ID, Int, ObjectType } from '@nestjs/graphql';
import { Entity, Unique } from 'typeorm';

@ObjectType({ implements: () => Node, description: 'Fastenings that were bought together.' })
@Entity('fastening_lot')
@Unique(['organisationId', 'ref'])
export class Lot {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  /** The key that yard documents use. */
  @TextColumn()
  ref!: string;

  @Field(() => String, { description: 'What they are, such as galvanized boat nails.' })
  @TextColumn()
  name!: string;

  @Field(() => String, { description: 'Which fastenings they match, such as plank nails.' })
  @TextColumn()
  fastening!: string;

  @Field(() => String, { description: 'Their size, as the trade says it: 3/8 x 5 1/2 in.' })
  @TextColumn()
  size!: string;

  @Field(() => Int, { description: 'How many were bought.' })
  @IntegerColumn()
  count!: number;

  @Field(() => String, { description: 'Where they come from.' })
  @TextColumn()
  source!: string;

  @Field(() => Int, {
    nullable: true,
    description: 'What all of them cost, in cents; null where nobody says.',
  })
  @IntegerColumn({ nullable: true })
  priceCents!: number | null;

  @Field(() => LocalDate, { description: 'The day on which they came.' })
  @DayColumn()
  cameOn!: string;
}
