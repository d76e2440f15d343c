import { Organisation } from '@ribband/access';
import { IdColumn, IntegerColumn, JsonColumn, Node, RefColumn, TextColumn } from '@ribband/platform';
import { Field, ID, Int, ObjectType } from '@nestjs/graphql';
import { Entity, Unique } from 'typeorm';

/** How many fastenings an element has at one frame. */
export interface FrameCount {
  frame: number;
  inPlace: number;
}

/** Where the fastenings of one plank, or the bolts of one frame, are kept from the wood and back into it. */
@ObjectType({
  implements: () => Node,
  description: 'Where the fastenings of one element are kept, each to go back to its own hole.',
})
@Entity('tray')
@Unique(['organisationId', 'ref'])
export class Tray {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  /** The key that yard documents use. */
  @TextColumn()
  ref!: string;

  @Field(() => String, { description: 'What stands on the tray, such as S9A.' })
  @TextColumn()
  name!: string;

  /** Key of the hull's element whose fastenings it holds. */
  @TextColumn()
  elementKey!: string;

  @Field(() => String, { description: 'Where they come from, in words.' })
  @TextColumn()
  place!: string;

  @Field(() => String, {
    description: 'What lies in it, such as plank nails; trays of one kind make up a lot.',
  })
  @TextColumn()
  fastening!: string;

  @Field(() => Int, { description: 'How many fastenings the element had.' })
  @IntegerColumn()
  inPlace!: number;

  /** By frame, forward first; empty where the hull's model does not say. */
  @JsonColumn()
  frames!: FrameCount[];

  /** Refs of the tasks at which they come out and go back: their tallies and the tray's entries are one. */
  @TextColumn({ nullable: true })
  pullRef!: string | null;

  @TextColumn({ nullable: true })
  driveRef!: string | null;
}
