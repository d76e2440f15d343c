import { refuseTakenAway, whatIsGiven } from '@ribband/crew';
import { LocalDate, refuse } from '@ribband/platform';
import { Field, Float, ID, InputType, Int, PartialType } from '@nestjs/graphql';
import type { HazardCode } from '../hazards/hazard-catalogue.js';
import { HazardCodeEnum } from '../hazards/hazard.type.js';
import { EstimateInput } from './estimate.type.js';
import type { Estimate, SeatDraft, TaskDraft } from './task-draft.js';
import { TaskKindEnum, type TaskKind } from './task-words.js';

@InputType({ description: 'Seats on a task that ask for a skill.' })
export class SeatInput {
  @Field(() => ID, { description: 'Id of the skill.' })
  skill!: string;

  @Field(() => Int, { description: 'Least level: 1 learning, 2 works alone, 3 teaches, 4 may say so.' })
  level!: number;

  @Field(() => Int, { description: 'How many such seats.' })
  count!: number;

  @Field(() => [ID], { nullable: true, description: 'Ids of the kinds of cards that such a seat asks for.' })
  cards?: string[] | null;
}

@InputType({ description: 'How many people.' })
export class CrewInput {
  @Field(() => Int, { description: 'Fewest who may start.' })
  min!: number;

  @Field(() => Int, { description: 'Up to how many each counts in full.' })
  efficient!: number;

  @Field(() => Int, { description: 'Most at once.' })
  max!: number;
}

@InputType({ description: 'A tool that a task holds while it runs.' })
export class TaskToolInput {
  @Field(() => ID, { description: 'Id of the tool.' })
  tool!: string;

  @Field(() => Int, { description: 'How many of it.' })
  count!: number;
}

@InputType({ description: 'A task to be added.' })
export class AddTaskInput {
  @Field(() => String, { description: 'What is to be done, as one says it at the yard.' })
  title!: string;

  @Field(() => TaskKindEnum, { description: 'How it takes its time.' })
  kind!: TaskKind;

  @Field(() => String, { nullable: true, description: 'Where on the hull or in the yard.' })
  position?: string | null;

  @Field(() => EstimateInput, { nullable: true, description: 'How long it takes; none for a say-so.' })
  estimate?: EstimateInput | null;

  @Field(() => CrewInput, { nullable: true, description: 'How many people; nobody if left out.' })
  crew?: CrewInput | null;

  @Field(() => [SeatInput], { nullable: true, description: 'Seats that ask for a skill; at most 20.' })
  seats?: SeatInput[] | null;

  @Field(() => [ID], { nullable: true, description: 'Ids of the kinds of cards that everyone must hold.' })
  cards?: string[] | null;

  @Field(() => Int, { nullable: true, description: 'Least age, beyond what the hazards ask.' })
  leastAge?: number | null;

  @Field(() => Boolean, { nullable: true, description: 'Whether it must be done without a break; else not.' })
  oneGo?: boolean | null;

  @Field(() => Int, { nullable: true, description: 'Minutes lost each time it is taken up again; else 0.' })
  setUpMinutes?: number | null;

  @Field(() => Float, {
    nullable: true,
    description: 'What a hand beyond the efficient crew adds; else 0.5.',
  })
  extraHandShare?: number | null;

  @Field(() => Float, { nullable: true, description: 'What somebody who is learning adds; else 0.5.' })
  learnerShare?: number | null;

  @Field(() => [TaskToolInput], { nullable: true, description: 'Tools that it holds; at most 20.' })
  tools?: TaskToolInput[] | null;

  @Field(() => [ID], { nullable: true, description: 'Hull elements that are open from its start.' })
  opens?: string[] | null;

  @Field(() => [ID], { nullable: true, description: 'Hull elements that are shut at its end.' })
  closes?: string[] | null;

  @Field(() => [HazardCodeEnum], { nullable: true, description: 'What can hurt someone in it.' })
  hazards?: HazardCode[] | null;

  @Field(() => [String], { nullable: true, description: 'Lines to read before starting; at most 20.' })
  cautions?: string[] | null;

  @Field(() => LocalDate, { nullable: true, description: 'Not before this day.' })
  notBefore?: string | null;

  @Field(() => String, { nullable: true, description: 'Why it is held; leave it out when it is not.' })
  held?: string | null;
}

@InputType({ description: 'What changes in a task; what is left out stays, null takes it away.' })
export class EditTaskInput extends PartialType(AddTaskInput) {}

/** Nothing but blanks is none. */
const wordsOrNone = (words: string | null | undefined): string | null | undefined =>
  words?.trim() === '' ? null : words?.trim();

const nobody = { min: 0, efficient: 0, max: 0 };

export const seatDraftOf = (seat: SeatInput): SeatDraft => ({ ...seat, cards: seat.cards ?? [] });

/** @throws RefusalError when it is not exactly one of the three */
function estimateFrom(input: EstimateInput): Estimate {
  const given: Estimate[] = [];
  if (input.byCount) given.push({ by: 'count', ...input.byCount });
  if (input.personMinutes) given.push({ by: 'work', personMinutes: input.personMinutes });
  if (input.minutes) given.push({ by: 'time', minutes: input.minutes });
  const only = given.at(0);
  if (!only || given.length > 1)
    return refuse('BAD_INPUT', 'An estimate is given in exactly one way.', {
      field: 'estimate',
      remedy: 'Fill in byCount, personMinutes or minutes.',
    });
  return only;
}

/** What was sent, in the words of a draft: absent stays absent, null becomes the field's nothing. */
export function changesOf(input: EditTaskInput): Partial<TaskDraft> {
  refuseTakenAway(input, 'title', 'kind');
  const or = <T>(value: T | null | undefined, nothing: T): T | undefined =>
    value === undefined ? undefined : (value ?? nothing);
  const estimate = input.estimate;
  const changes = {
    title: input.title,
    kind: input.kind,
    position: wordsOrNone(input.position),
    estimate: estimate ? estimateFrom(estimate) : estimate,
    crew: or(input.crew, nobody),
    seats: or(input.seats, [])?.map(seatDraftOf),
    cards: or(input.cards, []),
    leastAge: input.leastAge,
    oneGo: or(input.oneGo, false),
    setUpMinutes: or(input.setUpMinutes, 0),
    extraHandShare: or(input.extraHandShare, 0.5),
    learnerShare: or(input.learnerShare, 0.5),
    tools: or(input.tools, []),
    opens: or(input.opens, []),
    closes: or(input.closes, []),
    hazards: or(input.hazards, []),
    cautions: or(input.cautions, []),
    notBefore: input.notBefore,
    held: input.held,
  };
  return whatIsGiven<Partial<TaskDraft>>(changes);
}

/** A whole task: what was left out is nothing, or the usual. */
export function draftFrom(input: AddTaskInput): TaskDraft {
  return {
    title: input.title,
    kind: input.kind,
    position: null,
    estimate: null,
    crew: nobody,
    seats: [],
    cards: [],
    leastAge: null,
    oneGo: false,
    setUpMinutes: 0,
    extraHandShare: 0.5,
    learnerShare: 0.5,
    tools: [],
    opens: [],
    closes: [],
    hazards: [],
    cautions: [],
    notBefore: null,
    held: null,
    ...changesOf(input),
  };
}
