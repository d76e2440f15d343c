import { Organisation } from '@ribband/access';
import { Volunteer } from '@ribband/crew';
import {
  DateTime,
  DayColumn,
  IdColumn,
  InstantColumn,
  JsonColumn,
  LocalDate,
  OneOfColumn,
  RefColumn,
  TextColumn,
} from '@ribband/platform';
import { Field, ID, ObjectType, registerEnumType } from '@nestjs/graphql';
import { Entity } from 'typeorm';

export const delegationScopes = ['all', 'kind', 'position', 'skill', 'tasks'] as const;
export type DelegationScope = (typeof delegationScopes)[number];

export const DelegationScopeEnum = {
  ALL: 'all',
  KIND: 'kind',
  POSITION: 'position',
  SKILL: 'skill',
  TASKS: 'tasks',
} as const;
registerEnumType(DelegationScopeEnum, {
  name: 'DelegationScope',
  description: 'Over which work somebody may say so.',
  valuesMap: {
    ALL: { description: 'All of it.' },
    KIND: { description: 'Tasks of the kinds that are named.' },
    POSITION: { description: 'Tasks at the positions that are named.' },
    SKILL: { description: 'Tasks that ask for the skills that are named.' },
    TASKS: { description: 'The tasks that are named.' },
  },
});

/** The shipwright's say-so in somebody else's hands, over some work, until a day. Kept when it is over or taken back. */
@ObjectType('Delegation', { description: 'The shipwright’s say-so in somebody else’s hands for a while.' })
@Entity('delegation')
export class DelegationEntity {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => Volunteer, { onDelete: 'CASCADE' })
  volunteerId!: string;

  @Field(() => DelegationScopeEnum, { description: 'Over which work.' })
  @OneOfColumn(delegationScopes)
  scope!: DelegationScope;

  /** Kinds, positions, ids of skills or of tasks, as the scope says; none for all work. */
  @Field(() => [String], {
    description: 'Kinds, positions, ids of skills or tasks, as the scope says; at most 200.',
  })
  @JsonColumn()
  names!: string[];

  @Field(() => LocalDate, { name: 'from', description: 'The first day.' })
  @DayColumn()
  fromOn!: string;

  @Field(() => LocalDate, { name: 'until', description: 'The last day.' })
  @DayColumn()
  untilOn!: string;

  @Field(() => String, { description: 'Why, such as "away until Monday".' })
  @TextColumn()
  reason!: string;

  @Field(() => String, { description: 'Whose say-so it is.' })
  @TextColumn()
  givenBy!: string;

  @Field(() => DateTime, { description: 'When it was given.' })
  @InstantColumn()
  givenAt!: number;

  @Field(() => DateTime, { nullable: true, description: 'When it was taken back; null while it was not.' })
  @InstantColumn({ nullable: true })
  revokedAt!: number | null;

  @Field(() => String, { nullable: true, description: 'Who took it back.' })
  @TextColumn({ nullable: true })
  revokedBy!: string | null;
}
