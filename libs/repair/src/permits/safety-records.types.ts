import type { PermitKind, TagKind } from '@ribband/crew';
import { LocalDate } from '@ribband/platform';
import { Field, Float, ID, InputType, Int, ObjectType } from '@nestjs/graphql';
import type { HazardCode } from '../hazards/hazard-catalogue.js';
import { HazardCodeEnum } from '../hazards/hazard.type.js';
import { DayWeatherEntity } from './day-weather.entity.js';
import { Loudness } from './loudness.entity.js';
import { Permit } from './permit.entity.js';
import { PermitKindEnum, TagKindEnum } from './permit-words.js';
import { SafetyTag } from './safety-tag.entity.js';
import { YardSafety } from './yard-safety.entity.js';

@InputType({ description: 'That a competent person has looked.' })
export class PermitInput {
  @Field(() => PermitKindEnum, { description: 'For what.' })
  kind!: PermitKind;

  @Field(() => ID, { nullable: true, description: 'The one task that it is for; leave it out for all.' })
  taskId?: string | null;

  @Field(() => String, { description: 'Who looked.' })
  by!: string;

  @Field(() => LocalDate, {
    nullable: true,
    description: 'Last day, for lead and asbestos; closed spaces and hot work end with the day’s turnout.',
  })
  untilOn?: string | null;

  @Field(() => Float, { nullable: true, description: 'Oxygen, per cent; closed spaces only.' })
  oxygenPercent?: number | null;

  @Field(() => Float, { nullable: true, description: 'Flammable gas, per cent of its lower limit.' })
  flammablePercent?: number | null;

  @Field(() => String, { nullable: true, description: 'Toxic reading, what was seen, where.' })
  note?: string | null;
}

@InputType({ description: 'An inspection of staging or lifting gear.' })
export class TagInput {
  @Field(() => TagKindEnum, { description: 'What was inspected.' })
  kind!: TagKind;

  @Field(() => String, { description: 'Which staging or gear, and where.' })
  name!: string;

  @Field(() => LocalDate, { description: 'When.' })
  inspectedOn!: string;

  @Field(() => String, { description: 'By whom.' })
  inspectedBy!: string;

  @Field(() => LocalDate, { description: 'Last day on which it counts.' })
  expiresOn!: string;
}

@InputType({ description: 'A day’s weather.' })
export class WeatherInput {
  @Field(() => LocalDate, { name: 'on', description: 'Which day.' })
  heldOn!: string;

  @Field(() => Int, { nullable: true, description: 'Highest, °F.' })
  highFahrenheit?: number | null;

  @Field(() => Int, { nullable: true, description: 'Lowest while people work, °F.' })
  lowFahrenheit?: number | null;

  @Field(() => Int, { nullable: true, description: 'Wind, miles an hour.' })
  windMilesAnHour?: number | null;

  @Field(() => Int, { nullable: true, description: 'Air quality index.' })
  airQualityIndex?: number | null;

  @Field(() => Boolean, { description: 'Thunder about.' })
  thunder!: boolean;

  @Field(() => String, { nullable: true, description: 'Why work is stopped; leave it out when it is not.' })
  holdReason?: string | null;

  @Field(() => [HazardCodeEnum], {
    description: 'Hazards that the stop is about; none: all work. At most 20.',
  })
  holdHazards!: HazardCode[];
}

@ObjectType({ description: 'From which age on one meets a hazard.' })
export class AgeForHazard {
  @Field(() => HazardCodeEnum, { description: 'Which hazard.' })
  hazard!: HazardCode;

  @Field(() => String, { description: 'Its name in plain words.' })
  name!: string;

  @Field(() => Int, { nullable: true, description: 'From which age on; null: it sets no age of its own.' })
  from!: number | null;

  @Field(() => Int, { nullable: true, description: 'What is usual; null: no age of its own.' })
  usual!: number | null;

  @Field(() => String, { description: 'Where the usual one comes from.' })
  basis!: string;
}

@ObjectType({ description: 'The ages that count at the yard, in whole years.' })
export class AgesInForce {
  @Field(() => Int, { description: 'Below it one comes on a visit only, with a parent.' })
  visitorsBelow!: number;

  @Field(() => Int, { description: 'Below it an adult keeps one in sight.' })
  inSightBelow!: number;

  @Field(() => Int, { description: 'From it on one takes down parts of the vessel.' })
  teardownFrom!: number;

  @Field(() => [AgeForHazard], { description: 'By hazard, every one of them; at most 20.' })
  byHazard!: AgeForHazard[];
}

@ObjectType({ description: 'How things stand at the yard by what is written down.' })
export class SafetyState {
  @Field(() => [Permit], { description: 'Open permits, soonest to end first; at most 200.' })
  permits!: Permit[];

  @Field(() => [SafetyTag], { description: 'Inspection tags in use, lapsed ones among them; at most 200.' })
  tags!: SafetyTag[];

  @Field(() => DayWeatherEntity, {
    nullable: true,
    description: 'The day’s weather; null: not written down.',
  })
  weather!: DayWeatherEntity | null;

  @Field(() => [Loudness], { description: 'How loud it is, by tool; at most 100.' })
  loudness!: Loudness[];

  @Field(() => YardSafety, { nullable: true, description: 'What the organisation has set for itself.' })
  settings!: YardSafety | null;

  @Field(() => AgesInForce, {
    description: 'The ages that count: the organisation’s own, or the usual ones.',
  })
  ages!: AgesInForce;
}

@ObjectType({ description: 'How things stand after the change.' })
export class SafetyPayload {
  @Field(() => SafetyState, { description: 'How things stand.' })
  safety!: SafetyState;
}

@ObjectType({ description: 'One rule of the gates, and where it comes from.' })
export class GateRuleType {
  @Field(() => String, { description: 'What it asks.' })
  says!: string;

  @Field(() => String, { description: 'A citation, or that there is none.' })
  basis!: string;

  @Field(() => String, { description: 'Who may set a stop aside, in words.' })
  setAsideBy!: string;
}

@InputType({ description: 'The age that goes with a hazard.' })
export class HazardAgeInput {
  @Field(() => HazardCodeEnum, { description: 'Which hazard.' })
  hazard!: HazardCode;

  @Field(() => Int, { description: 'From which age on.' })
  age!: number;
}
