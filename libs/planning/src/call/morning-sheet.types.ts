import { NamedHand } from '@ribband/crew';
import { DateTime } from '@ribband/platform';
import { Caution, type CautionLine, Task } from '@ribband/repair';
import { TurnoutEntity } from '@ribband/roster';
import { Field, ID, Int, ObjectType } from '@nestjs/graphql';

@ObjectType({ description: 'Somebody on the morning sheet.' })
export class MorningPerson {
  @Field(() => NamedHand, { description: 'Who.' })
  hand!: NamedHand;

  @Field(() => Int, { description: 'Number on the printed sheet; those who are expected come first.' })
  number!: number;

  @Field(() => String, { description: 'Code of the badge.' })
  code!: string;

  @Field(() => Boolean, { description: 'Whether a place names them, or they stand by.' })
  expected!: boolean;

  @Field(() => Boolean, { description: 'Known to be 18 or older on the day.' })
  isKnownAdult!: boolean;

  @Field(() => Boolean, { description: 'Known to be under 18 on the day.' })
  isMinor!: boolean;

  @Field(() => Boolean, { description: 'Holds a first-aid card that counts on the day.' })
  isFirstAider!: boolean;
}

@ObjectType({ description: 'A seat that must be filled before work may start.' })
export class MorningSeatKind {
  @Field(() => ID, { description: 'The skill.' })
  skillId!: string;

  @Field(() => String, { description: 'Its name.' })
  skillName!: string;

  @Field(() => Int, { description: 'Least level, 1 to 4.' })
  level!: number;

  @Field(() => Int, { description: 'How many of them.' })
  count!: number;
}

@ObjectType({ description: 'A role on an all-hands day, and who has it.' })
export class MorningRole {
  @Field(() => String, { description: 'What its holder does.' })
  role!: string;

  @Field(() => ID, { nullable: true, description: 'Who is posted to it; null while it stands open.' })
  volunteerId!: string | null;
}

@ObjectType({ description: 'The fire watch that hot work has.' })
export class MorningWatch {
  @Field(() => [Int], {
    description: 'Seats whose holder may be the watch, by their place in the list; a hand may be it as well.',
  })
  seats!: number[];
}

@ObjectType({
  description: 'What the gates say of one person on one task, before it is known who else is there.',
})
export class MorningVerdict {
  @Field(() => ID, { description: 'Who.' })
  volunteerId!: string;

  @Field(() => Boolean, { description: 'Whether nothing on record keeps them from it as a hand.' })
  mayAsHand!: boolean;

  @Field(() => [Int], { description: 'Which of its seats they may fill, by their place in its list.' })
  seats!: number[];

  @Field(() => String, { nullable: true, description: 'What keeps them from it as a hand.' })
  why!: string | null;

  @Field(() => Boolean, { description: 'Learns the work: needs somebody beside them who works alone.' })
  learns!: boolean;

  @Field(() => Boolean, { description: 'Holds a card of a hot-work watch that counts on the day.' })
  mayWatch!: boolean;

  @Field(() => Boolean, { description: 'Works alone in a skill of it: may have a learner beside them.' })
  worksAlone!: boolean;
}

@ObjectType({ description: 'A posted piece of work on the morning sheet.' })
export class MorningWork {
  @Field(() => Task, { description: 'The task.' })
  task!: Task;

  @Field(() => DateTime, { description: 'From when.' })
  startsAt!: number;

  @Field(() => DateTime, { description: 'Until when.' })
  endsAt!: number;

  @Field(() => String, { nullable: true, description: 'Why nobody may be on it, whoever comes.' })
  closed!: string | null;

  @Field(() => [Caution], { description: 'What to read before starting; at most 50.' })
  cautions!: CautionLine[];

  @Field(() => [String], {
    description: 'Stops that a named authority has set aside for somebody on it, in sentences; at most 50.',
  })
  setAside!: string[];

  @Field(() => [ID], { description: 'Who is posted to it; at most 50.' })
  postedIds!: string[];

  @Field(() => [MorningRole], { description: 'Who does what on an all-hands day, else none; at most 60.' })
  roles!: MorningRole[];

  @Field(() => [MorningSeatKind], { description: 'Seats that must all be filled; at most 20.' })
  seats!: MorningSeatKind[];

  @Field(() => Int, { description: 'How many carry its heaviest piece; 1 where none is to be carried.' })
  carriers!: number;

  @Field(() => MorningWatch, {
    nullable: true,
    description: 'Its fire watch; null where the work is not hot.',
  })
  watch!: MorningWatch | null;

  @Field(() => [MorningVerdict], { description: 'One for everybody in the crew; at most 300.' })
  verdicts!: MorningVerdict[];
}

@ObjectType({
  description: 'What a phone keeps of a morning, so that the turnout can be called without a line.',
})
export class MorningSheet {
  @Field(() => TurnoutEntity, { description: 'The turnout.' })
  turnout!: TurnoutEntity;

  @Field(() => DateTime, { description: 'When it was made, by the yard’s clock.' })
  madeAt!: number;

  @Field(() => Int, { description: 'State of the records that it was made from.' })
  revision!: number;

  @Field(() => Int, { description: 'Hours after which it is not used any more.' })
  staleHours!: number;

  @Field(() => Boolean, {
    description: 'Whether nobody works while nobody who is there holds a first-aid card.',
  })
  asksFirstAider!: boolean;

  @Field(() => Int, { description: 'Version of the last call of the turnout; 0 before the first.' })
  callVersion!: number;

  @Field(() => [MorningPerson], { description: 'The whole crew, those who are expected first; at most 300.' })
  people!: MorningPerson[];

  @Field(() => [MorningWork], { description: 'The posted work; at most 100.' })
  work!: MorningWork[];
}

@ObjectType({ description: 'A badge to print.' })
export class Badge {
  @Field(() => NamedHand, { description: 'Whose.' })
  hand!: NamedHand;

  @Field(() => String, { description: 'The code, to be keyed where no camera is.' })
  code!: string;

  @Field(() => [String], { description: 'The square: rows of 1 and 0.' })
  square!: string[];
}
