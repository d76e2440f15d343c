import { NamedHand } from '@ribband/crew';
import { DateTime } from '@ribband/platform';
import { Task } from '@ribband/repair';
import { Field, ID, InputType, Int, ObjectType } from '@nestjs/graphql';
import { LocalMomentInput, Written } from '../trail/trail.types.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';

@ObjectType({ description: 'The watch over a piece of hot work as somebody wrote it down.' })
export class FireWatchWritten extends Written {
  @Field(() => Int, { description: 'From 1, one more with each writing.' })
  version!: number;

  @Field(() => NamedHand, { nullable: true, description: 'Who watches; null where no hot work was done.' })
  watch!: NamedHand | null;

  @Field(() => String, { nullable: true, description: 'Why no hot work was done; null where it was.' })
  notLit!: string | null;

  @Field(() => DateTime, { nullable: true, description: 'When the last spark was; null while work goes on.' })
  lastSparkAt!: number | null;

  @Field(() => String, { nullable: true, description: 'Who looks again, or has.' })
  lookBy!: string | null;

  @Field(() => DateTime, { nullable: true, description: 'When they will; null once they have.' })
  lookDueAt!: number | null;

  @Field(() => DateTime, { nullable: true, description: 'When they did.' })
  lookedAt!: number | null;

  @Field(() => String, { nullable: true, description: 'What they found.' })
  found!: string | null;
}

@ObjectType('FireWatch', {
  description: 'A piece of hot work at a turnout and its watch. It never says that anything is safe.',
})
export class FireWatchType {
  @Field(() => TurnoutEntity, { description: 'At which turnout.' })
  turnout!: TurnoutEntity;

  @Field(() => Task, { description: 'The work.' })
  task!: Task;

  @Field(() => Int, { description: 'Minutes for which the watch stays after the last spark.' })
  minutes!: number;

  @Field(() => DateTime, {
    nullable: true,
    description: 'Before this the watch does not end; null while the last spark is not written down.',
  })
  staysUntil!: number | null;

  @Field(() => Boolean, {
    nullable: true,
    description:
      'Whether the watch’s card counts that day, for who leads the turnout and for the watch; null where nobody is named.',
  })
  hasCard!: boolean | null;

  @Field(() => [NamedHand], {
    description:
      'Who has a place on it and a card for the watch that counts that day, for who leads the turnout: everybody else reads it of themselves only. At most 20.',
  })
  couldWatch!: NamedHand[];

  @Field(() => String, { nullable: true, description: 'What is still missing, in words; null for nothing.' })
  missing!: string | null;

  @Field(() => Boolean, { description: 'Whether you may write it down.' })
  mayWrite!: boolean;

  @Field(() => [FireWatchWritten], {
    description: 'As it was written each time, the newest first; that one counts. At most 50.',
  })
  written!: FireWatchWritten[];
}

@InputType({ description: 'How the watch over a piece of hot work stands, all of it.' })
export class FireWatchInput {
  @Field(() => ID, { description: 'At which turnout.' })
  turnoutId!: string;

  @Field(() => ID, { description: 'Over which work.' })
  taskId!: string;

  @Field(() => Int, { description: 'The version that was read; 0 where nothing was written down.' })
  version!: number;

  @Field(() => ID, { nullable: true, description: 'Who watches.' })
  watchId?: string | null;

  @Field(() => String, {
    nullable: true,
    description: 'Why no hot work was done; leave it out where it was.',
  })
  notLit?: string | null;

  @Field(() => LocalMomentInput, { nullable: true, description: 'When the last spark was.' })
  lastSpark?: LocalMomentInput | null;

  @Field(() => String, { nullable: true, description: 'Who looks again, or has.' })
  lookBy?: string | null;

  @Field(() => LocalMomentInput, { nullable: true, description: 'When they will.' })
  lookDue?: LocalMomentInput | null;

  @Field(() => LocalMomentInput, { nullable: true, description: 'When they did.' })
  looked?: LocalMomentInput | null;

  @Field(() => String, { nullable: true, description: 'What they found.' })
  found?: string | null;

  @Field(() => String, { nullable: true, description: 'Why, where what was written before is changed.' })
  reason?: string | null;

  @Field(() => ID, {
    nullable: true,
    description: 'Your own for this press: asked again with the same key, the answer is the same.',
  })
  key?: string | null;
}

@ObjectType({ description: 'The watch as it is written down now.' })
export class FireWatchPayload {
  @Field(() => FireWatchType, { description: 'The watch.' })
  fireWatch!: FireWatchType;
}
