import { SideEnum } from '../openings/hull-element.entity.js';
import { Field, Float, Int, ObjectType } from '@nestjs/graphql';
import type { Side } from '../openings/hull-element.entity.js';

@ObjectType({ description: 'A plank of an outline, unrolled flat, in millimetres.' })
export class DrawnPlank {
  @Field(() => String, { description: 'Its name.' })
  name!: string;

  @Field(() => Float, { description: 'Its forward end.' })
  left!: number;

  @Field(() => Float, { description: 'Its after end.' })
  right!: number;

  @Field(() => Float, { description: 'Its lower edge, along the girth from the rabbet.' })
  low!: number;

  @Field(() => Float, { description: 'Its upper edge.' })
  high!: number;
}

@ObjectType({ description: 'A frame of an outline, in millimetres.' })
export class DrawnFrame {
  @Field(() => Int, { description: 'Its number, from forward.' })
  number!: number;

  @Field(() => Float, { description: 'Where it stands, from frame 1.' })
  x!: number;

  @Field(() => Float, { description: 'Its head, along the girth from the rabbet.' })
  head!: number;
}

@ObjectType({ description: 'One side of the shell that an outline makes, unrolled flat and to scale.' })
export class DrawnSide {
  @Field(() => SideEnum, { description: 'Which side.' })
  side!: Side;

  @Field(() => Float, { description: 'Length in millimetres.' })
  length!: number;

  @Field(() => Float, { description: 'Girth in millimetres.' })
  height!: number;

  @Field(() => [DrawnPlank], { description: 'Its planking; at most 4000.' })
  planks!: DrawnPlank[];

  @Field(() => [DrawnFrame], { description: 'Its frames; at most 400.' })
  frames!: DrawnFrame[];
}

@ObjectType({ description: 'What an outline makes, to look at before it is entered.' })
export class OutlineDrawing {
  @Field(() => [DrawnSide], { description: 'Both sides.' })
  sides!: DrawnSide[];

  @Field(() => Int, { description: 'Planks of the shell, both sides.' })
  planks!: number;

  @Field(() => Int, { description: 'Planks of the ceiling, both sides.' })
  ceilingPlanks!: number;

  @Field(() => Int, { description: 'Pieces of all frames.' })
  framePieces!: number;

  @Field(() => Int, { description: 'Fastenings through the shell.' })
  nails!: number;
}
