import { DateTime, LocalDate, LocalTime } from '@ribband/platform';
import { Field, ID, InputType, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import type { HourWay } from './hour-entry.entity.js';

const HourWayEnum = {
  SELF: 'self',
  COORDINATOR: 'coordinator',
  PAPER: 'paper',
  ADJUSTMENT: 'adjustment',
} as const;
registerEnumType(HourWayEnum, {
  name: 'HourWay',
  description: 'How hours came into the book.',
  valuesMap: {
    SELF: { description: 'They signed on themselves.' },
    COORDINATOR: { description: 'Somebody signed them on.' },
    PAPER: { description: 'Entered afterwards.' },
    ADJUSTMENT: { description: 'Adds to hours of a closed period, or takes from them.' },
  },
});

@ObjectType({ description: 'What an entry said before it was corrected.' })
export class HoursBefore {
  @Field(() => ID, { description: 'Opaque.' })
  id!: string;

  @Field(() => DateTime, { nullable: true, description: 'From when.' })
  startsAt!: number | null;

  @Field(() => DateTime, { nullable: true, description: 'Until when.' })
  endsAt!: number | null;

  @Field(() => String, { description: 'Who entered it.' })
  enteredBy!: string;

  @Field(() => DateTime, { description: 'When it was entered.' })
  enteredAt!: number;
}

/** The fields that need no look-up; the others are resolved. */
@ObjectType({ description: 'Time that one person gave to one piece of work on one day.' })
export class HoursEntry {
  @Field(() => ID, { description: 'Opaque.' })
  id!: string;

  volunteerId!: string;
  taskId!: string | null;
  kindId!: string;

  @Field(() => LocalDate, { name: 'on', description: 'The day at the yard.' })
  workedOn!: string;

  @Field(() => DateTime, { nullable: true, description: 'From when; null for an adjustment.' })
  startsAt!: number | null;

  @Field(() => DateTime, { nullable: true, description: 'Until when; null while signed on.' })
  endsAt!: number | null;

  @Field(() => Int, {
    nullable: true,
    description: 'Minutes; null while signed on, below 0 in an adjustment.',
  })
  minutes!: number | null;

  @Field(() => HourWayEnum, { description: 'How it came into the book.' })
  way!: HourWay;

  @Field(() => String, { nullable: true, description: 'Anything to know about it.' })
  note!: string | null;

  @Field(() => String, { description: 'Who entered it.' })
  enteredBy!: string;

  @Field(() => String, { nullable: true, description: 'Who signed off, or "the roll".' })
  endedBy!: string | null;

  @Field(() => String, { nullable: true, description: 'Why it was corrected or adjusted.' })
  reason!: string | null;

  @Field(() => Boolean, { description: 'Whether its day is closed: then only an adjustment puts it right.' })
  isClosed!: boolean;

  @Field(() => [HoursBefore], { description: 'What it said before, newest first; at most 50.' })
  before!: HoursBefore[];

  @Field(() => ID, {
    nullable: true,
    description: 'The grant that it counts for; null for none, and to volunteers.',
  })
  claimedBy!: string | null;
}

@ObjectType({ description: 'Hours in the book.' })
export class HoursPayload {
  @Field(() => [HoursEntry], { description: 'The entries that were made; at most 200.' })
  entries!: HoursEntry[];
}

@InputType({ description: 'Hours of one person as they stand on paper.' })
export class HoursLineInput {
  @Field(() => ID, { description: 'Whose.' })
  volunteerId!: string;

  @Field(() => ID, { nullable: true, description: 'On which task; left out for work on none.' })
  taskId?: string | null;

  @Field(() => LocalDate, { description: 'The day.' })
  on!: string;

  @Field(() => LocalTime, { description: 'From when.' })
  from!: string;

  @Field(() => LocalTime, { description: 'Until when; before the start means the next morning.' })
  to!: string;

  @Field(() => ID, { nullable: true, description: 'Which kind of work; left out for that of the seat.' })
  kindId?: string | null;

  @Field(() => String, { nullable: true, description: 'Anything to know about it.' })
  note?: string | null;
}

@InputType({ description: 'What an entry should have said.' })
export class RightHoursInput {
  @Field(() => LocalTime, { description: 'From when, on the same day.' })
  from!: string;

  @Field(() => LocalTime, { description: 'Until when; before the start means the next morning.' })
  to!: string;

  @Field(() => ID, { nullable: true, description: 'On which task; left out for work on none.' })
  taskId?: string | null;

  @Field(() => ID, { nullable: true, description: 'Which kind of work; left out for the one it was.' })
  kindId?: string | null;
}

@ObjectType({ description: 'A line of the paper form, filled in with what is known.' })
export class HoursSheetLine {
  @Field(() => ID, { description: 'Who.' })
  volunteerId!: string;

  @Field(() => String, { description: 'Their name.' })
  name!: string;

  @Field(() => ID, { nullable: true, description: 'The task of their place.' })
  taskId!: string | null;

  @Field(() => LocalTime, { description: 'When they came, else when the turnout starts.' })
  from!: string;

  @Field(() => LocalTime, { description: 'When they left, else when the turnout ends.' })
  to!: string;

  @Field(() => Boolean, { description: 'Whether it is known that they came.' })
  came!: boolean;

  @Field(() => Boolean, { description: 'Whether hours of this turnout are in the book already.' })
  hasHours!: boolean;
}

@ObjectType({ description: 'So many minutes of something.' })
export class NamedMinutes {
  @Field(() => String, { description: 'Of what.' })
  name!: string;

  @Field(() => Int, { description: 'Minutes.' })
  minutes!: number;
}

@ObjectType({ description: 'A letter to somebody with the hours that they gave.' })
export class HoursLetterType {
  @Field(() => String, { description: 'Who writes it.' })
  organisation!: string;

  @Field(() => String, { description: 'To whom.' })
  name!: string;

  @Field(() => LocalDate, { description: 'The first day.' })
  from!: string;

  @Field(() => LocalDate, { description: 'The last day.' })
  to!: string;

  @Field(() => LocalDate, { description: 'When it is written.' })
  writtenOn!: string;

  @Field(() => Int, { description: 'Minutes in all.' })
  minutes!: number;

  @Field(() => Int, { description: 'On how many days.' })
  days!: number;

  @Field(() => [NamedMinutes], { description: 'By kind of work; at most 100.' })
  kinds!: NamedMinutes[];

  @Field(() => [String], { description: 'Work that they had a hand in and that was passed; at most 12.' })
  closed!: string[];
}

@ObjectType({ description: 'A card on the day’s list.' })
export class ListedCard {
  @Field(() => String, { description: 'Which card.' })
  name!: string;

  @Field(() => LocalDate, { nullable: true, description: 'Until when; null when it does not lapse.' })
  expiresOn!: string | null;

  @Field(() => Boolean, { description: 'Whether it counts on the day.' })
  valid!: boolean;
}

@ObjectType({ description: 'Somebody on the day’s list.' })
export class CrewListLine {
  @Field(() => ID, { description: 'Who.' })
  volunteerId!: string;

  @Field(() => String, { description: 'Their name.' })
  name!: string;

  @Field(() => Boolean, { description: 'Whether they are under 18 on the day.' })
  isMinor!: boolean;

  @Field(() => Boolean, { description: 'Whether they have a place.' })
  expected!: boolean;

  @Field(() => DateTime, {
    nullable: true,
    description: 'When they came; null where it is not known that they did.',
  })
  arrivedAt!: number | null;

  @Field(() => DateTime, { nullable: true, description: 'When they left; null where it is not known.' })
  leftAt!: number | null;

  @Field(() => [String], { description: 'On what work; at most 20.' })
  work!: string[];

  @Field(() => [ListedCard], { description: 'The cards they have shown; at most 100.' })
  cards!: ListedCard[];

  @Field(() => Boolean, {
    nullable: true,
    description: 'Whether their waiver is on file and counts on the day; null where the yard keeps none.',
  })
  waiver!: boolean | null;
}

@ObjectType({ description: 'Who is expected at a turnout and who was there, for the insurer.' })
export class CrewList {
  @Field(() => TurnoutEntity, { description: 'The turnout.' })
  turnout!: TurnoutEntity;

  @Field(() => [CrewListLine], { description: 'By name; at most 500.' })
  lines!: CrewListLine[];
}
