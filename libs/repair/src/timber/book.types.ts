import { LocalDate } from '@ribband/platform';
import { Field, Float, ID, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { FlitchEntity, type StockUse, StockUseEnum } from './flitch.entity.js';
import { TimberLog } from './log.entity.js';
import { SearchTrip } from './search-trip.entity.js';
import { TimberSource } from './source.entity.js';
import { TimberSettings } from './timber-settings.entity.js';

export const WoodStanding = {
  CUT: 'cut',
  LAID_UP: 'laid up',
  WANTING: 'wanting',
  NOT_LAID_UP: 'not laid up',
} as const;
export type WoodStanding = (typeof WoodStanding)[keyof typeof WoodStanding];
registerEnumType(WoodStanding, {
  name: 'WoodStanding',
  description: 'How far the wood for a piece is.',
  valuesMap: {
    CUT: { description: 'Its flitch is sawn up.' },
    LAID_UP: { description: 'It has a place on a flitch.' },
    WANTING: { description: 'No stock was found for it.' },
    NOT_LAID_UP: { description: 'No lay-up was kept since it came into the scope.' },
  },
});

@ObjectType({ description: 'A shape to be got out of stock. Lengths in millimetres.' })
export class WantedShape {
  @Field(() => Int, { description: 'Straight from end to end of its line of grain.' })
  length!: number;

  @Field(() => Int, { description: 'Width of a straight slab that would hold it.' })
  slabWidth!: number;

  @Field(() => Int, { description: 'How thick.' })
  thickness!: number;

  @Field(() => Int, { description: 'How far its line of grain bends off the straight.' })
  sweep!: number;

  @Field(() => Float, { description: 'Where it bends most, 0 at the heel to 1 at the head.' })
  sweepAt!: number;

  @Field(() => Float, { description: 'Of the straight slab.' })
  boardFeet!: number;

  @Field(() => Int, { description: 'Weight of the slab in pounds.' })
  pounds!: number;

  @Field(() => Int, { description: 'How many people carry the slab, at 35 pounds each.' })
  carriers!: number;

  @Field(() => Boolean, { description: 'Whether gear lifts it and not people.' })
  liftingGear!: boolean;

  @Field(() => String, { description: 'Its outline as the points of an SVG polygon.' })
  points!: string;
}

@ObjectType({ description: 'New wood that the repair needs.' })
export class WantedWood {
  @Field(() => ID, { description: 'Key of the hull’s element.' })
  piece!: string;

  @Field(() => String, { description: 'What it is.' })
  name!: string;

  @Field(() => StockUseEnum, { description: 'Which stock it is sawn from.' })
  use!: StockUse;

  @Field(() => WantedShape, { nullable: true, description: 'Null where her shape is not measured.' })
  shape!: WantedShape | null;

  @Field(() => WoodStanding, { description: 'How far it is.' })
  standing!: WoodStanding;

  @Field(() => ID, { nullable: true, description: 'The flitch that it is laid up on.' })
  flitchId!: string | null;

  @Field(() => LocalDate, {
    nullable: true,
    description: 'From when its wood can be sawn; null if that is over.',
  })
  fromOn!: string | null;

  @Field(() => String, { nullable: true, description: 'Why from then.' })
  why!: string | null;

  @Field(() => LocalDate, { nullable: true, description: 'When stock is expected, if somebody promised.' })
  expectedOn!: string | null;
}

@ObjectType({ description: 'Where a piece lies on a flitch.' })
export class PlacedPiece {
  @Field(() => ID, { description: 'Key of the hull’s element.' })
  piece!: string;

  @Field(() => String, { description: 'What it is.' })
  name!: string;

  @Field(() => ID, { description: 'The flitch.' })
  flitchId!: string;

  @Field(() => String, { description: 'Its outline there, as the points of an SVG polygon, in millimetres.' })
  points!: string;

  @Field(() => Boolean, { description: 'Whether the pattern lies face down.' })
  turnedOver!: boolean;

  @Field(() => Float, { description: 'Greatest slope of grain across it.' })
  grainRunOut!: number;
}

@ObjectType({ description: 'Which piece is sawn from which flitch.' })
export class LayUpType {
  @Field(() => ID, { description: 'Opaque.' })
  id!: string;

  @Field(() => LocalDate, { description: 'When it was made.' })
  madeOn!: string;

  @Field(() => String, { nullable: true, description: 'Who kept it; null for a proposal.' })
  keptBy!: string | null;

  @Field(() => [PlacedPiece], { description: 'The pieces that have a place; at most 500.' })
  placed!: PlacedPiece[];

  @Field(() => [String], { description: 'In words, for each piece without a place; at most 500.' })
  wanting!: string[];

  @Field(() => Float, {
    nullable: true,
    description: 'Share of the flitches begun that becomes pieces, 0 to 1.',
  })
  yieldShare!: number | null;
}

@ObjectType({ description: 'All that is known of the timber for this haul-out.' })
export class TimberBook {
  @Field(() => TimberSettings, { description: 'What it reckons with.' })
  settings!: TimberSettings;

  @Field(() => Float, { description: 'Moisture at which stock comes to rest where it lies, in percent.' })
  restsAtPercent!: number;

  @Field(() => Boolean, { description: 'Whether her shape is measured.' })
  shapeIsMeasured!: boolean;

  @Field(() => [WantedWood], { description: 'New wood that the repair needs; at most 1000.' })
  wood!: WantedWood[];

  @Field(() => [FlitchEntity], { description: 'Flitches in the order of their marks; at most 1000.' })
  flitches!: FlitchEntity[];

  @Field(() => [TimberLog], { description: 'Logs in the order of their marks; at most 500.' })
  logs!: TimberLog[];

  @Field(() => [TimberSource], { description: 'Where timber comes from; at most 500.' })
  sources!: TimberSource[];

  @Field(() => [SearchTrip], { description: 'Trips to look for timber, newest first; at most 500.' })
  trips!: SearchTrip[];

  @Field(() => LayUpType, { nullable: true, description: 'The lay-up that holds.' })
  kept!: LayUpType | null;

  @Field(() => LayUpType, { nullable: true, description: 'A proposal to look at.' })
  proposed!: LayUpType | null;

  @Field(() => Boolean, { description: 'Whether a proposal is being made.' })
  isLayingUp!: boolean;

  @Field(() => String, {
    nullable: true,
    description: 'Why no proposal could be made when one was asked for last; null if one could.',
  })
  layUpFailure!: string | null;
}
