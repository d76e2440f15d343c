import { Organisation } from '@ribband/access';
import { IdColumn, IntegerColumn, Node, RefColumn, TextColumn } from '@ribband/platform';
import { Field, ID, Int, ObjectType } from '@nestjs/graphql';
import { Entity } from 'typeorm';

/** The vessel that is restored. Lengths in whole millimetres. */
@ObjectType({ implements: () => Node, description: 'The vessel that is restored.' })
@Entity('vessel')
export class Vessel {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @Field(() => String, { description: 'Her name.' })
  @TextColumn()
  name!: string;

  @Field(() => String, { nullable: true, description: 'How she is rigged or what she was built for.' })
  @TextColumn({ nullable: true })
  rig!: string | null;

  @Field(() => Int, { nullable: true, description: 'Year in which she was built.' })
  @IntegerColumn({ nullable: true })
  builtYear!: number | null;

  @Field(() => Int, { nullable: true, description: 'Length on deck in millimetres.' })
  @IntegerColumn({ nullable: true })
  lengthMillimetres!: number | null;

  @Field(() => Int, { nullable: true, description: 'Greatest beam in millimetres.' })
  @IntegerColumn({ nullable: true })
  beamMillimetres!: number | null;

  @Field(() => Int, { nullable: true, description: 'Draft in millimetres.' })
  @IntegerColumn({ nullable: true })
  draftMillimetres!: number | null;

  @Field(() => Int, { nullable: true, description: 'How many frames, counted from the stem.' })
  @IntegerColumn({ nullable: true })
  frameCount!: number | null;

  @Field(() => Int, { nullable: true, description: 'How many strakes a side, counted from the keel.' })
  @IntegerColumn({ nullable: true })
  strakeCount!: number | null;

  @Field(() => Int, {
    nullable: true,
    description: 'From the centre of a frame to the next, in millimetres.',
  })
  @IntegerColumn({ nullable: true })
  roomAndSpaceMillimetres!: number | null;
}
