import { Organisation } from '@ribband/access';
import { IdColumn, Node, RefColumn, TextColumn } from '@ribband/platform';
import { Field, ID, ObjectType } from '@nestjs/graphql';
import { Entity, Unique } from 'typeorm';
import { type CardPurpose, CardPurposeEnum } from '../purposes/purposes.js';

/** One entry of the closed list of cards that an organisation asks for: first aid, fire watch, a machine. */
@ObjectType({
  implements: () => Node,
  description: 'A kind of card that work may ask for, such as first aid.',
})
@Entity('card_kind')
@Unique(['organisationId', 'ref'])
export class CardKind {
  @Field(() => ID, { description: 'Opaque.' })
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE', indexed: false })
  organisationId!: string;

  /** The key that yard documents use for it. */
  @TextColumn()
  ref!: string;

  @Field(() => String, { description: 'What the yard calls it.' })
  @TextColumn()
  name!: string;

  @Field(() => CardPurposeEnum, {
    nullable: true,
    description: 'What it is taken for; null for nothing that the gates go by.',
  })
  @TextColumn({ nullable: true })
  purpose!: CardPurpose | null;
}
