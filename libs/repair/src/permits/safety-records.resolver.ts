import { Allow, AllowSignedIn, CurrentCaller, type Caller } from '@ribband/access';
import { gateRuleNames, ruleBook, usualAges, whoSetsAside, YardDay } from '@ribband/crew';
import { LocalDate, refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, ID, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { agesInForce } from './ages-in-force.js';
import { Permits } from './permits.service.js';
import { SafetyRecords } from './safety-records.service.js';
import {
  GateRuleType,
  HazardAgeInput,
  PermitInput,
  SafetyPayload,
  SafetyState,
  TagInput,
  WeatherInput,
} from './safety-records.types.js';
import { SafetyTags } from './safety-tags.service.js';

const OpenPermitResult = refusable('OpenPermitResult', () => SafetyPayload);
const ClosePermitResult = refusable('ClosePermitResult', () => SafetyPayload);
const HangTagResult = refusable('HangTagResult', () => SafetyPayload);
const WithdrawTagResult = refusable('WithdrawTagResult', () => SafetyPayload);
const WriteWeatherResult = refusable('WriteWeatherResult', () => SafetyPayload);
const WriteLoudnessResult = refusable('WriteLoudnessResult', () => SafetyPayload);
const SetProtectorsResult = refusable('SetProtectorsResult', () => SafetyPayload);
const SetAgesResult = refusable('SetAgesResult', () => SafetyPayload);

@Resolver()
export class SafetyRecordsResolver {
  constructor(
    @Inject(Permits) private readonly permits: Permits,
    @Inject(SafetyTags) private readonly tags: SafetyTags,
    @Inject(SafetyRecords) private readonly records: SafetyRecords,
    @Inject(YardDay) private readonly yardDay: YardDay,
  ) {}

  @AllowSignedIn()
  @Query(() => SafetyState, { description: 'Permits, tags, weather and noise as they are written down.' })
  async safety(
    @CurrentCaller() caller: Caller,
    @Args('on', { type: () => LocalDate, nullable: true, description: 'Whose weather; today when left out.' })
    on: string | null = null,
  ): Promise<SafetyState> {
    const day = on ?? (await this.yardDay.today(caller.organisationId));
    const settings = await this.records.settings(caller);
    return {
      permits: await this.permits.openPermits(caller),
      tags: await this.tags.tags(caller),
      weather: await this.records.weatherOf(caller, day),
      loudness: await this.records.loudness(caller),
      settings,
      ages: agesInForce(settings?.ages ?? usualAges),
    };
  }

  @AllowSignedIn()
  @Query(() => [GateRuleType], { description: 'Every rule of the gates, with its source; at most 100.' })
  gateRules(): GateRuleType[] {
    return gateRuleNames.map((name) => ({
      says: ruleBook[name].says,
      basis: ruleBook[name].basis,
      setAsideBy: whoSetsAside[ruleBook[name].setAsideBy],
    }));
  }

  @Allow('shipwright', 'coordinator', 'director')
  @Mutation(() => OpenPermitResult, { description: 'Writes down that a competent person has looked.' })
  async openPermit(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'Who, for what, until when, what was read.' }) input: PermitInput,
  ): Promise<SafetyPayload> {
    const { kind, by, taskId = null, untilOn = null, note = null } = input;
    const { oxygenPercent = null, flammablePercent = null } = input;
    const draft = { kind, by, taskId, untilOn, note, oxygenPercent, flammablePercent };
    await this.permits.openPermit(caller, draft);
    return this.after(caller);
  }

  @Allow('shipwright', 'coordinator', 'director')
  @Mutation(() => ClosePermitResult, { description: 'Closes a permit before its time.' })
  async closePermit(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Which permit.' }) id: string,
  ): Promise<SafetyPayload> {
    await this.permits.closePermit(caller, id);
    return this.after(caller);
  }

  @Allow('shipwright', 'coordinator')
  @Mutation(() => HangTagResult, { description: 'Writes an inspection of staging or lifting gear down.' })
  async hangTag(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'What, by whom, until when.' }) input: TagInput,
  ): Promise<SafetyPayload> {
    await this.tags.hangTag(caller, { ...input });
    return this.after(caller);
  }

  @Allow('shipwright', 'coordinator', 'director')
  @Mutation(() => WithdrawTagResult, { description: 'Takes staging or gear out of use.' })
  async withdrawTag(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Which tag.' }) id: string,
  ): Promise<SafetyPayload> {
    await this.tags.withdrawTag(caller, id);
    return this.after(caller);
  }

  @Allow('shipwright', 'coordinator', 'director')
  @Mutation(() => WriteWeatherResult, {
    description: 'Writes a day’s weather down, with a stop if you say so.',
  })
  async writeWeather(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'The weather.' }) input: WeatherInput,
  ): Promise<SafetyPayload> {
    const { heldOn, thunder, holdHazards, holdReason = null } = input;
    const {
      highFahrenheit = null,
      lowFahrenheit = null,
      windMilesAnHour = null,
      airQualityIndex = null,
    } = input;
    await this.records.writeWeather(caller, {
      heldOn,
      thunder,
      holdHazards,
      holdReason,
      highFahrenheit,
      lowFahrenheit,
      windMilesAnHour,
      airQualityIndex,
    });
    return this.after(caller, heldOn);
  }

  @Allow('shipwright', 'coordinator')
  @Mutation(() => WriteLoudnessResult, { description: 'Writes down how loud it is at a tool, or by hand.' })
  async writeLoudness(
    @CurrentCaller() caller: Caller,
    @Args('toolId', {
      type: () => ID,
      nullable: true,
      description: 'Which tool; leave it out for work by hand.',
    })
    toolId: string | null,
    @Args('dba', { type: () => Int, description: 'dBA where one stands.' }) dba: number,
    @Args('by', { type: () => String, description: 'Who measured it, or where it comes from.' }) by: string,
  ): Promise<SafetyPayload> {
    await this.records.writeLoudness(caller, toolId ?? null, dba, by);
    return this.after(caller);
  }

  @Allow('shipwright', 'director')
  @Mutation(() => SetProtectorsResult, { description: 'Says what ear protection the yard hands out.' })
  async setProtectors(
    @CurrentCaller() caller: Caller,
    @Args('rating', {
      type: () => Int,
      nullable: true,
      description: 'Its noise reduction rating, dB; null: none.',
    })
    rating: number | null,
  ): Promise<SafetyPayload> {
    await this.records.setProtectors(caller, rating ?? null);
    return this.after(caller);
  }

  @Allow('director')
  @Mutation(() => SetAgesResult, {
    description:
      'Sets the organisation’s own ages, with the written reason; no ages named puts the usual ones back.',
  })
  async setAges(
    @CurrentCaller() caller: Caller,
    @Args('reason', { type: () => String, description: 'What counsel and insurer say.' }) reason: string,
    @Args('visitorsBelow', { type: () => Int, nullable: true, description: 'Below it visits only.' })
    visitorsBelow: number | null,
    @Args('inSightBelow', { type: () => Int, nullable: true, description: 'Below it in an adult’s sight.' })
    inSightBelow: number | null,
    @Args('teardownFrom', { type: () => Int, nullable: true, description: 'From it on, taking parts down.' })
    teardownFrom: number | null,
    @Args('byHazard', {
      type: () => [HazardAgeInput],
      nullable: true,
      description: 'By hazard; others stay usual.',
    })
    byHazard: HazardAgeInput[] | null,
  ): Promise<SafetyPayload> {
    const given = [visitorsBelow, inSightBelow, teardownFrom, byHazard].some(
      (value) => typeof value === 'number' || Array.isArray(value),
    );
    const ages = {
      ...usualAges,
      visitorsBelow: visitorsBelow ?? usualAges.visitorsBelow,
      inSightBelow: inSightBelow ?? usualAges.inSightBelow,
      teardownFrom: teardownFrom ?? usualAges.teardownFrom,
      byHazard: {
        ...usualAges.byHazard,
        ...Object.fromEntries((byHazard ?? []).map(({ hazard, age }) => [hazard, age])),
      },
    };
    await this.records.setAges(caller, given ? ages : null, reason);
    return this.after(caller);
  }

  private async after(caller: Caller, on: string | null = null): Promise<SafetyPayload> {
    return Object.assign(new SafetyPayload(), { safety: await this.safety(caller, on) });
  }
}
