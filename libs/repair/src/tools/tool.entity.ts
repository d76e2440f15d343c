import { Organisation } from '@ribband/access';
import { IdColumn, IntegerColumn, Node, RefColumn, TextColumn } from '@ribband/platform';
import { Field, ID, Int, ObjectType } from '@nestjs/graphql';
import { Entity, Unique } from 'typeorm';

/** A machine, bench, station or hired plant that work holds while it runs. */
@ObjectType({ implements: () => Node, description: 'A machine, a bench or hired plant that work needs.' })
@Entity('tool')
@Unique(['organisationId', 'ref'])
export class Tool {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  /** The key that yard documents use. */
  @TextColumn()
  ref!: string;

  @Field(() => String, { description: 'What the yard calls it.' })
  @TextColumn()
  name!: string;

  @Field(() => Int, { description: 'How many can be in use at once.' })
  @IntegerColumn()
  capacity!: number;
}
