import { DateTime, LocalDate } from '@ribband/platform';
import { LiftSlot, Task } from '@ribband/repair';
import { Field, Float, Int, ObjectType } from '@nestjs/graphql';

@ObjectType({ description: 'The odds of being ready by one lift slot.' })
export class SlotOdds {
  @Field(() => LiftSlot, { description: 'Which slot.' })
  slot!: LiftSlot;

  @Field(() => Float, { description: 'Share of futures in which she is ready by it, 0 to 1.' })
  odds!: number;

  @Field(() => Float, { description: 'Standard error of that share from sampling futures.' })
  error!: number;

  @Field(() => String, { description: 'The odds in words.' })
  words!: string;
}

@ObjectType({ description: 'The day by which she is ready in so many of 100 futures.' })
export class ReadyBy {
  @Field(() => Int, { description: 'Of 100 futures: 50, 80 or 95.' })
  futures!: number;

  @Field(() => DateTime, { nullable: true, description: 'When; null past the last turnout laid out.' })
  at!: number | null;

  @Field(() => LocalDate, { nullable: true, description: 'That day at the yard.' })
  on!: string | null;

  @Field(() => LocalDate, { nullable: true, description: 'The earliest that sampling leaves likely for it.' })
  from!: string | null;

  @Field(() => LocalDate, { nullable: true, description: 'The latest that sampling leaves likely for it.' })
  to!: string | null;

  @Field(() => String, { description: 'The same as a sentence.' })
  words!: string;
}

@ObjectType({ description: 'How often a task stands on the chain that decides when she is ready.' })
export class TaskCriticality {
  @Field(() => Task, { description: 'Which task.' })
  task!: Task;

  @Field(() => Float, { description: 'Share of futures in which it stands on that chain, 0 to 1.' })
  share!: number;
}

@ObjectType({ description: 'A week that decides when she is ready.' })
export class DecisiveWeekModel {
  @Field(() => LocalDate, { description: 'Its first day.' })
  from!: string;

  @Field(() => Float, {
    description: 'Share of the ready day’s spread that goes with that week’s hours, 0 to 1.',
  })
  share!: number;
}

@ObjectType({ description: 'The last forecast of one day, for the trend.' })
export class ForecastLine {
  @Field(() => LocalDate, { description: 'The yard’s day.' })
  on!: string;

  @Field(() => Float, { description: 'Odds of the gate then, 0 to 1.' })
  gateOdds!: number;

  @Field(() => LocalDate, { nullable: true, description: 'Ready by this day in 50 of 100 futures then.' })
  p50On!: string | null;

  @Field(() => LocalDate, { nullable: true, description: 'Ready by this day in 80 of 100 futures then.' })
  p80On!: string | null;

  @Field(() => [String], { description: 'What had changed before the plans of that day; at most 20.' })
  why!: string[];
}

@ObjectType('Forecast', { description: 'What many futures of the plan say of the day she is ready.' })
export class ForecastModel {
  @Field(() => DateTime, { description: 'When it was made.' })
  madeAt!: number;

  @Field(() => Int, { description: 'How many futures were lived through.' })
  futures!: number;

  @Field(() => Boolean, { description: 'Whether it is of the plan in force.' })
  isOfPlanInForce!: boolean;

  @Field(() => String, { description: 'The odds of the gate and what decides, in one sentence.' })
  sentence!: string;

  @Field(() => [SlotOdds], { description: 'The gate and the slots after it, in order of time; at most 12.' })
  slots!: SlotOdds[];

  @Field(() => [ReadyBy], { description: 'In 50, 80 and 95 of 100 futures.' })
  readyBy!: ReadyBy[];

  @Field(() => [LocalDate], {
    description:
      'The ready day in one future of a hundred after the other, in order; those past the last turnout are left out.',
  })
  spread!: string[];

  @Field(() => [String], { description: 'What the deciding chain spends its hours on, in words; at most 6.' })
  chain!: string[];

  @Field(() => [TaskCriticality], { description: 'Tasks that decide most often, first; at most 20.' })
  criticalTasks!: TaskCriticality[];

  @Field(() => [DecisiveWeekModel], { description: 'Weeks in which it is decided, in order; at most 60.' })
  weeks!: DecisiveWeekModel[];

  @Field(() => [String], { description: 'What the paces of work rest on, as sentences; at most 100.' })
  paces!: string[];

  @Field(() => [ForecastLine], { description: 'How it moved, a line a day, oldest first; the last 400.' })
  trend!: ForecastLine[];
}
