import { LocalDate, DateTime } from '@ribband/platform';
import { LiftSlot, type LiftSlotKind, LiftSlotKindEnum } from '@ribband/repair';
import { Field, Float, ID, Int, ObjectType } from '@nestjs/graphql';

@ObjectType({ description: 'The odds of being ready by a lift slot.' })
export class SlotOdds {
  @Field(() => LiftSlot, { description: 'The slot.' })
  slot!: LiftSlot;

  @Field(() => LiftSlotKindEnum, {
    description: 'What it is to the plan: once the gate is released, the next slot is the gate.',
  })
  role!: LiftSlotKind;

  @Field(() => Float, { description: 'Share of futures in which she is ready by then, 0 to 1.' })
  odds!: number;

  @Field(() => String, { description: 'The same as one says it: 7 in 10.' })
  words!: string;
}

@ObjectType({ description: 'How things looked on one day.' })
export class OutlookMarkModel {
  @Field(() => LocalDate, { description: 'The yard’s day.' })
  on!: string;

  @Field(() => LocalDate, { nullable: true, description: 'Ready by this day in 80 of 100 futures.' })
  likelyOn!: string | null;

  @Field(() => Float, { description: 'Odds of the gate, 0 to 1.' })
  gateOdds!: number;

  @Field(() => [String], { description: 'What was recorded since the mark before; at most 5.' })
  reasons!: string[];
}

@ObjectType({ description: 'How the day by which she is ready in 8 futures of 10 has moved.' })
export class Trend {
  @Field(() => String, { description: 'The trend as a sentence, with its reason where one is recorded.' })
  sentence!: string;

  @Field(() => Float, { nullable: true, description: 'Days by which it slips a week; below 0 it gains.' })
  daysAWeek!: number | null;

  @Field(() => [OutlookMarkModel], { description: 'The marks, oldest first; at most the last 60.' })
  marks!: OutlookMarkModel[];
}

@ObjectType({ description: 'Something that would help, and by how much.' })
export class NextHand {
  @Field(() => String, { description: 'What would be done.' })
  what!: string;

  @Field(() => String, { description: 'What it gains, with what is not known of it.' })
  gains!: string;

  @Field(() => Float, { description: 'Odds of the gate with it, 0 to 1.' })
  gateOdds!: number;

  @Field(() => Float, { description: 'Odds gained, in the same futures.' })
  oddsGained!: number;

  @Field(() => Float, { description: 'Standard error of the odds gained.' })
  oddsError!: number;

  @Field(() => Float, { description: 'Days gained, mean of the same futures.' })
  daysGained!: number;
}

@ObjectType({ description: 'A decision, or a notice to be given, with its last day.' })
export class DueDecision {
  @Field(() => LocalDate, { description: 'The last day for it.' })
  on!: string;

  @Field(() => String, { description: 'What is to be decided or done.' })
  words!: string;

  @Field(() => Boolean, { description: 'Whether the day has gone by.' })
  isLate!: boolean;

  @Field(() => LiftSlot, {
    nullable: true,
    description: 'The lift slot that is to be decided on; null: none.',
  })
  slot!: LiftSlot | null;
}

@ObjectType({ description: 'What a pace is taken to be, and from what.' })
export class PaceBelief {
  @Field(() => ID, { description: 'The kind of work, for setting its pace.' })
  kind!: string;

  @Field(() => String, { description: 'What is counted.' })
  name!: string;

  @Field(() => Float, { description: 'Pieces a person-hour.' })
  pace!: number;

  @Field(() => String, { description: '“11 nails a person-hour from 6 turnouts; the book said 8 to 20”.' })
  sentence!: string;

  @Field(() => String, { nullable: true, description: 'Why it was set by hand; null where it is learned.' })
  pinnedWhy!: string | null;
}

@ObjectType({ description: 'Whether she will float on the day: what many futures of the plan in force say.' })
export class OutlookModel {
  @Field(() => String, { description: 'The odds in one sentence, with what decides.' })
  sentence!: string;

  @Field(() => String, {
    nullable: true,
    description: 'What the newest events that were recorded did to the odds; null where there are none.',
  })
  lastMove!: string | null;

  @Field(() => Int, { description: 'Futures lived through.' })
  futures!: number;

  @Field(() => DateTime, { description: 'When they were.' })
  madeAt!: number;

  @Field(() => Boolean, { description: 'Whether they are of the plan in force; else of the one before it.' })
  isOfPlan!: boolean;

  @Field(() => LocalDate, { nullable: true, description: 'Ready by then in 50 of 100 futures.' })
  evenOn!: string | null;

  @Field(() => LocalDate, { nullable: true, description: 'Ready by then in 80 of 100.' })
  likelyOn!: string | null;

  @Field(() => LocalDate, { nullable: true, description: 'Ready by then in 95 of 100.' })
  sureOn!: string | null;

  @Field(() => Float, { description: 'Odds of the gate, 0 to 1.' })
  gateOdds!: number;

  @Field(() => [SlotOdds], { description: 'Odds of each lift slot, in order of time; at most 50.' })
  slots!: SlotOdds[];

  @Field(() => [LocalDate], {
    description:
      'Ready days at 0.5, 1.5, ... 99.5 % of futures, as far as they lie within the turnouts; at most 100.',
  })
  spread!: string[];

  @Field(() => [LocalDate], { description: 'Mondays of the weeks in which most is decided; at most 3.' })
  decisiveWeeks!: string[];

  @Field(() => Trend, { description: 'How it has moved.' })
  trend!: Trend;

  @Field(() => [NextHand], {
    description: 'What would help most, best first; at most 12. Empty until it is known.',
  })
  nextHand!: NextHand[];

  @Field(() => [DueDecision], { description: 'What is due to be decided, soonest first; at most 50.' })
  decisions!: DueDecision[];

  @Field(() => [PaceBelief], { description: 'What paces are taken to be, with their evidence; at most 200.' })
  paces!: PaceBelief[];
}
