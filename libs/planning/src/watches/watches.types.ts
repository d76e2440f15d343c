import { NamedHand, Skill } from '@ribband/crew';
import { TurnoutEntity } from '@ribband/roster';
import { Field, ID, InputType, Int, ObjectType } from '@nestjs/graphql';

@ObjectType({ description: 'A place on a watch or an all-hands day, with whom it would be given to.' })
export class WatchPlaceModel {
  @Field(() => ID, { description: 'The place.' })
  placeId!: string;

  @Field(() => String, {
    nullable: true,
    description: 'What its holder does on an all-hands day; else null.',
  })
  role!: string | null;

  @Field(() => Skill, { nullable: true, description: 'The skill that it asks for; null for a hand.' })
  skill!: Skill | null;

  @Field(() => Int, { description: 'Least level in the skill; 0 for a hand.' })
  level!: number;

  @Field(() => Boolean, { description: 'Whether somebody has said yes.' })
  taken!: boolean;

  @Field(() => NamedHand, { nullable: true, description: 'Who; null where nobody is left for it.' })
  hand!: NamedHand | null;

  @Field(() => String, { nullable: true, description: 'Why this person.' })
  why!: string | null;

  @Field(() => [NamedHand], { description: 'Who else could be asked; at most 200.' })
  could!: NamedHand[];
}

@ObjectType('ProposedWatch', { description: 'A watch, or an all-hands day, with who would be on it.' })
export class ProposedWatchModel {
  @Field(() => TurnoutEntity, { description: 'The watch, or the day.' })
  turnout!: TurnoutEntity;

  @Field(() => [WatchPlaceModel], { description: 'Its places, those for a skill first; at most 60.' })
  places!: WatchPlaceModel[];

  @Field(() => [String], { description: 'What must be seen to before it; at most 10.' })
  notices!: string[];
}

@InputType({ description: 'Who is asked to a place on a watch or an all-hands day.' })
export class WatchHandInput {
  @Field(() => ID, { description: 'The place.' })
  placeId!: string;

  @Field(() => ID, { nullable: true, description: 'Who; null leaves it open.' })
  volunteerId?: string | null;
}

@ObjectType({ description: 'Watches, or all-hands days, as they were posted.' })
export class PostWatchesPayload {
  @Field(() => [TurnoutEntity], { description: 'Which, in order of time; at most 168.' })
  watches!: TurnoutEntity[];

  @Field(() => [String], {
    description:
      'Whom a gate did not let in, what is not posted because the hull must wait, and why; at most 600.',
  })
  turnedAway!: string[];
}
