import { Organisation } from '@ribband/access';
import { IdColumn, IntegerColumn, Node, OneOfColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Field, ID, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { Entity, Unique } from 'typeorm';

const elementKinds = ['frame', 'plank', 'ceiling', 'floor', 'deck', 'other'] as const;
export type ElementKind = (typeof elementKinds)[number];
const sides = ['port', 'starboard'] as const;
export type Side = (typeof sides)[number];

const ElementKindEnum = {
  FRAME: 'frame',
  PLANK: 'plank',
  CEILING: 'ceiling',
  FLOOR: 'floor',
  DECK: 'deck',
  OTHER: 'other',
} as const;
registerEnumType(ElementKindEnum, {
  name: 'HullElementKind',
  description: 'What kind of piece of the hull.',
  valuesMap: {
    FRAME: { description: 'A frame: a rib of the hull.' },
    PLANK: { description: 'A plank of the outer skin.' },
    CEILING: { description: 'Inner planking.' },
    FLOOR: { description: 'A timber across the keel.' },
    DECK: { description: 'A part of the deck.' },
    OTHER: { description: 'Anything else that can be open or shut.' },
  },
});

export const SideEnum = { PORT: 'port', STARBOARD: 'starboard' } as const;
registerEnumType(SideEnum, {
  name: 'Side',
  description: 'Which side of the hull, looking forward.',
  valuesMap: { PORT: { description: 'Left.' }, STARBOARD: { description: 'Right.' } },
});

/** A piece of the hull that is open from the task that takes it off to the one that closes it. */
@ObjectType({ implements: () => Node, description: 'A piece of the hull that work opens and closes again.' })
@Entity('hull_element')
@Unique(['organisationId', 'ref'])
export class HullElement {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  /** The key that yard documents use. */
  @TextColumn()
  ref!: string;

  @Field(() => String, { description: 'What the yard calls it.' })
  @TextColumn()
  name!: string;

  @Field(() => ElementKindEnum, { description: 'What kind of piece.' })
  @OneOfColumn(elementKinds)
  kind!: ElementKind;

  @Field(() => SideEnum, {
    nullable: true,
    description: 'Its side; null where it lies on both or on the middle.',
  })
  @OneOfColumn(sides, { nullable: true })
  side!: Side | null;

  @Field(() => Int, { nullable: true, description: 'The frame at which it lies, counted from the stem.' })
  @IntegerColumn({ nullable: true })
  frame!: number | null;

  @Field(() => Int, { nullable: true, description: 'The strake in which it lies, counted from the keel.' })
  @IntegerColumn({ nullable: true })
  strake!: number | null;
}
