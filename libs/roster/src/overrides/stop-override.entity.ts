import { Organisation } from '@ribband/access';
import type { GateRuleName } from '@ribband/crew';
import { DateTime, IdColumn, InstantColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Field, ID, ObjectType } from '@nestjs/graphql';
import { Entity, Index } from 'typeorm';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { GateRule } from './gate-rule.js';

/**
 * A stop that a named authority has set aside for one person on one task at one turnout. It is withdrawn, never
 * changed, and kept when it is over.
 */
@ObjectType('StopOverride', {
  description: 'A stop that somebody with authority has set aside for one person on one task at one turnout.',
})
@Entity('stop_override')
@Index(['turnoutId', 'volunteerId'])
export class StopOverride {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => TurnoutEntity, { onDelete: 'CASCADE', indexed: false })
  turnoutId!: string;

  @RefColumn(null, { indexed: false })
  taskId!: string;

  @RefColumn(null, { indexed: false })
  volunteerId!: string;

  @Field(() => GateRule, { description: 'The rule that is set aside.' })
  @TextColumn()
  rule!: GateRuleName;

  @Field(() => String, { description: 'What the rule said when it was set aside.' })
  @TextColumn()
  stopped!: string;

  @Field(() => String, { description: 'Why.' })
  @TextColumn()
  reason!: string;

  @Field(() => String, { description: 'In whose name.' })
  @TextColumn()
  grantedBy!: string;

  @Field(() => DateTime, { description: 'When, by the yard’s clock.' })
  @InstantColumn()
  grantedAt!: number;

  @Field(() => DateTime, { nullable: true, description: 'When it was withdrawn; null while it counts.' })
  @InstantColumn({ nullable: true })
  withdrawnAt!: number | null;

  @Field(() => String, { nullable: true, description: 'Who withdrew it.' })
  @TextColumn({ nullable: true })
  withdrawnBy!: string | null;
}
