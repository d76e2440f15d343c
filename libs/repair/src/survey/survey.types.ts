import { DateTime, JSONDocument, LocalDate } from '@ribband/platform';
import { Field, Float, Int, ObjectType } from '@nestjs/graphql';

@ObjectType({
  description: 'What the survey says of one piece of the hull: the latest finding that names it.',
})
export class ElementCondition {
  @Field(() => String, {
    description: 'Key of the frame piece or plank, such as frame-12-starboard-futtock-3.',
  })
  element!: string;

  @Field(() => String, { description: 'What the yard calls it.' })
  name!: string;

  @Field(() => String, { description: 'sound, doubtful, renew, scarf, new joint or sister.' })
  condition!: string;

  @Field(() => String, { nullable: true, description: 'Why it rotted; null where it did not.' })
  cause!: string | null;

  @Field(() => String, { description: 'Who looked.' })
  by!: string;

  @Field(() => LocalDate, { name: 'on', description: 'When.' })
  foundOn!: string;

  @Field(() => String, { nullable: true, description: 'What there is to say of it.' })
  note!: string | null;
}

@ObjectType('Survey', {
  description: 'What was found on the hull, and what the shipwright chose between that and the work.',
})
export class SurveyType {
  @Field(() => Int, { description: 'Raised by every change; changes carry the one that was read.' })
  version!: number;

  @Field(() => JSONDocument, {
    description: 'Causes, findings by ranges and choices, as in the yard document.',
  })
  survey!: unknown;

  @Field(() => [ElementCondition], {
    description:
      'Piece by piece, in the order of the hull; what is not there was not looked at. At most 2000.',
  })
  conditions!: ElementCondition[];

  @Field(() => String, { description: 'Who changed it last.' })
  changedBy!: string;

  @Field(() => DateTime, { description: 'When.' })
  changedAt!: number;
}

@ObjectType({ description: 'An opening that lets the pieces come out, with what it costs.' })
export class OpeningChoice {
  @Field(() => String, {
    description: 'What it makes least: fewest planks, least hours, fewest fastenings cut.',
  })
  aim!: string;

  @Field(() => Boolean, { description: 'Whether it is the one that was chosen.' })
  chosen!: boolean;

  @Field(() => Float, { description: 'Hours of one person to open and close, by the yard’s rates.' })
  hours!: number;

  @Field(() => [String], { description: 'Names of the planks that come off; at most 500.' })
  planksOff!: string[];

  @Field(() => Int, { description: 'Fastenings that are cut behind planks that stay; each leaves a stub.' })
  cut!: number;
}

@ObjectType({ description: 'A joint that has to be reached.' })
export class JointReached {
  @Field(() => String, { description: 'Which piece ends there.' })
  piece!: string;

  @Field(() => Float, { description: 'Its height, in strakes from the rabbet.' })
  at!: number;

  @Field(() => Boolean, { description: 'Whether the old joint is used; else a new one is cut.' })
  original!: boolean;

  @Field(() => String, { description: 'From where it is worked: outside or inside, and which face.' })
  seenFrom!: string;
}

@ObjectType({ description: 'A plank that comes off, and why.' })
export class PlankOff {
  @Field(() => String, { description: 'Its key.' })
  element!: string;

  @Field(() => String, { description: 'What the yard calls it.' })
  name!: string;

  @Field(() => Int, { description: 'Fastenings in it.' })
  nails!: number;
}

@ObjectType({ description: 'A limit that this scope cannot keep in any order of work.' })
export class LimitInTheWay {
  @Field(() => String, { description: 'The limit.' })
  limit!: string;

  @Field(() => [String], { description: 'The frames whose drawing asks for it; at most 400.' })
  frames!: string[];
}

@ObjectType({ description: 'Something counted.' })
export class CountOf {
  @Field(() => String, { description: 'What.' })
  what!: string;

  @Field(() => Float, { description: 'How many, or how many feet.' })
  count!: number;
}

@ObjectType('Scope', { description: 'What is to be opened and done about what the survey found.' })
export class ScopeType {
  @Field(() => [CountOf], { description: 'What there is of planks, nails, bolts, stubs, plugs and seams.' })
  counts!: CountOf[];

  @Field(() => [PlankOff], { description: 'Planks and ceiling planks that come off; at most 500.' })
  planksOff!: PlankOff[];

  @Field(() => [JointReached], { description: 'Joints that are reached so; at most 2000.' })
  joints!: JointReached[];

  @Field(() => [OpeningChoice], { description: 'Openings that do, the cheapest in hours first.' })
  openings!: OpeningChoice[];

  @Field(() => [String], { description: 'Where she is not put back as she was: place, why, who decided.' })
  departures!: string[];

  @Field(() => [String], {
    description: 'Pieces whose cause of decay is not mended: the repair is temporary.',
  })
  temporary!: string[];

  @Field(() => [String], { description: 'Pieces to be looked at again when they are open.' })
  doubtful!: string[];

  @Field(() => [String], { description: 'Rules of the trade that a sister frame breaks here.' })
  sisterFaults!: string[];

  @Field(() => [LimitInTheWay], {
    description: 'Limits for which the shipwright’s written word is wanted first.',
  })
  limitsInTheWay!: LimitInTheWay[];
}
