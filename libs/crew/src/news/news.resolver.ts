import { Allow, AllowSignedIn, CurrentCaller, type Caller } from '@ribband/access';
import {
  Bus,
  type MessageKind,
  type MessageNews,
  messageTopic,
  type MessageWay,
  refusable,
} from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, ID, Mutation, Query, Resolver, Subscription } from '@nestjs/graphql';
import { idsOf, NewsDesk } from './news.service.js';
import { MessageKindEnum, MessageWayEnum, NewsPayload, NewsType, YardMailPayload } from './news.types.js';

const ReadNewsResult = refusable('ReadNewsResult', () => NewsPayload);
const ChooseNewsResult = refusable('ChooseNewsResult', () => NewsPayload);
const SendAgainResult = refusable('SendAgainResult', () => YardMailPayload);
const SetQuietHoursResult = refusable('SetQuietHoursResult', () => YardMailPayload);

@Resolver()
export class NewsResolver {
  constructor(
    @Inject(NewsDesk) private readonly desk: NewsDesk,
    @Inject(Bus) private readonly bus: Bus,
  ) {}

  @AllowSignedIn()
  @Query(() => NewsType, { description: 'What the caller has been told, the newest first.' })
  news(@CurrentCaller() caller: Caller): Promise<NewsType> {
    return this.desk.of(caller);
  }

  @AllowSignedIn()
  @Mutation(() => ReadNewsResult, { description: 'Marks news as read.' })
  async readNews(
    @CurrentCaller() caller: Caller,
    @Args('ids', { type: () => [ID], nullable: true, description: 'Which; leave it out for all.' })
    ids: string[] | null | undefined,
  ): Promise<NewsPayload> {
    await this.desk.markRead(caller, ids ?? null);
    return this.payload(caller);
  }

  @AllowSignedIn()
  @Mutation(() => ChooseNewsResult, {
    description: 'Says how the caller wants to be told of one kind of news.',
  })
  async chooseNews(
    @CurrentCaller() caller: Caller,
    @Args('kind', { type: () => MessageKindEnum, description: 'Which kind.' }) kind: MessageKind,
    @Args('way', { type: () => MessageWayEnum, description: 'How.' }) way: MessageWay,
  ): Promise<NewsPayload> {
    await this.desk.choose(caller, kind, way);
    return this.payload(caller);
  }

  @AllowSignedIn()
  @Subscription(() => Boolean, { description: 'Tells the caller’s page that there is news.' })
  async *newsCame(@CurrentCaller() caller: Caller): AsyncGenerator<{ newsCame: boolean }> {
    const ids = idsOf(caller);
    for await (const { recipientId } of this.bus.listen<MessageNews>(messageTopic(caller.organisationId)))
      if (ids.includes(recipientId)) yield { newsCame: true };
  }

  @Allow('director', 'coordinator')
  @Query(() => YardMailPayload, { description: 'E-mail that could not be delivered, and the quiet hours.' })
  yardMail(@CurrentCaller() caller: Caller): Promise<YardMailPayload> {
    return this.desk.yardMail(caller);
  }

  @Allow('director', 'coordinator')
  @Mutation(() => SendAgainResult, { description: 'Tries an e-mail once more that could not be delivered.' })
  async sendAgain(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Which.' }) id: string,
  ): Promise<YardMailPayload> {
    await this.desk.sendAgain(caller, id);
    return Object.assign(new YardMailPayload(), await this.desk.yardMail(caller));
  }

  @Allow('director', 'coordinator')
  @Mutation(() => SetQuietHoursResult, { description: 'Says when the yard sends no e-mail.' })
  async setQuietHours(
    @CurrentCaller() caller: Caller,
    @Args('fromTime', { type: () => String, description: 'From, such as 21:00.' }) fromTime: string,
    @Args('toTime', { type: () => String, description: 'To; the same as from for no quiet hours.' })
    toTime: string,
  ): Promise<YardMailPayload> {
    await this.desk.setQuietHours(caller, { fromTime, toTime });
    return Object.assign(new YardMailPayload(), await this.desk.yardMail(caller));
  }

  private async payload(caller: Caller): Promise<NewsPayload> {
    return Object.assign(new NewsPayload(), { news: await this.desk.of(caller) });
  }
}
