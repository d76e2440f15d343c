import { LocalDate } from '@ribband/platform';
import { Field, ID, ObjectType } from '@nestjs/graphql';

@ObjectType({ description: 'A card that somebody has shown.' })
export class Card {
  @Field(() => ID, { description: 'Opaque.' })
  id!: string;

  organisationId!: string;

  kindId!: string;

  @Field(() => String, { description: 'Who issued it.' })
  issuer!: string;

  @Field(() => LocalDate, {
    nullable: true,
    description: 'Last day on which it counts; null when it does not lapse.',
  })
  expiresOn!: string | null;
}
