import { LocalDate } from '@ribband/platform';
import { Field, Float, Int, ObjectType } from '@nestjs/graphql';

@ObjectType({ description: 'When a flitch can be sawn.' })
export class StockDayType {
  @Field(() => LocalDate, { nullable: true, description: 'Null where no day can be told.' })
  on!: string | null;

  @Field(() => String, { description: 'Why then, or what would tell.' })
  why!: string;
}

@ObjectType({ description: 'What a log gives by one log rule.' })
export class LogScale {
  @Field(() => String, { description: 'Name of the rule.' })
  rule!: string;

  @Field(() => String, { description: 'Where the rule was read.' })
  source!: string;

  @Field(() => Float, { description: 'Board feet.' })
  boardFeet!: number;
}

@ObjectType({ description: 'What a log gives: arithmetic to plan with, the saw decides.' })
export class LogYield {
  @Field(() => [LogScale], { description: 'Board feet by each log rule; at most 10.' })
  scales!: LogScale[];

  @Field(() => Float, { description: 'Sound diameter in inches.' })
  usableInches!: number;

  @Field(() => Float, { description: 'Side of the largest square beam in inches.' })
  squareInches!: number;

  @Field(() => Float, { description: 'As futtocks, from, in board feet of the International rule.' })
  futtocksLow!: number;

  @Field(() => Float, { description: 'As futtocks, to.' })
  futtocksHigh!: number;

  @Field(() => Float, { description: 'As planks, from.' })
  planksLow!: number;

  @Field(() => Float, { description: 'As planks, to.' })
  planksHigh!: number;

  @Field(() => Int, { description: 'Weight of the log in pounds, taken as a cylinder of its small end.' })
  pounds!: number;
}

@ObjectType({ description: 'What is not to be used of a flitch, as a box; millimetres.' })
export class FlitchDefect {
  @Field(() => Int, { description: 'From the butt to its middle.' })
  along!: number;

  @Field(() => Int, { description: 'From the middle line to its middle.' })
  across!: number;

  @Field(() => Int, { description: 'How long.' })
  length!: number;

  @Field(() => Int, { description: 'How wide.' })
  width!: number;
}

@ObjectType({ description: 'A flitch as it was taped; millimetres.' })
export class FlitchTape {
  @Field(() => Int, { description: 'How thick.' })
  thickness!: number;

  @Field(() => Int, { description: 'Butt to top.' })
  length!: number;

  @Field(() => [Int], { description: 'Widths at equal distances from the butt; at most 12.' })
  widths!: number[];

  @Field(() => Int, { description: 'How far its middle lies off the straight.' })
  sweep!: number;

  @Field(() => Int, { description: 'Sapwood along each edge.' })
  sapwood!: number;

  @Field(() => [FlitchDefect], { description: 'What is not to be used; at most 20.' })
  defects!: FlitchDefect[];
}

@ObjectType({ description: 'A flitch drawn to scale: SVG points in millimetres.' })
export class FlitchDrawing {
  @Field(() => String, { description: 'Its bark edges: a polygon.' })
  outline!: string;

  @Field(() => String, { description: 'How its grain runs: a polyline.' })
  grain!: string;

  @Field(() => [String], { description: 'What is not to be used: polygons; at most 20.' })
  defects!: string[];
}
