import { DateTime } from '@ribband/platform';
import { Field, InputType, Int, ObjectType } from '@nestjs/graphql';
import { HullElement, type Side, SideEnum } from '../openings/hull-element.entity.js';

@ObjectType({ description: 'A butt: bay 12 lies between frames 12 and 13.' })
export class PlankButt {
  @Field(() => Int, { description: 'Its strake, counted from the keel.' })
  strake!: number;

  @Field(() => Int, { description: 'Its bay.' })
  bay!: number;
}

@InputType({ description: 'A butt as it is chosen: bay 12 lies between frames 12 and 13.' })
export class PlankButtInput {
  @Field(() => Int, { description: 'Its strake, counted from the keel.' })
  strake!: number;

  @Field(() => Int, { description: 'Its bay.' })
  bay!: number;
}

@ObjectType({ description: 'A butt rule that is not kept.' })
export class PlankButtFault {
  @Field(() => String, { description: 'Which butts, how they lie, and the rule.' })
  says!: string;

  @Field(() => Boolean, { description: 'Whether it is a guide only.' })
  guide!: boolean;
}

@ObjectType({ description: 'A stretch of a strake that is hung anew.' })
export class PlankRun {
  @Field(() => Int, { description: 'Its strake, counted from the keel.' })
  strake!: number;

  @Field(() => Int, { description: 'First frame that it crosses.' })
  firstFrame!: number;

  @Field(() => Int, { description: 'Last frame that it crosses.' })
  lastFrame!: number;
}

@ObjectType({ description: 'A frame that has to stand before a plank is hung over it.' })
export class FrameFirst {
  @Field(() => HullElement, { description: 'The frame.' })
  frame!: HullElement;

  @Field(() => Boolean, { description: 'Whether it stands again.' })
  stands!: boolean;
}

@ObjectType({ description: 'A plank that goes back, and what it waits for.' })
export class PlankWaitsType {
  @Field(() => HullElement, { description: 'The plank.' })
  plank!: HullElement;

  @Field(() => [FrameFirst], { description: 'Frames under it that are renewed; at most 500.' })
  frames!: FrameFirst[];
}

@ObjectType({ description: 'The layout that the shipwright chose.' })
export class LayoutChoiceType {
  @Field(() => [PlankButt], { description: 'Butts of the strakes that are hung anew; at most 500.' })
  butts!: PlankButt[];

  @Field(() => String, { description: 'Whose choice.' })
  by!: string;

  @Field(() => String, { description: 'Why.' })
  reason!: string;

  @Field(() => DateTime, { description: 'When.' })
  chosenAt!: number;

  @Field(() => [PlankButtFault], { description: 'Rules that it does not keep; at most 200.' })
  faults!: PlankButtFault[];
}

@ObjectType({ description: 'Closing her up: the butts of one side, and what each plank waits for.' })
export class PlankingType {
  @Field(() => SideEnum, { description: 'Which side.' })
  side!: Side;

  @Field(() => [PlankRun], { description: 'What is hung anew; at most 200.' })
  runs!: PlankRun[];

  @Field(() => [PlankButt], { description: 'Butts as they lie today; at most 1000.' })
  butts!: PlankButt[];

  @Field(() => [PlankButtFault], { description: 'Rules that they do not keep; at most 200.' })
  faults!: PlankButtFault[];

  @Field(() => LayoutChoiceType, { nullable: true, description: 'Null while nothing was chosen.' })
  choice!: LayoutChoiceType | null;

  @Field(() => [PlankWaitsType], { description: 'Which plank needs which frames first; at most 500.' })
  waits!: PlankWaitsType[];
}

@ObjectType({ description: 'A layout that keeps the butt rules, or word that none was found.' })
export class LayoutProposal {
  @Field(() => String, { description: 'What came of it, as a sentence.' })
  says!: string;

  @Field(() => [PlankButt], { description: 'Its butts; none where none was found. At most 500.' })
  butts!: PlankButt[];

  @Field(() => [PlankButtFault], { description: 'Guides that it does not keep; at most 200.' })
  faults!: PlankButtFault[];
}

@ObjectType({ description: 'The choice as it stands.' })
export class LayoutChoicePayload {
  @Field(() => PlankingType, { nullable: true, description: 'That side.' })
  planking!: PlankingType | null;
}
