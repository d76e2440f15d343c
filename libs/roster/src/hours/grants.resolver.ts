import { Allow, type Caller, CurrentCaller } from '@ribband/access';
import { JSONDocument, LocalDate, refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, ID, Mutation, Parent, Query, ResolveField, Resolver } from '@nestjs/graphql';
import { GrantEntity } from './grant.entity.js';
import type { GrantReportEntity } from './grant-report.entity.js';
import { GrantReports, hashOfReport } from './grant-reports.service.js';
import { Grants } from './grants.service.js';
import {
  GrantInput,
  GrantPayload,
  GrantReportPayload,
  GrantReportType,
  HourPeriodPayload,
  HourRateInput,
  HourRatePayload,
  PublishedRateType,
  WorkKindPayload,
} from './grants.types.js';
import { HourPeriodEntity } from './hour-period.entity.js';
import { HourPeriods } from './hour-periods.service.js';
import { HourRateEntity } from './hour-rate.entity.js';
import { publishedRates } from './rates.js';
import { WorkKindEntity } from './work-kind.entity.js';

const SetWorkKindResult = refusable('SetWorkKindResult', () => WorkKindPayload);
const SetGrantResult = refusable('SetGrantResult', () => GrantPayload);
const AddHourRateResult = refusable('AddHourRateResult', () => HourRatePayload);
const CloseHoursResult = refusable('CloseHoursResult', () => HourPeriodPayload);
const MakeGrantReportResult = refusable('MakeGrantReportResult', () => GrantReportPayload);
const WithdrawGrantReportResult = refusable('WithdrawGrantReportResult', () => GrantReportPayload);

const told = (report: GrantReportEntity): GrantReportPayload =>
  Object.assign(new GrantReportPayload(), { report: report as unknown as GrantReportType });

/** Grants, what hours are worth, closing the book, and reports. */
@Resolver(() => GrantReportType)
export class GrantsResolver {
  constructor(
    @Inject(Grants) private readonly book: Grants,
    @Inject(HourPeriods) private readonly periods: HourPeriods,
    @Inject(GrantReports) private readonly reports: GrantReports,
  ) {}

  @Allow('director', 'coordinator')
  @Query(() => [WorkKindEntity], {
    description: 'Kinds of work as funders value them, by name; at most 100.',
  })
  workKinds(@CurrentCaller() caller: Caller): Promise<WorkKindEntity[]> {
    return this.book.kinds(caller);
  }

  @Allow('director', 'coordinator')
  @Query(() => [GrantEntity], { description: 'Awards that hours count towards, newest first; at most 100.' })
  grants(@CurrentCaller() caller: Caller): Promise<GrantEntity[]> {
    return this.book.grants(caller);
  }

  @Allow('director', 'coordinator')
  @Query(() => [HourRateEntity], { description: 'What an hour is worth, newest first; at most 200.' })
  hourRates(@CurrentCaller() caller: Caller): Promise<HourRateEntity[]> {
    return this.book.rates(caller);
  }

  @Allow('director', 'coordinator')
  @Query(() => [PublishedRateType], { description: 'Published values of a volunteer’s hour; at most 50.' })
  publishedRates(): PublishedRateType[] {
    return [...publishedRates];
  }

  @Allow('director', 'coordinator')
  @Query(() => [HourPeriodEntity], { description: 'Closed periods, newest first; at most 200.' })
  hourPeriods(@CurrentCaller() caller: Caller): Promise<HourPeriodEntity[]> {
    return this.periods.list(caller);
  }

  @Allow('director', 'coordinator')
  @Query(() => [GrantReportType], { description: 'Reports that were made, newest first; at most 100.' })
  grantReports(@CurrentCaller() caller: Caller): Promise<GrantReportEntity[]> {
    return this.reports.list(caller);
  }

  @Allow('director', 'coordinator')
  @Query(() => GrantReportType, {
    nullable: true,
    description: 'A report as it was made; null where there is none.',
  })
  grantReport(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Which one.' }) id: string,
  ): Promise<GrantReportEntity | null> {
    return this.reports.one(caller, id);
  }

  @Allow('director', 'coordinator')
  @Query(() => JSONDocument, {
    description:
      'What a report would say now, in the shape of a report’s document. Nothing is claimed by asking.',
  })
  grantReportDraft(
    @CurrentCaller() caller: Caller,
    @Args('grantId', { type: () => ID, description: 'For which grant.' }) grantId: string,
    @Args('from', { type: () => LocalDate, description: 'The first day.' }) from: string,
    @Args('to', { type: () => LocalDate, description: 'The last day.' }) to: string,
  ): Promise<unknown> {
    return this.reports.draft(caller, { grantId, from, to });
  }

  @Allow('director')
  @Mutation(() => SetWorkKindResult, { description: 'Adds a kind of work, or changes one.' })
  async setWorkKind(
    @CurrentCaller() caller: Caller,
    @Args('name', { type: () => String, description: 'What it is called.' }) name: string,
    @Args('skillId', {
      type: () => ID,
      nullable: true,
      description: 'Hours on seats that ask for this skill are of this kind.',
    })
    skillId: string | null = null,
    @Args('id', { type: () => ID, nullable: true, description: 'Which one changes; left out for a new one.' })
    id: string | null = null,
  ): Promise<WorkKindPayload> {
    const workKind = await this.book.setKind(caller, id, { name, skillId });
    return Object.assign(new WorkKindPayload(), { workKind });
  }

  @Allow('director')
  @Mutation(() => SetGrantResult, { description: 'Adds a grant, or changes one.' })
  async setGrant(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'The grant.' }) input: GrantInput,
  ): Promise<GrantPayload> {
    const { id, version, name, funder, from, to } = input;
    const change = id ? { id, version: version ?? 0 } : null;
    const draft = {
      name,
      funder,
      awardNumber: input.awardNumber ?? null,
      from,
      to,
      kindIds: input.kindIds ?? [],
    };
    return Object.assign(new GrantPayload(), { grant: await this.book.setGrant(caller, change, draft) });
  }

  @Allow('director')
  @Mutation(() => AddHourRateResult, {
    description: 'Says what an hour is worth from a day on. Reports that were made keep theirs.',
  })
  async addHourRate(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'The rate.' }) input: HourRateInput,
  ): Promise<HourRatePayload> {
    const rate = await this.book.addRate(caller, {
      ...input,
      kindId: input.kindId ?? null,
      grantId: input.grantId ?? null,
    });
    return Object.assign(new HourRatePayload(), { rate });
  }

  @Allow('director', 'coordinator')
  @Mutation(() => CloseHoursResult, { description: 'Closes days of the hours book for good.' })
  async closeHours(
    @CurrentCaller() caller: Caller,
    @Args('from', { type: () => LocalDate, description: 'The first day.' }) from: string,
    @Args('to', { type: () => LocalDate, description: 'The last day; it must be over.' }) to: string,
  ): Promise<HourPeriodPayload> {
    return Object.assign(new HourPeriodPayload(), { period: await this.periods.close(caller, from, to) });
  }

  @Allow('director', 'coordinator')
  @Mutation(() => MakeGrantReportResult, {
    description:
      'Makes a report of closed days and keeps it as it is. Its hours count for no other award then.',
  })
  async makeGrantReport(
    @CurrentCaller() caller: Caller,
    @Args('grantId', { type: () => ID, description: 'For which grant.' }) grantId: string,
    @Args('from', { type: () => LocalDate, description: 'The first day.' }) from: string,
    @Args('to', { type: () => LocalDate, description: 'The last day.' }) to: string,
  ): Promise<GrantReportPayload> {
    return told(await this.reports.make(caller, { grantId, from, to }));
  }

  @Allow('director')
  @Mutation(() => WithdrawGrantReportResult, {
    description: 'Withdraws a report: its hours may count elsewhere. What it said is kept.',
  })
  async withdrawGrantReport(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Which one.' }) id: string,
    @Args('reason', { type: () => String, description: 'Why.' }) reason: string,
  ): Promise<GrantReportPayload> {
    return told(await this.reports.withdraw(caller, id, reason));
  }

  @ResolveField('isUntouched', () => Boolean, { description: 'Whether what is kept still gives that hash.' })
  isUntouched(@Parent() report: GrantReportEntity): boolean {
    return hashOfReport(report.document, report.csv) === report.hash;
  }
}
