import { NamedHand, Skill } from '@ribband/crew';
import { DateTime, LocalDate } from '@ribband/platform';
import { Task } from '@ribband/repair';
import { TurnoutEntity } from '@ribband/roster';
import { Field, ID, InputType, Int, ObjectType } from '@nestjs/graphql';
import { PlanModel, ProposedHand } from '../plans/plan.types.js';
import type { ToldPlan } from '../plans/told-plan.js';

@ObjectType({ description: 'One person’s place on a piece of work, held or open.' })
export class ProposedPlace {
  @Field(() => ID, {
    nullable: true,
    description: 'Says which it is as long as the plan is the same; null for a second hand.',
  })
  key!: string | null;

  @Field(() => Skill, { nullable: true, description: 'The skill that it asks for; null for a hand.' })
  skill!: Skill | null;

  @Field(() => Int, { description: 'Least level in the skill, 1 to 4; 0 for a hand.' })
  level!: number;

  @Field(() => DateTime, { description: 'From when.' })
  startsAt!: number;

  @Field(() => DateTime, { description: 'Until when.' })
  endsAt!: number;

  @Field(() => NamedHand, { nullable: true, description: 'Who; null while it is open.' })
  hand!: NamedHand | null;

  @Field(() => String, { nullable: true, description: 'Why this person; null while it is open.' })
  why!: string | null;

  @Field(() => Boolean, { description: 'Whether it was said who, by the coordinator or by themselves.' })
  fixed!: boolean;

  @Field(() => NamedHand, {
    nullable: true,
    description: 'The teacher of a second hand, who learns over and above the crew; null for all others.',
  })
  beside!: NamedHand | null;
}

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

  @Field(() => [ProposedPlace], {
    description: 'Its places: those of the crew, then room for more, then second hands; at most 100.',
  })
  places!: ProposedPlace[];

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

  @Field(() => [NamedHand], {
    description:
      'Who stands by, until each piece of work is as likely to have its crew as the yard wishes; at most 100.',
  })
  swingHands!: NamedHand[];

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

@ObjectType({ description: 'A week as somebody has put it together and not posted yet.' })
export class WeekDraft {
  @Field(() => String, { description: 'Who kept it.' })
  keptBy!: string;

  @Field(() => DateTime, { description: 'When.' })
  keptAt!: number;
}

@ObjectType({ description: 'Something that has changed in a week since it was posted.' })
export class WeekChange {
  @Field(() => DateTime, { description: 'When.' })
  at!: number;

  @Field(() => String, { description: 'Who did it.' })
  who!: string;

  @Field(() => String, { description: 'What, as a sentence.' })
  what!: string;
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

  @Field(() => WeekDraft, { nullable: true, description: 'The draft that this is; null where none is kept.' })
  draft!: WeekDraft | null;

  @Field(() => [WeekChange], {
    description: 'What has changed since the week was posted, the newest first; at most 200.',
  })
  changes!: WeekChange[];

  @Field(() => [NamedHand], {
    description: 'Who is expected at one of its turnouts at least; at most 500.',
  })
  crew!: NamedHand[];

  @Field(() => [String], { description: 'What to know of the week as a whole; at most 20.' })
  notices!: string[];
}

@InputType({ description: 'Somebody on a place of the week.' })
export class PlacedHandInput {
  @Field(() => ID, { description: 'The place’s key.' })
  key!: string;

  @Field(() => ID, { description: 'Who.' })
  volunteerId!: string;

  @Field(() => Boolean, { description: 'Whether they stay there when another roster is proposed.' })
  fixed!: boolean;
}

@InputType({ description: 'Somebody to be put on a place of the week.' })
export class PutInput {
  @Field(() => ID, { description: 'The place’s key.' })
  key!: string;

  @Field(() => ID, { nullable: true, description: 'Who; nobody, to leave it open, when left out.' })
  volunteerId?: string | null;
}

@ObjectType({ description: 'How a change moves the odds of a piece of work.' })
export class CrewOddsChange {
  @Field(() => ID, { description: 'The turnout.' })
  turnoutId!: string;

  @Field(() => ID, { description: 'The task.' })
  taskId!: string;

  @Field(() => String, { nullable: true, description: 'In words, before; null where nobody was on it.' })
  before!: string | null;

  @Field(() => String, { nullable: true, description: 'In words, after; null where nobody is on it.' })
  after!: string | null;
}

@ObjectType('TriedWeek', { description: 'A week as it would be after a change. Nothing of it is kept.' })
export class TriedWeekModel {
  @Field(() => WeekProposal, { description: 'The week.' })
  week!: WeekProposal;

  @Field(() => [String], { description: 'What the change breaks, in sentences; empty where nothing.' })
  breaks!: string[];

  @Field(() => [CrewOddsChange], { description: 'Which odds it moves.' })
  odds!: CrewOddsChange[];
}

@ObjectType({ description: 'The draft as it is kept.' })
export class KeepWeekDraftPayload {
  @Field(() => WeekDraft, { description: 'Who kept it, and when.' })
  draft!: WeekDraft;
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
