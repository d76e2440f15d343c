import { Organisation } from '@ribband/access';
import { IdColumn, IntegerColumn, RealColumn, RefColumn, TextColumn, VersionColumn } from '@ribband/platform';
import { Field, Float, Int, ObjectType } from '@nestjs/graphql';
import { Entity } from 'typeorm';
import { HaulOut } from '../haul-out/haul-out.entity.js';

/** What the timber book reckons with, each a default that is changed with a name and a written reason. */
@ObjectType({ description: 'What the timber book reckons with.' })
@Entity('timber_settings')
export class TimberSettings {
  @IdColumn()
  id!: string;

  @RefColumn(() => HaulOut, { onDelete: 'CASCADE' })
  haulOutId!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @Field(() => Int, { description: 'Rises with each edit; 0 while the defaults hold.' })
  @VersionColumn()
  version!: number;

  @Field(() => Float, { description: 'Air where the stock lies, in degrees Fahrenheit.' })
  @RealColumn()
  fahrenheit!: number;

  @Field(() => Float, { description: 'Relative humidity there, 0 to 1.' })
  @RealColumn()
  humidity!: number;

  @Field(() => Float, { description: 'Planking is hung at this moisture or below, in percent.' })
  @RealColumn()
  plankingPercent!: number;

  @Field(() => Float, {
    nullable: true,
    description: 'Frames are sawn at this moisture or below; null for any.',
  })
  @RealColumn({ nullable: true })
  framesPercent!: number | null;

  @Field(() => Float, { description: 'Share of a log’s diameter that is sound.' })
  @RealColumn()
  usableShare!: number;

  @Field(() => Float, { description: 'Weight in pounds a cubic foot.' })
  @RealColumn()
  poundsACubicFoot!: number;

  @Field(() => Int, { description: 'What bevel and saw need round a pattern, in millimetres.' })
  @IntegerColumn()
  sawMarginMillimetres!: number;

  @Field(() => Float, { description: 'Greatest slope of grain along a piece: 0.125 is 1 in 8.' })
  @RealColumn()
  grainRunOut!: number;

  @Field(() => Int, { description: 'How long stock that is not found yet takes to come, in days.' })
  @IntegerColumn()
  leadDays!: number;

  @Field(() => String, { nullable: true, description: 'Who changed them last.' })
  @TextColumn({ nullable: true })
  changedBy!: string | null;

  @Field(() => String, { nullable: true, description: 'Why.' })
  @TextColumn({ nullable: true })
  changedReason!: string | null;
}
