import { LocalDate } from '@ribband/platform';
import { Field, ID, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { HullElement, type Side, SideEnum } from './hull-element.entity.js';
import type { SupportKind } from './hull-support.entity.js';
import { OpeningLimit } from './opening-limit.entity.js';
import type { LimitRule } from './opening-rules.js';

export const SupportKindEnum = { SHORE: 'shore', BRACE: 'brace', RIBBAND: 'ribband' } as const;
registerEnumType(SupportKindEnum, {
  name: 'SupportKind',
  description: 'What holds her shape while she is open.',
  valuesMap: {
    SHORE: { description: 'A shore from outside.' },
    BRACE: { description: 'A brace or cross spall inside.' },
    RIBBAND: { description: 'A ribband along the frames.' },
  },
});

export const LimitRuleEnum = {
  NEIGHBOUR_FRAMES: 'neighbourFrames',
  FRAME_RUN: 'frameRun',
  STRAKE_RUN: 'strakeRun',
  BOTH_SIDES: 'bothSides',
  KEEP_CLOSED: 'keepClosed',
} as const;
registerEnumType(LimitRuleEnum, {
  name: 'OpeningRule',
  description: 'A rule by which the limits are laid over the hull.',
  valuesMap: {
    NEIGHBOUR_FRAMES: { description: 'Neighbouring frames out at once.' },
    FRAME_RUN: { description: 'Frames out in a run of three.' },
    STRAKE_RUN: { description: 'Neighbouring strakes open at one frame.' },
    BOTH_SIDES: { description: 'One strake to port and starboard at one station.' },
    KEEP_CLOSED: { description: 'Sheer, bilge and garboard last or alone.' },
  },
});

@ObjectType({ description: 'A limit that is broken by what is really open, whatever the plan says.' })
export class BrokenLimitType {
  @Field(() => OpeningLimit, { description: 'The limit.' })
  limit!: OpeningLimit;

  @Field(() => [HullElement], { description: 'What is open of it; at most 500.' })
  open!: HullElement[];
}

@ObjectType({ description: 'Something was seen at the yard.' })
export class ElementReportPayload {
  @Field(() => ID, { description: 'Id of the piece.' })
  elementId!: string;

  @Field(() => Boolean, { description: 'Whether it was seen open.' })
  isOpen!: boolean;

  @Field(() => [BrokenLimitType], { description: 'Limits that are broken now; at most 100.' })
  broken!: BrokenLimitType[];
}

@ObjectType('HullSupport', { description: 'A shore, brace or ribband on record.' })
export class HullSupportType {
  @Field(() => ID, { description: 'Opaque.' })
  id!: string;

  @Field(() => Int, { description: 'Raised by every edit; edits carry the one that was read.' })
  version!: number;

  @Field(() => SupportKindEnum, { description: 'What it is.' })
  kind!: SupportKind;

  @Field(() => SideEnum, { nullable: true, description: 'Its side; null: both.' })
  side!: Side | null;

  @Field(() => Int, { nullable: true, description: 'First frame; null: wherever she is opened.' })
  firstFrame!: number | null;

  @Field(() => Int, { nullable: true, description: 'Last frame.' })
  lastFrame!: number | null;

  @Field(() => LocalDate, {
    nullable: true,
    description: 'When it was seen standing; null where its work counts.',
  })
  seenOn!: string | null;

  @Field(() => String, { nullable: true, description: 'Who saw it stand.' })
  seenBy!: string | null;

  @Field(() => LocalDate, { nullable: true, description: 'When it was struck; null while it was not.' })
  struckOn!: string | null;

  @Field(() => Boolean, {
    description: 'Whether it stands today: seen, or its work is done, and not struck.',
  })
  stands!: boolean;
}

@ObjectType({ description: 'The support as the change left it.' })
export class HullSupportPayload {
  @Field(() => HullSupportType, { description: 'The support.' })
  support!: HullSupportType;
}

@ObjectType({ description: 'A rule with the value that counts at this yard.' })
export class RuleInForceType {
  @Field(() => LimitRuleEnum, { description: 'Which rule.' })
  rule!: LimitRule;

  @Field(() => String, { description: 'The default of the trade, as a sentence.' })
  says!: string;

  @Field(() => String, { description: 'The default in a few words.' })
  usual!: string;

  @Field(() => String, { description: 'What counts here.' })
  here!: string;

  @Field(() => String, { nullable: true, description: 'Who changed it; null where the default counts.' })
  changedBy!: string | null;

  @Field(() => String, { nullable: true, description: 'Why.' })
  reason!: string | null;
}

@ObjectType({ description: 'The rules as the change left them.' })
export class OpeningRulesPayload {
  @Field(() => [RuleInForceType], { description: 'All rules; at most 10.' })
  rules!: RuleInForceType[];
}
