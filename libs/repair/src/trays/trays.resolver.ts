import { Allow, AllowSignedIn, CurrentCaller, type Caller, type RequestContext } from '@ribband/access';
import { Database, refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, Context, Field, ID, Int, Mutation, ObjectType, Query, Resolver } from '@nestjs/graphql';
import { forgetRead } from '../repair.loaders.js';
import { Lot } from './lot.entity.js';
import { PlankRepairs } from './plank-repairs.service.js';
import { TrayYard } from './tray-yard.service.js';
import { LotInput, TrayWordsInput, TrayWorkInput, wordsFrom, workFrom } from './tray.inputs.js';
import { Tray } from './tray.entity.js';
import { Trays } from './trays.service.js';

@ObjectType({ description: 'The tray as the change left it.' })
export class TrayPayload {
  @Field(() => Tray, { description: 'The tray.' })
  tray!: Tray;
}

@ObjectType({ description: 'Trays were set up.' })
export class TraysPayload {
  @Field(() => [ID], { description: 'Ids of the new trays; at most 5000.' })
  trayIds!: string[];
}

@ObjectType({ description: 'Fastenings went from one tray to another.' })
export class MovePayload {
  @Field(() => Tray, { description: 'Where they were.' })
  from!: Tray;

  @Field(() => Tray, { description: 'Where they are.' })
  to!: Tray;
}

@ObjectType({ description: 'The lot was written down.' })
export class LotPayload {
  @Field(() => Lot, { description: 'The lot.' })
  lot!: Lot;
}

const SetUpTraysResult = refusable('SetUpTraysResult', () => TraysPayload);
const EnterTrayResult = refusable('EnterTrayResult', () => TrayPayload);
const CorrectTrayResult = refusable('CorrectTrayResult', () => TrayPayload);
const MoveFasteningsResult = refusable('MoveFasteningsResult', () => MovePayload);
const AddLotResult = refusable('AddLotResult', () => LotPayload);
const ConfirmPlankRepairResult = refusable('ConfirmPlankRepairResult', () => TrayPayload);
const DeclinePlankRepairResult = refusable('DeclinePlankRepairResult', () => TrayPayload);

const payload = (tray: Tray): TrayPayload => Object.assign(new TrayPayload(), { tray });

@Resolver(() => Tray)
export class TraysResolver {
  constructor(
    @Inject(Trays) private readonly trays_: Trays,
    @Inject(TrayYard) private readonly yard: TrayYard,
    @Inject(PlankRepairs) private readonly repairs: PlankRepairs,
    @Inject(Database) private readonly database: Database,
  ) {}

  @AllowSignedIn()
  @Query(() => [Tray], { description: 'All trays, in the order in which they were set up; at most 2000.' })
  trays(@CurrentCaller() { organisationId }: Caller): Promise<Tray[]> {
    return this.database.read.find(Tray, { where: { organisationId }, order: { id: 'ASC' }, take: 2000 });
  }

  @AllowSignedIn()
  @Query(() => Tray, { nullable: true, description: 'One tray; null when there is none.' })
  tray(
    @CurrentCaller() { organisationId }: Caller,
    @Args('id', { type: () => ID, description: 'Its id.' }) id: string,
  ): Promise<Tray | null> {
    return this.database.read.findOneBy(Tray, { organisationId, id });
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Mutation(() => SetUpTraysResult, {
    description:
      'Sets up a tray for each element whose fastenings some task draws; tallies made before go in.',
  })
  async setUpTrays(
    @CurrentCaller() caller: Caller,
    @Context() context: RequestContext,
  ): Promise<TraysPayload> {
    forgetRead(context);
    const made = await this.yard.setUp(caller);
    return Object.assign(new TraysPayload(), { trayIds: made.map((tray) => tray.id) });
  }

  @AllowSignedIn()
  @Mutation(() => EnterTrayResult, {
    description: 'Says what happened at a tray; the tally of pulling or driving is entered with it.',
  })
  async enterTray(
    @CurrentCaller() caller: Caller,
    @Args('trayId', { type: () => ID, description: 'Which tray.' }) trayId: string,
    @Args('said', { description: 'What happened.' }) said: TrayWordsInput,
    @Args('work', { type: () => TrayWorkInput, nullable: true, description: 'Who worked, and how long.' })
    work: TrayWorkInput | null | undefined,
    @Context() context: RequestContext,
  ): Promise<TrayPayload> {
    forgetRead(context);
    return payload(await this.trays_.enter(caller, trayId, wordsFrom(said), workFrom(work)));
  }

  @AllowSignedIn()
  @Mutation(() => CorrectTrayResult, {
    description: 'Replaces an entry that was wrong, and its tally with it; the wrong ones stay on record.',
  })
  async correctTray(
    @CurrentCaller() caller: Caller,
    @Args('entryId', { type: () => ID, description: 'Which entry.' }) entryId: string,
    @Args('said', { description: 'What it should have said.' }) said: TrayWordsInput,
    @Args('reason', { type: () => String, description: 'Why.' }) reason: string,
    @Args('minutes', { type: () => Int, nullable: true, description: 'Person-minutes; else as before.' })
    minutes: number | null | undefined,
    @Args('finished', {
      type: () => Boolean,
      nullable: true,
      description: 'Whether it was finished; else as before.',
    })
    finished: boolean | null | undefined,
    @Context() context: RequestContext,
  ): Promise<TrayPayload> {
    forgetRead(context);
    const right = { minutes: minutes ?? null, finished: finished ?? null, reason };
    return payload(await this.trays_.correct(caller, entryId, wordsFrom(said), right));
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Mutation(() => MoveFasteningsResult, {
    description: 'Says that fastenings not graded yet lie in another tray, and why; both trays tell it.',
  })
  async moveFastenings(
    @CurrentCaller() caller: Caller,
    @Args('fromId', { type: () => ID, description: 'The tray that they belong to.' }) fromId: string,
    @Args('toId', { type: () => ID, description: 'The tray that they lie in.' }) toId: string,
    @Args('count', { type: () => Int, description: 'How many.' }) count: number,
    @Args('reason', { type: () => String, description: 'Why.' }) reason: string,
    @Context() context: RequestContext,
  ): Promise<MovePayload> {
    forgetRead(context);
    return Object.assign(new MovePayload(), await this.trays_.move(caller, fromId, toId, count, reason));
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Mutation(() => AddLotResult, {
    description: 'Writes down a lot of fastenings that was bought and is there.',
  })
  async addLot(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'The lot.' }) input: LotInput,
    @Context() context: RequestContext,
  ): Promise<LotPayload> {
    forgetRead(context);
    const lot = await this.yard.addLot(caller, { ...input, priceCents: input.priceCents ?? null });
    return Object.assign(new LotPayload(), { lot });
  }

  @Allow('shipwright')
  @Mutation(() => ConfirmPlankRepairResult, {
    description: 'Makes a task of the repair that heads which came through a plank ask for.',
  })
  async confirmPlankRepair(
    @CurrentCaller() caller: Caller,
    @Args('trayId', { type: () => ID, description: 'The plank’s tray.' }) trayId: string,
    @Context() context: RequestContext,
  ): Promise<TrayPayload> {
    forgetRead(context);
    return payload(await this.repairs.confirm(caller, trayId));
  }

  @Allow('shipwright')
  @Mutation(() => DeclinePlankRepairResult, {
    description: 'Says that nothing is to be done about heads which came through, and why.',
  })
  async declinePlankRepair(
    @CurrentCaller() caller: Caller,
    @Args('trayId', { type: () => ID, description: 'The plank’s tray.' }) trayId: string,
    @Args('reason', { type: () => String, description: 'Why.' }) reason: string,
    @Context() context: RequestContext,
  ): Promise<TrayPayload> {
    forgetRead(context);
    return payload(await this.repairs.decline(caller, trayId, reason));
  }
}
