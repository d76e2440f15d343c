import { Organisation } from '@ribband/access';
import { DateTime, IdColumn, InstantColumn, RefColumn } from '@ribband/platform';
import { Field, ID, ObjectType } from '@nestjs/graphql';
import { Entity, Unique } from 'typeorm';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';

/** Somebody who stands by at a posted turnout: asked first where a place comes free. A no stays, so that nobody asks again. */
@ObjectType('SwingHand', { description: 'Somebody who stands by at a turnout, and is asked first.' })
@Entity('swing_hand')
@Unique(['turnoutId', 'volunteerId'])
export class SwingHandEntity {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => TurnoutEntity, { onDelete: 'CASCADE', indexed: false })
  turnoutId!: string;

  @RefColumn(null)
  volunteerId!: string;

  @Field(() => DateTime, { description: 'When they were told, by the yard’s clock.' })
  @InstantColumn()
  postedAt!: number;

  @Field(() => DateTime, { nullable: true, description: 'When they said no; null while they stand by.' })
  @InstantColumn({ nullable: true })
  leftAt!: number | null;
}
