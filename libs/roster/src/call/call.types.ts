import { DateTime } from '@ribband/platform';
import { Task } from '@ribband/repair';
import { Field, ID, InputType, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import type { AttendanceWay } from '../attendance/attendance.entity.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';

const CameByEnum = { TICKED: 'ticked', BADGE: 'badge', PAPER: 'paper' } as const;
registerEnumType(CameByEnum, {
  name: 'CameBy',
  description: 'How it became known that somebody came.',
  valuesMap: {
    TICKED: { description: 'Ticked on the list.' },
    BADGE: { description: 'Read from a badge.' },
    PAPER: { description: 'Entered from the sheet on the wall.' },
  },
});

@InputType({ description: 'Somebody who came.' })
class CameInput {
  @Field(() => ID, { description: 'Who.' })
  volunteerId!: string;

  @Field(() => CameByEnum, { description: 'How that is known.' })
  how!: AttendanceWay;

  @Field(() => DateTime, {
    nullable: true,
    description: 'When they arrived, from three hours before it starts; left out for now.',
  })
  arrivedAt!: number | null;
}

@InputType({ description: 'Somebody who had a place and is not there.' })
class AwayInput {
  @Field(() => ID, { description: 'Who.' })
  volunteerId!: string;

  @Field(() => Boolean, {
    description: 'Whether they had said so, for whatever reason: then it counts against nothing.',
  })
  saidSo!: boolean;
}

@InputType({ description: 'Somebody’s seat on a piece of work.' })
class CalledSeatInput {
  @Field(() => ID, { description: 'Which task.' })
  taskId!: string;

  @Field(() => ID, { nullable: true, description: 'The skill of the seat; left out for a hand.' })
  skillId!: string | null;

  @Field(() => Int, { description: 'Least level in the skill, 1 to 4; 0 for a hand.' })
  level!: number;

  @Field(() => ID, { description: 'Who.' })
  volunteerId!: string;

  @Field(() => DateTime, { description: 'From when, inside the turnout.' })
  startsAt!: number;

  @Field(() => DateTime, { description: 'Until when, inside the turnout.' })
  endsAt!: number;
}

@InputType({ description: 'Posted work that is not done now.' })
class FallenInput {
  @Field(() => ID, { description: 'Which task.' })
  taskId!: string;

  @Field(() => String, { description: 'Why, as it was said.' })
  why!: string;
}

@InputType({ description: 'A turnout as it is called.' })
export class CallTurnoutInput {
  @Field(() => ID, { description: 'Which turnout.' })
  turnoutId!: string;

  @Field(() => Int, { description: 'Version of the last call that was read; 0 before the first.' })
  version!: number;

  @Field(() => [CameInput], { description: 'Who came; at most 300.' })
  present!: CameInput[];

  @Field(() => [AwayInput], { description: 'Who had a place and is not there; at most 300.' })
  absent!: AwayInput[];

  @Field(() => [String], { description: 'Names of visitors who are not in the crew’s list; at most 50.' })
  visitors!: string[];

  @Field(() => [CalledSeatInput], { description: 'Who does what; at most 500.' })
  seats!: CalledSeatInput[];

  @Field(() => [FallenInput], { description: 'Posted work that is not done, and why; at most 100.' })
  fallen!: FallenInput[];

  @Field(() => ID, {
    nullable: true,
    description: 'Your own for this press: asked again with the same key, the answer is the same.',
  })
  key?: string | null;
}

@ObjectType({ description: 'Posted work that is not done, and why.' })
export class FallenTask {
  @Field(() => Task, { description: 'The task.' })
  task!: Task;

  @Field(() => String, { description: 'Why, in words.' })
  why!: string;
}

@ObjectType({ description: 'A turnout as it was called in the morning.' })
export class TurnoutCall {
  @Field(() => Int, { description: 'Which call of this turnout, 1 for the first.' })
  version!: number;

  @Field(() => DateTime, { description: 'When, by the yard’s clock.' })
  calledAt!: number;

  @Field(() => String, { description: 'Name of who called it.' })
  calledBy!: string;

  @Field(() => [ID], { description: 'Who is there: ids of their entries in the crew’s list; at most 300.' })
  presentIds!: string[];

  @Field(() => [ID], { description: 'Who had a place and was not there; at most 300.' })
  absentIds!: string[];

  @Field(() => [String], { description: 'Visitors by name; at most 50.' })
  visitors!: string[];

  @Field(() => [FallenTask], { description: 'Posted work that was not done; at most 100.' })
  fallen!: FallenTask[];

  @Field(() => [String], { description: 'Seats that a gate did not give, in sentences; at most 500.' })
  turnedAway!: string[];
}

@ObjectType({ description: 'The turnout as it was called.' })
export class CallTurnoutPayload {
  @Field(() => TurnoutEntity, { description: 'The turnout, with the places of the morning.' })
  turnout!: TurnoutEntity;

  @Field(() => TurnoutCall, { description: 'The call as it is kept.' })
  call!: TurnoutCall;
}
