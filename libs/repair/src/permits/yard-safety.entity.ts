import { Organisation } from '@ribband/access';
import type { AgeTable } from '@ribband/crew';
import { IdColumn, IntegerColumn, JsonColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Field, Int, ObjectType } from '@nestjs/graphql';
import { Entity, Unique } from 'typeorm';

/** What an organisation sets for itself among the gates. */
@ObjectType({ description: 'What the organisation has set for itself.' })
@Entity('yard_safety')
@Unique(['organisationId'])
export class YardSafety {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  @Field(() => Int, {
    nullable: true,
    description: 'Noise reduction rating of the ear protection that the yard hands out, dB; null: none.',
  })
  @IntegerColumn({ nullable: true })
  protectorsRating!: number | null;

  @JsonColumn({ nullable: true })
  ages!: AgeTable | null;

  @Field(() => String, { nullable: true, description: 'Why the ages are not the usual ones.' })
  @TextColumn({ nullable: true })
  agesReason!: string | null;

  @Field(() => String, { nullable: true, description: 'Who set them.' })
  @TextColumn({ nullable: true })
  agesBy!: string | null;
}
