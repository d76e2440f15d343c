import { Allow, AllowSignedIn, CurrentCaller, type Caller, type RequestContext } from '@ribband/access';
import { LocalDate, refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, Context, ID, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { forgetRead } from '../repair.loaders.js';
import type { Eyes } from '@ribband/hull';
import { type HoldPointToday, HoldPoints } from './hold-points.service.js';
import { EyesEnum, HoldPointPayload, HoldPointType } from './hold-points.types.js';

const BindHoldPointResult = refusable('BindHoldPointResult', () => HoldPointPayload);
const GiveNoticeResult = refusable('GiveNoticeResult', () => HoldPointPayload);
const SeenAtHoldPointResult = refusable('SeenAtHoldPointResult', () => HoldPointPayload);

const told = ({ point, task, plannedOn, noticeBy, isLate, isPassed }: HoldPointToday): HoldPointType => ({
  task,
  eyes: point.eyes,
  noticeDays: point.noticeDays,
  noticeOn: point.noticeOn,
  noticeBy: point.noticeBy,
  seenOn: point.seenOn,
  seenBy: point.seenBy,
  note: point.note,
  plannedOn,
  noticeGoesOutBy: noticeBy,
  noticeIsLate: isLate,
  passed: isPassed,
});

const payload = (points: HoldPointToday[]): HoldPointPayload =>
  Object.assign(new HoldPointPayload(), { holdPoints: points.map(told) });

@Resolver(() => HoldPointType)
export class HoldPointsResolver {
  constructor(@Inject(HoldPoints) private readonly points: HoldPoints) {}

  @AllowSignedIn()
  @Query(() => [HoldPointType], {
    description: 'Eyes that must see the work, by the day that the plan gives them; at most 500.',
  })
  async holdPoints(@CurrentCaller() caller: Caller): Promise<HoldPointType[]> {
    return (await this.points.list(caller)).slice(0, 500).map(told);
  }

  @Allow('shipwright', 'director')
  @Mutation(() => BindHoldPointResult, {
    description:
      'Says who has to see the work at a say-so. Other eyes were told nothing and have seen nothing.',
  })
  async bindHoldPoint(
    @CurrentCaller() caller: Caller,
    @Args('taskId', { type: () => ID, description: 'The say-so.' }) taskId: string,
    @Args('eyes', { type: () => EyesEnum, description: 'Whose eyes.' }) eyes: Eyes,
    @Args('noticeDays', { type: () => Int, description: 'Days of notice that they want.' })
    noticeDays: number,
    @Args('reason', {
      type: () => String,
      nullable: true,
      description: 'Why a sling need not be seen any more: the shipwright’s, wanted where it was one.',
    })
    reason: string | null | undefined,
    @Context() context: RequestContext,
  ): Promise<HoldPointPayload> {
    forgetRead(context);
    return payload([await this.points.bind(caller, taskId, eyes, noticeDays, reason ?? null)]);
  }

  @Allow('shipwright', 'director', 'coordinator')
  @Mutation(() => GiveNoticeResult, { description: 'Writes down that they were told.' })
  async giveNotice(
    @CurrentCaller() caller: Caller,
    @Args('taskIds', {
      type: () => [ID],
      description: 'The say-sos; one visit may settle many. At most 100.',
    })
    taskIds: string[],
    @Args('on', { type: () => LocalDate, description: 'When.' }) on: string,
    @Args('by', { type: () => String, description: 'Who told them.' }) by: string,
    @Context() context: RequestContext,
  ): Promise<HoldPointPayload> {
    forgetRead(context);
    return payload(await this.points.notice(caller, taskIds, on, by));
  }

  @Allow('shipwright')
  @Mutation(() => SeenAtHoldPointResult, {
    description: 'Writes down who saw it; the say-so comes after that.',
  })
  async seenAtHoldPoint(
    @CurrentCaller() caller: Caller,
    @Args('taskIds', {
      type: () => [ID],
      description: 'The say-sos; one visit may settle many. At most 100.',
    })
    taskIds: string[],
    @Args('on', { type: () => LocalDate, description: 'When.' }) on: string,
    @Args('by', { type: () => String, description: 'Who saw it.' }) by: string,
    @Args('note', { type: () => String, nullable: true, description: 'A remark.' })
    note: string | null | undefined,
    @Context() context: RequestContext,
  ): Promise<HoldPointPayload> {
    forgetRead(context);
    return payload(await this.points.seen(caller, taskIds, { on, by, note: note ?? null }));
  }
}
