import { DateTime, LocalDate } from '@ribband/platform';
import { Field, ID, InputType, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import type { IncidentKind } from './incident.entity.js';

export const IncidentKindEnum = { NEAR_MISS: 'near-miss', HURT: 'hurt', DAMAGE: 'damage' } as const;
registerEnumType(IncidentKindEnum, {
  name: 'IncidentKind',
  description: 'What kind of thing happened.',
  valuesMap: {
    NEAR_MISS: { description: 'Nothing came of it, but could have.' },
    HURT: { description: 'Somebody was hurt.' },
    DAMAGE: { description: 'Something was damaged.' },
  },
});

@InputType({ description: 'What happened or nearly did, in three lines.' })
export class IncidentInput {
  @Field(() => IncidentKindEnum, { description: 'What kind of thing it was.' })
  kind!: IncidentKind;

  @Field(() => String, { description: 'What happened; 1 to 1000 characters.' })
  what!: string;

  @Field(() => String, { description: 'Where; 1 to 200 characters.' })
  place!: string;

  @Field(() => String, {
    nullable: true,
    description: 'Who was hurt or could have been; director and coordinator read it.',
  })
  who?: string | null;

  @Field(() => String, { nullable: true, description: 'A photograph, as for pictures of pieces.' })
  picture?: string | null;
}

@ObjectType({ description: 'Something that happened, or nearly did.' })
export class Incident {
  @Field(() => ID, { description: 'Opaque.' })
  id!: string;

  @Field(() => Int, { description: 'Raised by every change.' })
  version!: number;

  @Field(() => IncidentKindEnum, { description: 'What kind of thing it was.' })
  kind!: IncidentKind;

  @Field(() => String, { description: 'What happened.' })
  what!: string;

  @Field(() => String, { description: 'Where.' })
  place!: string;

  @Field(() => DateTime, { description: 'When it was reported, by the yard’s clock.' })
  reportedAt!: number;

  @Field(() => String, { description: 'Who reported it.' })
  reportedBy!: string;

  ownerId!: string | null;

  @Field(() => String, { nullable: true, description: 'What is to be done.' })
  followUp!: string | null;

  @Field(() => LocalDate, { nullable: true, description: 'Until when.' })
  dueOn!: string | null;

  @Field(() => DateTime, { nullable: true, description: 'When it was closed; null while it is open.' })
  closedAt!: number | null;

  @Field(() => String, { nullable: true, description: 'Who closed it.' })
  closedBy!: string | null;

  @Field(() => String, { nullable: true, description: 'What was done about it.' })
  outcome!: string | null;
}

@ObjectType({ description: 'The incident as it is now.' })
export class IncidentPayload {
  @Field(() => Incident, { description: 'The incident.' })
  incident!: Incident;
}

@ObjectType({ description: 'Somebody who is at the yard by the book.' })
export class StillThere {
  @Field(() => ID, { description: 'Who.' })
  volunteerId!: string;

  @Field(() => String, { description: 'Their name.' })
  name!: string;

  @Field(() => DateTime, { description: 'Since when.' })
  arrivedAt!: number;
}

@ObjectType({ description: 'What stands in the way of closing a turnout at a piece of hot work.' })
export class FireToClose {
  @Field(() => ID, { description: 'Which work.' })
  taskId!: string;

  @Field(() => String, { description: 'What it waits for.' })
  words!: string;

  @Field(() => Boolean, { description: 'Whether you may set it aside.' })
  mayOverride!: boolean;
}

@ObjectType({ description: 'A turnout that has no closing round yet.' })
export class RoundToDoType {
  @Field(() => TurnoutEntity, { description: 'The turnout.' })
  turnout!: TurnoutEntity;

  @Field(() => [String], { description: 'What is to be looked at; nothing after a watch. At most 40.' })
  items!: string[];

  @Field(() => [FireToClose], {
    description:
      'Hot work of which the watch’s time is not over or something is not written down; at most 50.',
  })
  fires!: FireToClose[];

  @Field(() => [StillThere], {
    description: 'Who is there by the book and to be accounted for; at most 200.',
  })
  there!: StillThere[];
}

@InputType({ description: 'One thing of the round.' })
export class RoundItemInput {
  @Field(() => String, { description: 'In the words of the list.' })
  words!: string;

  @Field(() => Boolean, { description: 'Whether it was seen to.' })
  isDone!: boolean;

  @Field(() => String, { nullable: true, description: 'Why not, or anything to know.' })
  note?: string | null;
}

@InputType({ description: 'That the record of a fire watch is missing, set aside in your name.' })
export class FireSetAsideInput {
  @Field(() => ID, { description: 'On which work.' })
  taskId!: string;

  @Field(() => String, { description: 'Why it may be, and what is done instead; 10 to 500 characters.' })
  reason!: string;
}

@ObjectType({ description: 'The turnout is closed.' })
export class ClosingRoundPayload {
  @Field(() => ID, { description: 'Which turnout.' })
  turnoutId!: string;

  @Field(() => String, { description: 'Who went round.' })
  closedBy!: string;
}

@ObjectType({ description: 'The list of the closing round.' })
export class ClosingListPayload {
  @Field(() => [String], { description: 'What is looked at; at most 40.' })
  items!: string[];
}
