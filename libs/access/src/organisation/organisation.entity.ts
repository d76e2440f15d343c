import {
  FlagColumn,
  IdColumn,
  OneOfColumn,
  RealColumn,
  TextColumn,
  VersionColumn,
  Node,
} from '@ribband/platform';
import { Field, Float, ID, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { Entity } from 'typeorm';

export const unitSystems = ['imperial', 'metric'] as const;
export type UnitSystem = (typeof unitSystems)[number];

const UnitSystemEnum = { IMPERIAL: 'imperial', METRIC: 'metric' } as const;

registerEnumType(UnitSystemEnum, {
  name: 'UnitSystem',
  description: 'How lengths and weights are shown.',
  valuesMap: {
    IMPERIAL: { description: 'Feet, inches and pounds.' },
    METRIC: { description: 'Millimetres and kilograms.' },
  },
});

/** A yard: the people who restore a vessel together, and everything that is theirs. */
@ObjectType({
  implements: () => [Node],
  description: 'A yard: the people who restore a vessel together, and everything that is theirs.',
})
@Entity('organisation')
export class Organisation {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @Field(() => Int, { description: 'Raised by each edit.' })
  @VersionColumn()
  version!: number;

  @Field(() => String, { description: 'What the yard calls itself.' })
  @TextColumn()
  name!: string;

  /** How the page shows lengths and weights; they are kept in millimetres and kilograms. */
  @Field(() => UnitSystemEnum, { description: 'How the page shows lengths and weights.' })
  @OneOfColumn(unitSystems)
  units!: UnitSystem;

  /** The odds, 0 to 1, with which the crew of a piece of work shall turn up. */
  @Field(() => Float, {
    description: 'The odds, 0 to 1, with which the crew of a piece of work shall turn up.',
  })
  @RealColumn()
  crewOddsWish!: number;

  /** Whether this is the invented yard that comes with the program. */
  @Field(() => Boolean, { description: 'Whether this is the invented yard that comes with the program.' })
  @FlagColumn()
  isDemo!: boolean;
}
