import { Organisation } from '@ribband/access';
import {
  DayColumn,
  FlagColumn,
  IdColumn,
  InstantColumn,
  IntegerColumn,
  JsonColumn,
  LocalDate,
  Node,
  OneOfColumn,
  RealColumn,
  RefColumn,
  TextColumn,
  VersionColumn,
} from '@ribband/platform';
import { Field, Float, ID, Int, ObjectType } from '@nestjs/graphql';
import { Entity, Unique } from 'typeorm';
import type { HazardCode } from '../hazards/hazard-catalogue.js';
import { estimateWays, TaskKindEnum, taskKinds, type EstimateWay, type TaskKind } from './task-words.js';

/** A piece of work on the vessel, or time that has to pass, or a say-so that has to be given. */
@ObjectType({
  implements: () => Node,
  description: 'A piece of work on the vessel, or time that must pass, or a say-so that must be given.',
})
@Entity('task')
@Unique(['organisationId', 'ref'])
export class Task {
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

  @Field(() => String, { description: 'What is to be done, as one says it at the yard.' })
  @TextColumn()
  title!: string;

  @Field(() => TaskKindEnum, { description: 'How it takes its time.' })
  @OneOfColumn(taskKinds)
  kind!: TaskKind;

  @Field(() => String, { nullable: true, description: 'Where on the hull or in the yard.' })
  @TextColumn({ nullable: true })
  position!: string | null;

  /** How the three points below are meant; null for a say-so and for the launch. */
  @OneOfColumn(estimateWays, { nullable: true })
  estimateBy!: EstimateWay | null;

  /** What is counted. */
  @TextColumn({ nullable: true })
  unit!: string | null;

  @IntegerColumn({ nullable: true })
  count!: number | null;

  /** Three points, rising: pieces an hour for one person, person-minutes, or minutes. */
  @RealColumn({ nullable: true })
  low!: number | null;

  @RealColumn({ nullable: true })
  likely!: number | null;

  @RealColumn({ nullable: true })
  high!: number | null;

  @Field(() => Int, { description: 'Fewest people who may start it.' })
  @IntegerColumn()
  crewMin!: number;

  @Field(() => Int, { description: 'Crew up to which each hand counts in full.' })
  @IntegerColumn()
  crewEfficient!: number;

  @Field(() => Int, { description: 'Most people at once.' })
  @IntegerColumn()
  crewMax!: number;

  /** Cards that everyone on it must hold. */
  @JsonColumn()
  cardKindIds!: string[];

  @Field(() => Int, { nullable: true, description: 'Least age, beyond what the hazards ask.' })
  @IntegerColumn({ nullable: true })
  leastAge!: number | null;

  @Field(() => Boolean, { description: 'Whether it must be done without a break, inside one turnout.' })
  @FlagColumn()
  oneGo!: boolean;

  @Field(() => Int, { description: 'Minutes lost each time that it is taken up again.' })
  @IntegerColumn()
  setUpMinutes!: number;

  @Field(() => Float, { description: 'What a hand beyond the efficient crew adds, 0 to 1 of a full one.' })
  @RealColumn()
  extraHandShare!: number;

  @Field(() => Float, { description: 'What somebody who is learning adds, 0 to 1 of a full hand.' })
  @RealColumn()
  learnerShare!: number;

  /** As ticked by the shipwright; `hazardsOf` adds what the work brings with it. */
  @JsonColumn()
  hazards!: HazardCode[];

  /** The shipwright's own lines. */
  @JsonColumn()
  ownCautions!: string[];

  @Field(() => LocalDate, { nullable: true, description: 'Not before this day, whatever the links say.' })
  @DayColumn({ nullable: true })
  notBefore!: string | null;

  @Field(() => String, { nullable: true, description: 'Why it is held, or null when it is not.' })
  @TextColumn({ nullable: true })
  held!: string | null;

  /** Begun before its tallies were kept here. */
  @DayColumn({ nullable: true })
  startedOn!: string | null;

  /** Done before its tallies were kept here. */
  @DayColumn({ nullable: true })
  endedOn!: string | null;

  @InstantColumn({ nullable: true })
  droppedAt!: number | null;

  @Field(() => String, {
    nullable: true,
    description: 'Why it was dropped from the scope; null when it was not.',
  })
  @TextColumn({ nullable: true })
  dropReason!: string | null;
}
