import { Allow, AllowSignedIn, CurrentCaller, type Caller, type RequestContext } from '@ribband/access';
import { Database, LocalDate, refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, Context, ID, Mutation, Parent, Query, ResolveField, Resolver } from '@nestjs/graphql';
import { cardKindLoader, volunteerLoader } from '../crew.loaders.js';
import { cardCountsOn } from '../gates/skill-and-card.js';
import { Skills } from '../skills/skills.service.js';
import { todayOf, VolunteerPayload } from '../volunteers/volunteer.payload.js';
import { YardDay } from '../yard/yard-day.js';
import { CardKind } from './card-kind.entity.js';
import { Card } from './card.type.js';
import { Cards } from './cards.service.js';

const AddCardResult = refusable('AddCardResult', () => VolunteerPayload);
const RemoveCardResult = refusable('RemoveCardResult', () => VolunteerPayload);

@Resolver(() => Card)
export class CardsResolver {
  constructor(
    @Inject(Cards) private readonly shown: Cards,
    @Inject(Skills) private readonly lists: Skills,
    @Inject(Database) private readonly database: Database,
    @Inject(YardDay) private readonly yardDay: YardDay,
  ) {}

  @AllowSignedIn()
  @Query(() => [CardKind], { description: 'The kinds of cards that work may ask for; at most 100.' })
  cardKinds(@CurrentCaller() caller: Caller): Promise<CardKind[]> {
    return this.lists.cardKinds(caller);
  }

  @Allow('coordinator', 'shipwright')
  @Mutation(() => AddCardResult, { description: 'Notes a card that somebody has shown.' })
  async addCard(
    @CurrentCaller() caller: Caller,
    @Args('volunteerId', { type: () => ID, description: 'Whose.' }) volunteerId: string,
    @Args('kindId', { type: () => ID, description: 'Which kind.' }) kindId: string,
    @Args('issuer', { type: () => String, description: 'Who issued it.' }) issuer: string,
    @Args('expiresOn', {
      type: () => LocalDate,
      nullable: true,
      description: 'Last day on which it counts; leave it out when it does not lapse.',
    })
    expiresOn: string | null | undefined,
    @Context() context: RequestContext,
  ): Promise<VolunteerPayload> {
    const id = await this.shown.add(caller, { volunteerId, kindId, issuer, expiresOn: expiresOn ?? null });
    return this.payload(id, context);
  }

  @Allow('coordinator', 'shipwright')
  @Mutation(() => RemoveCardResult, { description: 'Takes a card off the record.' })
  async removeCard(
    @CurrentCaller() caller: Caller,
    @Args('cardId', { type: () => ID, description: 'Which card.' }) cardId: string,
    @Context() context: RequestContext,
  ): Promise<VolunteerPayload> {
    return this.payload(await this.shown.remove(caller, cardId), context);
  }

  @ResolveField(() => CardKind, { description: 'Which kind of card.' })
  kind(@Parent() card: Card, @Context() context: RequestContext): Promise<CardKind> {
    return cardKindLoader(context, this.database.read).load(card.kindId);
  }

  @ResolveField(() => Boolean, { description: 'Whether it counts on the yard’s day.' })
  async countsToday(@Parent() card: Card, @Context() context: RequestContext): Promise<boolean> {
    return cardCountsOn(card, await todayOf(context, this.yardDay, card.organisationId));
  }

  private async payload(volunteerId: string, context: RequestContext): Promise<VolunteerPayload> {
    const volunteer = await volunteerLoader(context, this.database.read).load(volunteerId);
    return Object.assign(new VolunteerPayload(), { volunteer });
  }
}
