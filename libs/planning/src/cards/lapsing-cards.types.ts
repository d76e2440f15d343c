import { CardKind, NamedHand } from '@ribband/crew';
import { DateTime, LocalDate } from '@ribband/platform';
import { Task } from '@ribband/repair';
import { TurnoutEntity } from '@ribband/roster';
import { Field, Int, ObjectType } from '@nestjs/graphql';

@ObjectType({
  description: 'A place after the card’s last day that asks for it, or where a gate goes by it.',
})
export class PlaceAfterCard {
  @Field(() => TurnoutEntity, { description: 'At which turnout.' })
  turnout!: TurnoutEntity;

  @Field(() => Task, { description: 'On which work.' })
  task!: Task;

  @Field(() => Boolean, {
    description:
      'Whether nobody else there is known to hold such a card that counts that day: for first aid at the turnout, for the watch over hot work on that work. Others may come, or bring a card.',
  })
  isOnly!: boolean;

  @Field(() => Boolean, {
    description:
      'Where it is so: whether others there hold one that does not count any more that day either.',
  })
  othersLapsed!: boolean;
}

@ObjectType({ description: 'Planned work after the card’s last day that asks for it.' })
export class WorkAfterCard {
  @Field(() => Task, { description: 'The work.' })
  task!: Task;

  @Field(() => DateTime, { description: 'When the plan begins it, or goes on with it.' })
  startsAt!: number;
}

@ObjectType({ description: 'A card that lapses soon or has lapsed, and what needs it after that.' })
export class LapsingCard {
  @Field(() => NamedHand, { description: 'Whose.' })
  hand!: NamedHand;

  @Field(() => CardKind, { description: 'Which kind.' })
  kind!: CardKind;

  @Field(() => LocalDate, { description: 'Last day on which it counts.' })
  expiresOn!: string;

  @Field(() => Boolean, { description: 'Whether that day is over.' })
  hasLapsed!: boolean;

  @Field(() => [PlaceAfterCard], {
    description: 'Places to come that they are posted to or have taken, after it; at most 50.',
  })
  places!: PlaceAfterCard[];

  @Field(() => [WorkAfterCard], {
    description: 'Planned work after it that they could do with the card, the earliest first; at most 5.',
  })
  work!: WorkAfterCard[];

  @Field(() => Int, { description: 'How much such work there is, all of it.' })
  workCount!: number;
}
