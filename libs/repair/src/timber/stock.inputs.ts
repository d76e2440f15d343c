import { LocalDate } from '@ribband/platform';
import { Field, Float, ID, InputType, Int } from '@nestjs/graphql';
import { type SourceKind, SourceKindEnum } from './source.entity.js';
import { type StockUse, StockUseEnum } from './flitch.entity.js';

@InputType({ description: 'Who timber comes from. With an id: an edit of the version that was read.' })
export class TimberSourceInput {
  @Field(() => ID, { nullable: true, description: 'Which one; left out for a new one.' })
  id?: string | null;

  @Field(() => Int, { nullable: true, description: 'Its version that was read.' })
  version?: number | null;

  @Field(() => String, { description: 'Who they are.' })
  name!: string;

  @Field(() => SourceKindEnum, { description: 'How it came.' })
  kind!: SourceKind;

  @Field(() => String, { nullable: true, description: 'What to know about them.' })
  note?: string | null;
}

@InputType({ description: 'A trip to look for timber.' })
export class SearchTripInput {
  @Field(() => LocalDate, { description: 'The day.' })
  wentOn!: string;

  @Field(() => String, { description: 'Where they looked.' })
  whereTo!: string;

  @Field(() => Int, { description: 'How long each was out, in minutes.' })
  minutes!: number;

  @Field(() => [ID], { description: 'Who went: 1 to 40 volunteers.' })
  volunteerIds!: string[];

  @Field(() => String, { nullable: true, description: 'What was found.' })
  found?: string | null;
}

@InputType({ description: 'A log. With an id: an edit of the version that was read.' })
export class TimberLogInput {
  @Field(() => ID, { nullable: true, description: 'Which one; left out for a new one.' })
  id?: string | null;

  @Field(() => Int, { nullable: true, description: 'Its version that was read.' })
  version?: number | null;

  @Field(() => String, { description: 'What is painted on its end.' })
  mark!: string;

  @Field(() => String, { description: 'What wood it is.' })
  species!: string;

  @Field(() => ID, { nullable: true, description: 'Who it comes from.' })
  sourceId?: string | null;

  @Field(() => Float, { description: 'At the small end, inside the bark, in inches.' })
  diameterInches!: number;

  @Field(() => Float, { description: 'In feet.' })
  lengthFeet!: number;

  @Field(() => LocalDate, { nullable: true, description: 'When it came; left out while it is to come.' })
  cameOn?: string | null;

  @Field(() => String, { nullable: true, description: 'A later job that it is kept for.' })
  reservedFor?: string | null;

  @Field(() => String, { nullable: true, description: 'What to know about it.' })
  note?: string | null;
}

@InputType({ description: 'What is not to be used of a flitch, as a box; all in millimetres.' })
export class FlitchDefectInput {
  @Field(() => Int, { description: 'From the butt to its middle.' })
  along!: number;

  @Field(() => Int, {
    description: 'From the flitch’s middle line to its middle; below 0 on the other side.',
  })
  across!: number;

  @Field(() => Int, { description: 'How long.' })
  length!: number;

  @Field(() => Int, { description: 'How wide.' })
  width!: number;
}

@InputType({ description: 'A flitch as it is taped. With an id: an edit of the version that was read.' })
export class FlitchInput {
  @Field(() => ID, { nullable: true, description: 'Which one; left out for a new one.' })
  id?: string | null;

  @Field(() => Int, { nullable: true, description: 'Its version that was read.' })
  version?: number | null;

  @Field(() => String, { description: 'What is painted on it.' })
  mark!: string;

  @Field(() => String, { description: 'What wood it is.' })
  species!: string;

  @Field(() => StockUseEnum, { description: 'What it is meant for.' })
  use!: StockUse;

  @Field(() => Int, { description: 'In millimetres.' })
  thickness!: number;

  @Field(() => Int, { description: 'In millimetres.' })
  length!: number;

  @Field(() => [Int], {
    description: 'Widths at equal distances from the butt to the top, in millimetres: 2 to 12.',
  })
  widths!: number[];

  @Field(() => Int, {
    description: 'How far its middle lies off a straight line, in millimetres; 0 if straight.',
  })
  sweep!: number;

  @Field(() => Int, { description: 'Width of sapwood along each edge, in millimetres.' })
  sapwood!: number;

  @Field(() => [FlitchDefectInput], { description: 'Checks, shakes, rot, big knots: at most 20.' })
  defects!: FlitchDefectInput[];

  @Field(() => ID, { nullable: true, description: 'The log that it was sawn from.' })
  logId?: string | null;

  @Field(() => ID, { nullable: true, description: 'Who it comes from.' })
  sourceId?: string | null;

  @Field(() => LocalDate, { nullable: true, description: 'When it is promised; left out when it is there.' })
  expectedOn?: string | null;

  @Field(() => String, { nullable: true, description: 'Where it lies.' })
  lies?: string | null;

  @Field(() => String, { nullable: true, description: 'A later job that it is kept for.' })
  reservedFor?: string | null;

  @Field(() => LocalDate, { nullable: true, description: 'When it was sawn up; left out before.' })
  usedOn?: string | null;
}

@InputType({ description: 'What the timber book reckons with. Left out: as before.' })
export class TimberSettingsInput {
  @Field(() => Float, { nullable: true, description: 'Air where the stock lies, in degrees Fahrenheit.' })
  fahrenheit?: number | null;

  @Field(() => Float, { nullable: true, description: 'Relative humidity there, 0 to 0.99.' })
  humidity?: number | null;

  @Field(() => Float, {
    nullable: true,
    description: 'Planking is hung at this moisture or below, in percent.',
  })
  plankingPercent?: number | null;

  @Field(() => Float, {
    nullable: true,
    description: 'Frames are sawn at this or below, in percent; 0 for any.',
  })
  framesPercent?: number | null;

  @Field(() => Float, { nullable: true, description: 'Share of a log’s diameter that is sound.' })
  usableShare?: number | null;

  @Field(() => Float, { nullable: true, description: 'Weight in pounds a cubic foot.' })
  poundsACubicFoot?: number | null;

  @Field(() => Int, { nullable: true, description: 'Round a pattern for bevel and saw, in millimetres.' })
  sawMarginMillimetres?: number | null;

  @Field(() => Float, { nullable: true, description: 'Greatest slope of grain along a piece.' })
  grainRunOut?: number | null;

  @Field(() => Int, { nullable: true, description: 'How long stock that is not found yet takes, in days.' })
  leadDays?: number | null;
}
