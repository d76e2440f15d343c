import { NamedHand } from '@ribband/crew';
import { DateTime, LocalDate } from '@ribband/platform';
import { Task } from '@ribband/repair';
import { TurnoutEntity } from '@ribband/roster';
import { Field, ID, ObjectType } from '@nestjs/graphql';
import { PlanModel, ProposedHand } from '../plans/plan.types.js';
import type { ToldPlan } from '../plans/told-plan.js';

@ObjectType({ description: 'A piece of work at a turnout as the plan proposes it.' })
export class ProposedWork {
  @Field(() => Task, { description: 'The task.' })
  task!: Task;

  @Field(() => DateTime, { description: 'From when.' })
  startsAt!: number;

  @Field(() => DateTime, { description: 'Until when.' })
  endsAt!: number;

  @Field(() => [ProposedHand], { description: 'Who, and why; nobody where it waits. At most 50.' })
  crew!: ProposedHand[];

  @Field(() => [String], { description: 'What is missing, such as "needs 1 for sawing"; at most 20.' })
  gaps!: string[];

  @Field(() => [String], { description: 'What to read before starting; at most 50.' })
  cautions!: string[];
}

@ObjectType({ description: 'How likely a piece of work has its crew.' })
export class CrewOdds {
  @Field(() => ID, { description: 'The task.' })
  taskId!: string;

  @Field(() => String, {
    description: 'In words, of the crew as a whole: nothing is ever said of how likely one person comes.',
  })
  words!: string;
}

@ObjectType({ description: 'A turnout as the plan proposes it.' })
export class ProposedTurnout {
  @Field(() => TurnoutEntity, { description: 'The turnout.' })
  turnout!: TurnoutEntity;

  @Field(() => [ProposedWork], { description: 'Its work in order of time; at most 100.' })
  work!: ProposedWork[];

  @Field(() => [NamedHand], { description: 'Who said they come and has no work; at most 100.' })
  unplaced!: NamedHand[];

  @Field(() => [String], {
    description: 'What the coordinator should know, such as no first-aid card; at most 100.',
  })
  notices!: string[];

  @Field(() => [CrewOdds], { description: 'How likely each piece of work has its crew; at most 100.' })
  odds!: CrewOdds[];
}

@ObjectType({ description: 'Somebody who could step in.' })
export class HandToRing {
  @Field(() => NamedHand, { description: 'Who.' })
  hand!: NamedHand;

  @Field(() => String, { description: 'What they may do, and whether they said that they come.' })
  why!: string;
}

@ObjectType('SecondVersion', { description: 'A posted turnout as it would stand without somebody.' })
export class SecondVersionModel {
  @Field(() => NamedHand, { description: 'Without whom.' })
  without!: NamedHand;

  @Field(() => [String], { description: 'What would change, in sentences; at most 100.' })
  changes!: string[];

  @Field(() => [HandToRing], { description: 'Whom to ring, the most useful first; at most three.' })
  ring!: HandToRing[];
}

@ObjectType({ description: 'The turnout, now without somebody.' })
export class GoWithoutPayload {
  @Field(() => TurnoutEntity, { description: 'The turnout.' })
  turnout!: TurnoutEntity;
}

@ObjectType({ description: 'A week’s turnouts as the plan proposes them.' })
export class WeekProposal {
  /** The plan that it is told from. */
  told!: ToldPlan | null;

  @Field(() => LocalDate, { description: 'Its Monday.' })
  weekOf!: string;

  @Field(() => ID, { nullable: true, description: 'The plan in force; null before the first.' })
  planId!: string | null;

  @Field(() => PlanModel, { nullable: true, description: 'The plan in force; null before the first.' })
  plan?: PlanModel | null;

  @Field(() => [ProposedTurnout], { description: 'Its turnouts in order of time; at most 50.' })
  turnouts!: ProposedTurnout[];

  @Field(() => Boolean, { description: 'Whether people have been told: places of this week stand.' })
  posted!: boolean;
}

@ObjectType({ description: 'The week as it was posted.' })
export class PostWeekPayload {
  @Field(() => [TurnoutEntity], { description: 'Its turnouts; at most 50.' })
  turnouts!: TurnoutEntity[];

  @Field(() => [String], {
    description: 'Whom a gate did not let in, and why; their places stand open. At most 200.',
  })
  turnedAway!: string[];

  @Field(() => [String], {
    description: 'Work that was not posted because the hull must wait, and why; at most 200.',
  })
  waits!: string[];
}
