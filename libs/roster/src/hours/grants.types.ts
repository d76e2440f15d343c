import { DateTime, JSONDocument, LocalDate } from '@ribband/platform';
import { Field, ID, InputType, Int, ObjectType } from '@nestjs/graphql';
import { GrantEntity } from './grant.entity.js';
import { HourPeriodEntity } from './hour-period.entity.js';
import { HourRateEntity } from './hour-rate.entity.js';
import { WorkKindEntity } from './work-kind.entity.js';

@ObjectType('PublishedRate', {
  description: 'A published worth of a volunteer’s hour, ready to be taken as a rate.',
})
export class PublishedRateType {
  @Field(() => Int, { description: 'For which year.' })
  year!: number;

  @Field(() => String, { description: 'For which country or state.' })
  area!: string;

  @Field(() => Int, { description: 'Cents for one hour.' })
  centsAnHour!: number;

  @Field(() => String, { description: 'Who published it, and how surely that is known.' })
  source!: string;
}

@InputType({ description: 'A grant.' })
export class GrantInput {
  @Field(() => ID, { nullable: true, description: 'Which one changes; left out for a new one.' })
  id?: string | null;

  @Field(() => Int, { nullable: true, description: 'The version that was read, for one that changes.' })
  version?: number | null;

  @Field(() => String, { description: 'What the yard calls it; 1 to 200 characters.' })
  name!: string;

  @Field(() => String, { description: 'Who gives it; 1 to 200 characters.' })
  funder!: string;

  @Field(() => String, { nullable: true, description: 'The funder’s number for it.' })
  awardNumber?: string | null;

  @Field(() => LocalDate, { description: 'The first day whose hours count.' })
  from!: string;

  @Field(() => LocalDate, { description: 'The last day whose hours count.' })
  to!: string;

  @Field(() => [ID], { nullable: true, description: 'The kinds of work that count; left out: all of them.' })
  kindIds?: string[] | null;
}

@InputType({ description: 'What an hour is worth from a day on.' })
export class HourRateInput {
  @Field(() => ID, { nullable: true, description: 'For which kind of work; left out: for every kind.' })
  kindId?: string | null;

  @Field(() => ID, { nullable: true, description: 'For which grant; left out: for every grant.' })
  grantId?: string | null;

  @Field(() => LocalDate, { description: 'The first day on which it holds.' })
  from!: string;

  @Field(() => Int, { description: 'Cents for one hour, 1 to 100000.' })
  centsAnHour!: number;

  @Field(() => String, { description: 'Where the figure comes from; 1 to 300 characters.' })
  source!: string;
}

@ObjectType({ description: 'The kind of work as it is now.' })
export class WorkKindPayload {
  @Field(() => WorkKindEntity, { description: 'The kind of work.' })
  workKind!: WorkKindEntity;
}

@ObjectType({ description: 'The grant as it is now.' })
export class GrantPayload {
  @Field(() => GrantEntity, { description: 'The grant.' })
  grant!: GrantEntity;
}

@ObjectType({ description: 'The rate that was added.' })
export class HourRatePayload {
  @Field(() => HourRateEntity, { description: 'The rate.' })
  rate!: HourRateEntity;
}

@ObjectType({ description: 'The period that was closed.' })
export class HourPeriodPayload {
  @Field(() => HourPeriodEntity, { description: 'The period.' })
  period!: HourPeriodEntity;
}

@ObjectType('GrantReport', { description: 'A report as it was made; it never changes.' })
export class GrantReportType {
  @Field(() => ID, { description: 'Opaque.' })
  id!: string;

  @Field(() => ID, { description: 'For which grant.' })
  grantId!: string;

  @Field(() => LocalDate, { name: 'from', description: 'The first day.' })
  fromOn!: string;

  @Field(() => LocalDate, { name: 'to', description: 'The last day.' })
  toOn!: string;

  @Field(() => JSONDocument, { description: 'All that it says: lines, sums, rates with their sources.' })
  document!: unknown;

  @Field(() => String, { description: 'Its lines as comma-separated text (RFC 4180).' })
  csv!: string;

  @Field(() => String, {
    description:
      'SHA-256 of the document’s JSON, a line feed and the text: the same as long as nothing was changed.',
  })
  hash!: string;

  @Field(() => Boolean, { description: 'Whether what is kept still gives that hash.' })
  isUntouched!: boolean;

  @Field(() => Int, { description: 'Minutes in all.' })
  minutes!: number;

  @Field(() => Int, { description: 'What they are worth, in cents.' })
  cents!: number;

  @Field(() => String, { description: 'Who made it.' })
  madeBy!: string;

  @Field(() => DateTime, { description: 'When it was made.' })
  madeAt!: number;

  @Field(() => DateTime, { nullable: true, description: 'When it was withdrawn; null while it stands.' })
  withdrawnAt!: number | null;

  @Field(() => String, { nullable: true, description: 'Who withdrew it.' })
  withdrawnBy!: string | null;

  @Field(() => String, { nullable: true, description: 'Why it was withdrawn.' })
  withdrawReason!: string | null;
}

@ObjectType({ description: 'The report that was made or withdrawn.' })
export class GrantReportPayload {
  @Field(() => GrantReportType, { description: 'The report.' })
  report!: GrantReportType;
}
