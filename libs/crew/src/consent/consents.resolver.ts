import { Allow, AllowSignedIn, CurrentCaller, type Caller, type RequestContext } from '@ribband/access';
import { LocalDate, refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import {
  Args,
  Context,
  Field,
  ID,
  InputType,
  Mutation,
  ObjectType,
  Parent,
  registerEnumType,
  ResolveField,
  Resolver,
} from '@nestjs/graphql';
import { type ConsentKind, consentKinds } from '../gates/consent.js';
import { Volunteer } from '../volunteers/volunteer.entity.js';
import { VolunteerPayload } from '../volunteers/volunteer.payload.js';
import { Consents } from './consents.service.js';

const kindNames = Object.keys(consentKinds) as ConsentKind[];
const ConsentKindEnum = Object.fromEntries(kindNames.map((name) => [name.toUpperCase(), name]));

registerEnumType(ConsentKindEnum, {
  name: 'ConsentKind',
  description: 'A kind of work that a parent can say yes to for somebody under 18.',
  valuesMap: Object.fromEntries(
    kindNames.map((name) => [name.toUpperCase(), { description: consentKinds[name] }]),
  ),
});

@ObjectType({ description: 'A parent’s yes for somebody under 18.' })
class Consent {
  @Field(() => ID, { description: 'Opaque.' })
  id!: string;

  @Field(() => String, { description: 'Who said yes.' })
  guardianName!: string;

  @Field(() => String, { nullable: true, description: 'Where news of coming and leaving go.' })
  guardianEmail!: string | null;

  @Field(() => [ConsentKindEnum], { description: 'To which kinds of work; at most 8.' })
  kinds!: ConsentKind[];

  @Field(() => String, { description: 'How it was given.' })
  how!: string;

  @Field(() => LocalDate, { description: 'When.' })
  givenOn!: string;

  @Field(() => String, { description: 'Who wrote it down.' })
  writtenBy!: string;

  @Field(() => LocalDate, { nullable: true, description: 'From when it counts no more; null while it does.' })
  withdrawnOn!: string | null;
}

@InputType({ description: 'A parent’s yes.' })
export class ConsentInput {
  @Field(() => String, { description: 'Who says yes; 1 to 200 characters.' })
  guardianName!: string;

  @Field(() => String, { nullable: true, description: 'Where news of coming and leaving go.' })
  guardianEmail?: string | null;

  @Field(() => [ConsentKindEnum], { description: 'To which kinds of work; at least one.' })
  kinds!: ConsentKind[];

  @Field(() => String, { description: 'How it was given, such as on paper; 1 to 200 characters.' })
  how!: string;

  @Field(() => LocalDate, { description: 'When.' })
  givenOn!: string;
}

const GiveConsentResult = refusable('GiveConsentResult', () => VolunteerPayload);
const WithdrawConsentResult = refusable('WithdrawConsentResult', () => VolunteerPayload);

@Resolver(() => Volunteer)
export class ConsentsResolver {
  constructor(@Inject(Consents) private readonly consentBook: Consents) {}

  @ResolveField(() => [Consent], {
    description: 'What parents have said yes to, the withdrawn included; at most 100.',
  })
  async consents(@Parent() one: Volunteer, @Context() context: RequestContext): Promise<Consent[]> {
    return context.caller ? this.consentBook.of(context.caller, one.id) : [];
  }

  @Allow('director', 'coordinator')
  @Mutation(() => GiveConsentResult, { description: 'Writes down a parent’s yes, by kind of work.' })
  async giveConsent(
    @CurrentCaller() caller: Caller,
    @Args('volunteerId', { type: () => ID, description: 'For whom.' }) volunteerId: string,
    @Args('input', { description: 'The yes.' }) input: ConsentInput,
  ): Promise<VolunteerPayload> {
    const volunteer = await this.consentBook.give(caller, volunteerId, {
      ...input,
      guardianEmail: input.guardianEmail ?? null,
    });
    return Object.assign(new VolunteerPayload(), { volunteer });
  }

  @AllowSignedIn()
  @Mutation(() => WithdrawConsentResult, { description: 'Ends a parent’s yes, from today on.' })
  async withdrawConsent(
    @CurrentCaller() caller: Caller,
    @Args('consentId', { type: () => ID, description: 'Which.' }) consentId: string,
  ): Promise<VolunteerPayload> {
    const volunteer = await this.consentBook.withdraw(caller, consentId);
    return Object.assign(new VolunteerPayload(), { volunteer });
  }
}
