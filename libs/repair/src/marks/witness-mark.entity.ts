import { Organisation } from '@ribband/access';
import {
  IdColumn,
  InstantColumn,
  IntegerColumn,
  Node,
  OneOfColumn,
  RefColumn,
  TextColumn,
} from '@ribband/platform';
import { Field, ID, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { Entity, Unique } from 'typeorm';

export const markKinds = ['breadth', 'keel', 'sheer', 'other'] as const;
export type MarkKind = (typeof markKinds)[number];

export const MarkKindEnum = { BREADTH: 'breadth', KEEL: 'keel', SHEER: 'sheer', OTHER: 'other' } as const;
registerEnumType(MarkKindEnum, {
  name: 'WitnessMarkKind',
  description: 'What is measured at a witness mark.',
  valuesMap: {
    BREADTH: { description: 'A breadth from side to side.' },
    KEEL: { description: 'A height of the keel line.' },
    SHEER: { description: 'A height of the sheer.' },
    OTHER: { description: 'Any other distance.' },
  },
});

/** A distance that is measured again and again, to see whether the hull keeps her shape while she is open. */
@ObjectType({
  implements: () => Node,
  description: 'A distance that is measured again and again: whether the hull keeps her shape.',
})
@Entity('witness_mark')
@Unique(['organisationId', 'ref'])
export class WitnessMark {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  /** The key that yard documents use. */
  @TextColumn()
  ref!: string;

  @Field(() => String, { description: 'What is measured and where.' })
  @TextColumn()
  name!: string;

  @Field(() => MarkKindEnum, { description: 'What kind of distance.' })
  @OneOfColumn(markKinds)
  kind!: MarkKind;

  @Field(() => Int, { nullable: true, description: 'The frame at which it lies, counted from the stem.' })
  @IntegerColumn({ nullable: true })
  frame!: number | null;

  @Field(() => Int, { description: 'It is read again after so many days.' })
  @IntegerColumn()
  everyDays!: number;

  @InstantColumn()
  madeAt!: number;
}
