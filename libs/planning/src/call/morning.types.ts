import { NamedHand, Skill } from '@ribband/crew';
import { DateTime } from '@ribband/platform';
import { Task } from '@ribband/repair';
import { FallenTask, TurnoutEntity } from '@ribband/roster';
import { Field, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import type { SeatedHow } from './mornings.service.js';

const SeatedHowEnum = { AS_POSTED: 'as posted', MOVED: 'moved', WALKED_IN: 'walked in' } as const;
registerEnumType(SeatedHowEnum, {
  name: 'SeatedHow',
  description: 'How somebody came to a seat of the morning.',
  valuesMap: {
    AS_POSTED: { description: 'Was posted to this work.' },
    MOVED: { description: 'Was posted to other work.' },
    WALKED_IN: { description: 'Was posted to nothing at this turnout.' },
  },
});

@ObjectType({ description: 'Somebody’s seat as it would be called.' })
export class CalledHand {
  @Field(() => NamedHand, { description: 'Who.' })
  hand!: NamedHand;

  @Field(() => Skill, { nullable: true, description: 'The skill of the seat; null for a hand.' })
  skill!: Skill | null;

  @Field(() => Int, { description: 'Least level in the skill; 0 for a hand.' })
  level!: number;

  @Field(() => String, { nullable: true, description: 'What they do on an all-hands day; else null.' })
  role!: string | null;

  @Field(() => SeatedHowEnum, { description: 'How they came to it.' })
  how!: SeatedHow;

  @Field(() => DateTime, { description: 'From when.' })
  startsAt!: number;

  @Field(() => DateTime, { description: 'Until when.' })
  endsAt!: number;
}

@ObjectType({ description: 'A piece of work as it would be called.' })
export class CalledWorkModel {
  @Field(() => Task, { description: 'The task.' })
  task!: Task;

  @Field(() => [CalledHand], { description: 'Who is on it; at most 50.' })
  crew!: CalledHand[];

  @Field(() => [String], { description: 'What to read before starting; at most 50.' })
  cautions!: string[];

  @Field(() => [String], {
    description: 'Stops that a named authority has set aside for those on it, in sentences; at most 50.',
  })
  setAside!: string[];
}

@ObjectType({
  description: 'A turnout as it would be called with exactly these people. Nothing of it is kept.',
})
export class MorningModel {
  @Field(() => TurnoutEntity, { description: 'The turnout.' })
  turnout!: TurnoutEntity;

  @Field(() => Int, { description: 'Version of the last call; 0 before the first. Confirm with it.' })
  version!: number;

  @Field(() => [CalledWorkModel], { description: 'The work, in order of time; at most 100.' })
  work!: CalledWorkModel[];

  @Field(() => [FallenTask], { description: 'Posted work that falls away, and why; at most 100.' })
  fallen!: FallenTask[];

  @Field(() => [NamedHand], { description: 'Who is here and has no work; at most 300.' })
  idle!: NamedHand[];

  @Field(() => [String], {
    description: 'Learners who are here and whose teacher is not on the work, in sentences; at most 100.',
  })
  learners!: string[];

  @Field(() => DateTime, { nullable: true, description: 'When she is ready, all going on as expected.' })
  readyAt!: number | null;
}
