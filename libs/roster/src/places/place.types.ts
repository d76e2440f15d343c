import { NamedHand } from '@ribband/crew';
import { Caution } from '@ribband/repair';
import { Field, ID, ObjectType } from '@nestjs/graphql';
import { PlaceEntity } from './place.entity.js';

@ObjectType({ description: 'A place that you are permitted to take.' })
export class OpenPlace {
  @Field(() => PlaceEntity, { description: 'The place.' })
  place!: PlaceEntity;

  @Field(() => [NamedHand], { description: 'Who is on the same work then, by first names; at most 50.' })
  alongside!: NamedHand[];

  @Field(() => [String], { description: 'Why this place more than another; at most 5.' })
  useful!: string[];

  @Field(() => Boolean, {
    description: 'Whether somebody left it and you stand by then: you are asked first.',
  })
  standsBy!: boolean;

  @Field(() => [Caution], { description: 'What to read first; at most 50.' })
  cautions!: Caution[];
}

@ObjectType({ description: 'The place as it was taken.' })
export class TakePlacePayload {
  @Field(() => PlaceEntity, { description: 'The place, now yours.' })
  place!: PlaceEntity;
}

@ObjectType({ description: 'The place as it was left.' })
export class LeavePlacePayload {
  @Field(() => PlaceEntity, { description: 'The place; an open one stands beside it.' })
  place!: PlaceEntity;
}

@ObjectType({ description: 'The roster has changed: look again.' })
export class RosterChanged {
  @Field(() => [ID], { description: 'Turnouts that changed; none named means look at all. At most 100.' })
  turnoutIds!: string[];
}
