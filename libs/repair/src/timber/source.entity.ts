import { Organisation } from '@ribband/access';
import {
  DayColumn,
  IdColumn,
  LocalDate,
  OneOfColumn,
  RefColumn,
  TextColumn,
  VersionColumn,
} from '@ribband/platform';
import { Field, ID, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { Entity } from 'typeorm';

export const sourceKinds = ['bought', 'gift', 'own stock'] as const;
export type SourceKind = (typeof sourceKinds)[number];

export const SourceKindEnum = { BOUGHT: 'bought', GIFT: 'gift', OWN_STOCK: 'own stock' } as const;
registerEnumType(SourceKindEnum, {
  name: 'TimberSourceKind',
  description: 'How timber came to the yard.',
  valuesMap: {
    BOUGHT: { description: 'Paid for.' },
    GIFT: { description: 'Given; somebody is to be thanked.' },
    OWN_STOCK: { description: 'Had already.' },
  },
});

@ObjectType({ description: 'Who timber comes from.' })
@Entity('timber_source')
export class TimberSource {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @Field(() => Int, { description: 'Rises with each edit.' })
  @VersionColumn()
  version!: number;

  @Field(() => String, { description: 'Who they are.' })
  @TextColumn()
  name!: string;

  @Field(() => SourceKindEnum, { description: 'How it came.' })
  @OneOfColumn(sourceKinds)
  kind!: SourceKind;

  @Field(() => String, { nullable: true, description: 'What to know about them: place, whom to ring.' })
  @TextColumn({ nullable: true })
  note!: string | null;

  @Field(() => LocalDate, { nullable: true, description: 'When they were thanked; null while that is due.' })
  @DayColumn({ nullable: true })
  thankedOn!: string | null;

  @Field(() => String, { nullable: true, description: 'Who thanked them.' })
  @TextColumn({ nullable: true })
  thankedBy!: string | null;
}
