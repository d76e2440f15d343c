import { NamedHand, Skill } from '@ribband/crew';
import { Connection, DateTime, LocalDate, Node } from '@ribband/platform';
import { LiftSlot, Link, Task } from '@ribband/repair';
import { TurnoutEntity } from '@ribband/roster';
import { Field, Float, ID, Int, ObjectType } from '@nestjs/graphql';
import type { ToldPlan } from './told-plan.js';

@ObjectType({ description: 'One knot of the launch chain: a task and what ties it to the knot before.' })
export class Knot {
  @Field(() => Task, { description: 'The task.' })
  task!: Task;

  @Field(() => DateTime, { description: 'When it starts.' })
  startsAt!: number;

  @Field(() => DateTime, { description: 'When it ends.' })
  endsAt!: number;

  @Field(() => Int, {
    description: 'Calendar days that its start can slip before the gate is missed; below zero it is missed.',
  })
  daysToSpare!: number;

  @Field(() => String, { description: 'Why it does not start earlier, as a sentence.' })
  why!: string;
}

@ObjectType({
  description: 'What can’t hold, where there is no plan: one wish, or several that can’t all hold.',
})
export class Wish {
  @Field(() => String, { description: 'What stands in the way.' })
  sentence!: string;

  @Field(() => Task, { nullable: true, description: 'The task that it is about.' })
  task!: Task | null;
}

@ObjectType({ description: 'Where a task lies in the plan.' })
export class PlannedTask {
  @Field(() => ID, { description: 'The task’s id.' })
  id!: string;

  @Field(() => Task, { description: 'The task.' })
  task!: Task;

  @Field(() => DateTime, { description: 'When it starts, or has started.' })
  startsAt!: number;

  @Field(() => DateTime, { description: 'When it ends, or has ended.' })
  endsAt!: number;

  @Field(() => Int, {
    description: 'Working minutes that its start can slip, order and crews kept, before she is ready later.',
  })
  floatMinutes!: number;

  @Field(() => String, { description: 'The same in words.' })
  floatWords!: string;

  @Field(() => String, { description: 'Why it does not start earlier, as a sentence.' })
  heldBy!: string;
}

export const PlannedTaskConnection = Connection('PlannedTask', () => PlannedTask);

@ObjectType({ description: 'Where a task could lie if there were people enough: the critical path method.' })
export class NetworkTimes {
  @Field(() => DateTime, { description: 'Early start.' })
  earlyStartAt!: number;

  @Field(() => DateTime, { description: 'Early finish.' })
  earlyFinishAt!: number;

  @Field(() => DateTime, { description: 'Late start.' })
  lateStartAt!: number;

  @Field(() => DateTime, { description: 'Late finish.' })
  lateFinishAt!: number;

  @Field(() => Int, { description: 'Total float in working minutes.' })
  totalFloatMinutes!: number;

  @Field(() => Int, { description: 'Free float in working minutes.' })
  freeFloatMinutes!: number;

  @Field(() => Boolean, { description: 'Whether it has no total float.' })
  critical!: boolean;

  @Field(() => Link, { nullable: true, description: 'The link that sets its early start; null: none does.' })
  drivenBy!: Link | null;
}

@ObjectType({ description: 'Somebody on a piece of work, and why.' })
export class ProposedHand {
  @Field(() => NamedHand, { description: 'Who.' })
  hand!: NamedHand;

  @Field(() => Skill, { nullable: true, description: 'The skill that they are there for; null for a hand.' })
  skill!: Skill | null;

  @Field(() => String, { description: 'Why this person.' })
  why!: string;
}

@ObjectType({ description: 'Work on a task without a break, by one crew.' })
export class PlanSegment {
  @Field(() => Task, { description: 'The task.' })
  task!: Task;

  @Field(() => TurnoutEntity, {
    nullable: true,
    description: 'The turnout; null for time that passes by itself.',
  })
  turnout!: TurnoutEntity | null;

  @Field(() => DateTime, { description: 'From when.' })
  startsAt!: number;

  @Field(() => DateTime, { description: 'Until when.' })
  endsAt!: number;

  @Field(() => [ProposedHand], { description: 'The crew; at most 50.' })
  crew!: ProposedHand[];
}

@ObjectType('Plan', { implements: () => Node, description: 'The plan that the yard goes by.' })
export class PlanModel {
  /** What the fields are told from. */
  told!: ToldPlan;

  @Field(() => ID, { description: 'Opaque.' })
  id!: string;

  @Field(() => Int, { description: 'The state of the records that it was made from, counted up.' })
  revision!: number;

  @Field(() => DateTime, { description: 'When it was made.' })
  madeAt!: number;

  @Field(() => DateTime, { nullable: true, description: 'When she is ready; null where there is no plan.' })
  readyAt!: number | null;

  @Field(() => LocalDate, { nullable: true, description: 'The day on which she is ready.' })
  readyOn!: string | null;

  @Field(() => LiftSlot, {
    nullable: true,
    description: 'The first lift slot after that; null: none is left.',
  })
  launchSlot!: LiftSlot | null;

  @Field(() => LiftSlot, { description: 'The slot to be made.' })
  gateSlot!: LiftSlot;

  @Field(() => Int, {
    description: 'Days from ready to the gate; below zero the gate is missed. 0 where there is no plan.',
  })
  daysToSpare!: number;

  @Field(() => String, { description: 'When she is ready against the gate, as a sentence.' })
  sentence!: string;

  @Field(() => DateTime, { nullable: true, description: 'Before this no plan can be ready.' })
  boundReadyAt!: number | null;

  @Field(() => String, { nullable: true, description: 'What that bound comes from.' })
  boundKind!: string | null;

  @Field(() => String, { nullable: true, description: 'The bound as a sentence.' })
  boundSentence!: string | null;

  @Field(() => String, {
    nullable: true,
    description:
      'The skills that run short first, with the hours that they have to do and those that are there.',
  })
  bottleneckSentence!: string | null;

  @Field(() => Float, {
    nullable: true,
    description: 'How far she may be from the best there is, in percent of the time from now to the bound.',
  })
  gapPercent!: number | null;

  @Field(() => Boolean, { description: 'Whether it is proved that no plan is ready earlier.' })
  proved!: boolean;

  @Field(() => Int, { description: 'How many of the places that were posted it does not keep.' })
  postingsChanged!: number;

  @Field(() => Int, { description: 'How many orders of the work were tried.' })
  schedules!: number;

  @Field(() => [String], { description: 'What had to be set aside to find it; at most 100.' })
  notices!: string[];
}

@ObjectType({ description: 'A plan has come in force.' })
export class PlanPublished {
  @Field(() => ID, { description: 'The plan.' })
  planId!: string;

  @Field(() => Int, { description: 'The state of the records that it was made from.' })
  revision!: number;

  @Field(() => DateTime, { nullable: true, description: 'When she is ready; null where there is no plan.' })
  readyAt!: number | null;

  @Field(() => String, { description: 'When she is ready against the gate, as a sentence.' })
  sentence!: string;
}
