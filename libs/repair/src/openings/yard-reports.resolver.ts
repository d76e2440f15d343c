import { Allow, AllowSignedIn, CurrentCaller, type Caller, type RequestContext } from '@ribband/access';
import { refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, Context, ID, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { forgetRead } from '../repair.loaders.js';
import { type Side, SideEnum } from './hull-element.entity.js';
import type { SupportKind } from './hull-support.entity.js';

import { LimitSettings } from './limit-settings.service.js';
import type { LimitRule } from './opening-rules.js';
import {
  BrokenLimitType,
  ElementReportPayload,
  HullSupportPayload,
  HullSupportType,
  LimitRuleEnum,
  OpeningRulesPayload,
  RuleInForceType,
  SupportKindEnum,
} from './openings.types.js';
import { Supports } from './supports.service.js';
import { YardReports } from './yard-reports.service.js';

const ReportElementResult = refusable('ReportElementResult', () => ElementReportPayload);
const SupportStandsResult = refusable('SupportStandsResult', () => HullSupportPayload);
const StrikeSupportResult = refusable('StrikeSupportResult', () => HullSupportPayload);
const ChangeOpeningRuleResult = refusable('ChangeOpeningRuleResult', () => OpeningRulesPayload);

/** What is really open, what holds her, and the numbers behind the limits. */
@Resolver()
export class YardReportsResolver {
  constructor(
    @Inject(YardReports) private readonly reports: YardReports,
    @Inject(Supports) private readonly supports: Supports,
    @Inject(LimitSettings) private readonly settings: LimitSettings,
  ) {}

  @AllowSignedIn()
  @Query(() => [BrokenLimitType], {
    description: 'Limits that are broken now by what is really open; at most 100.',
  })
  async brokenLimits(@CurrentCaller() caller: Caller): Promise<BrokenLimitType[]> {
    return (await this.reports.broken(caller)).slice(0, 100);
  }

  @AllowSignedIn()
  @Query(() => [HullSupportType], { description: 'Shores, braces and ribbands on record; at most 500.' })
  async hullSupports(@CurrentCaller() caller: Caller): Promise<HullSupportType[]> {
    return (await this.supports.list(caller)).map(({ support, stands }) => ({ ...support, stands }));
  }

  @AllowSignedIn()
  @Query(() => [RuleInForceType], {
    description: 'The rules by which limits are laid, with what counts at this yard; at most 10.',
  })
  openingRules(@CurrentCaller() caller: Caller): Promise<RuleInForceType[]> {
    return this.settings.inForce(caller);
  }

  @AllowSignedIn()
  @Mutation(() => ReportElementResult, {
    description: 'Says what was seen at the yard: a piece is open; or shut again, which the shipwright says.',
  })
  async reportElement(
    @CurrentCaller() caller: Caller,
    @Args('element', {
      type: () => ID,
      description: 'Id of the piece, or the hull’s key of a frame or plank.',
    })
    element: string,
    @Args('isOpen', { type: () => Boolean, description: 'Whether it was seen open.' }) isOpen: boolean,
    @Args('seenBy', { type: () => String, description: 'Who saw it.' }) seenBy: string,
    @Args('note', { type: () => String, nullable: true, description: 'A remark.' })
    note: string | null | undefined,
    @Context() context: RequestContext,
  ): Promise<ElementReportPayload> {
    forgetRead(context);
    const { elementId } = await this.reports.report(caller, { element, isOpen, seenBy, note: note ?? null });
    const broken = await this.brokenLimits(caller);
    return Object.assign(new ElementReportPayload(), { elementId, isOpen, broken });
  }

  @Allow('shipwright')
  @Mutation(() => SupportStandsResult, {
    description: 'Says that a shore, brace or ribband stands, and who saw it.',
  })
  async supportStands(
    @CurrentCaller() caller: Caller,
    @Args('kind', { type: () => SupportKindEnum, description: 'What it is.' }) kind: SupportKind,
    @Args('side', { type: () => SideEnum, description: 'Its side.' }) side: Side,
    @Args('firstFrame', { type: () => Int, description: 'First frame.' }) firstFrame: number,
    @Args('lastFrame', { type: () => Int, description: 'Last frame.' }) lastFrame: number,
    @Args('seenBy', { type: () => String, description: 'Who saw it stand.' }) seenBy: string,
    @Context() context: RequestContext,
  ): Promise<HullSupportPayload> {
    forgetRead(context);
    const support = await this.supports.stands(caller, { kind, side, firstFrame, lastFrame, seenBy });
    return Object.assign(new HullSupportPayload(), { support: { ...support, stands: true } });
  }

  @Allow('shipwright')
  @Mutation(() => StrikeSupportResult, { description: 'Says that a support was taken away.' })
  async strikeSupport(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Which.' }) id: string,
    @Args('version', { type: () => Int, description: 'Its version that was read.' }) version: number,
    @Context() context: RequestContext,
  ): Promise<HullSupportPayload> {
    forgetRead(context);
    const support = await this.supports.strike(caller, id, version);
    return Object.assign(new HullSupportPayload(), { support: { ...support, stands: false } });
  }

  @Allow('shipwright')
  @Mutation(() => ChangeOpeningRuleResult, {
    description: 'Puts your own value in place of a default, with a reason, or the default back.',
  })
  async changeOpeningRule(
    @CurrentCaller() caller: Caller,
    @Args('rule', { type: () => LimitRuleEnum, description: 'Which rule.' }) rule: LimitRule,
    @Args('atMost', { type: () => Int, nullable: true, description: 'How many may be open at once.' })
    atMost: number | null | undefined,
    @Args('keepClosed', {
      type: () => [String],
      nullable: true,
      description: 'For that rule: which of garboard, bilge and sheer; at most 3.',
    })
    keepClosed: string[] | null | undefined,
    @Args('usual', { type: () => Boolean, description: 'True: the default counts again.' }) usual: boolean,
    @Args('reason', { type: () => String, description: 'What holds the hull instead, or why not any more.' })
    reason: string,
    @Context() context: RequestContext,
  ): Promise<OpeningRulesPayload> {
    forgetRead(context);
    const value = usual ? null : { atMost: atMost ?? null, keepClosed: keepClosed ?? null };
    const rules = await this.settings.change(caller, rule, value, reason);
    return Object.assign(new OpeningRulesPayload(), { rules });
  }
}
