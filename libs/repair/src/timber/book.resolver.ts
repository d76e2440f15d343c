import { Allow, AllowSignedIn, CurrentCaller, type Caller } from '@ribband/access';
import { LocalDate, refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, Field, Float, ID, Int, Mutation, ObjectType, Query, Resolver } from '@nestjs/graphql';
import { TimberBooks } from './book.service.js';
import { TimberBook } from './book.types.js';
import { LayUps } from './lay-ups.service.js';
import { TimberRules } from './settings.service.js';
import { Stock } from './stock.service.js';
import {
  FlitchInput,
  SearchTripInput,
  TimberLogInput,
  TimberSettingsInput,
  TimberSourceInput,
} from './stock.inputs.js';

@ObjectType({ description: 'The timber book as the change left it.' })
export class TimberPayload {
  @Field(() => TimberBook, { nullable: true, description: 'The book; null before a haul-out.' })
  timberBook!: TimberBook | null;

  @Field(() => ID, { description: 'The entry that was made or changed.' })
  entryId!: string;
}

const results = {
  keepTimberSource: refusable('KeepTimberSourceResult', () => TimberPayload),
  thankTimberSource: refusable('ThankTimberSourceResult', () => TimberPayload),
  keepSearchTrip: refusable('KeepSearchTripResult', () => TimberPayload),
  keepTimberLog: refusable('KeepTimberLogResult', () => TimberPayload),
  keepFlitch: refusable('KeepFlitchResult', () => TimberPayload),
  noteMoisture: refusable('NoteMoistureResult', () => TimberPayload),
  withdrawMoisture: refusable('WithdrawMoistureResult', () => TimberPayload),
  changeTimberSettings: refusable('ChangeTimberSettingsResult', () => TimberPayload),
  askForLayUp: refusable('AskForLayUpResult', () => TimberPayload),
  keepLayUp: refusable('KeepLayUpResult', () => TimberPayload),
  promiseStock: refusable('PromiseStockResult', () => TimberPayload),
};

@Resolver()
export class TimberBookResolver {
  constructor(
    @Inject(TimberBooks) private readonly books: TimberBooks,
    @Inject(Stock) private readonly stock: Stock,
    @Inject(LayUps) private readonly layUps: LayUps,
    @Inject(TimberRules) private readonly rules: TimberRules,
  ) {}

  @AllowSignedIn()
  @Query(() => TimberBook, { nullable: true, description: 'The timber for this haul-out; null before one.' })
  timberBook(@CurrentCaller() caller: Caller): Promise<TimberBook | null> {
    return this.books.read(caller);
  }

  @Allow('shipwright', 'coordinator')
  @Mutation(() => results.keepTimberSource, { description: 'Enters who timber comes from, or changes it.' })
  async keepTimberSource(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'The source.' }) input: TimberSourceInput,
  ): Promise<TimberPayload> {
    return this.payload(caller, await this.stock.keepSource(caller, input));
  }

  @Allow('director', 'shipwright', 'coordinator')
  @Mutation(() => results.thankTimberSource, { description: 'Says that a source was thanked.' })
  async thankTimberSource(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Which one.' }) id: string,
    @Args('on', { type: () => LocalDate, nullable: true, description: 'The day; today if left out.' })
    on: string | null = null,
  ): Promise<TimberPayload> {
    return this.payload(caller, await this.stock.thank(caller, id, on));
  }

  @Allow('shipwright', 'coordinator')
  @Mutation(() => results.keepSearchTrip, {
    description: 'Enters a trip to look for timber, with its hours.',
  })
  async keepSearchTrip(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'The trip.' }) input: SearchTripInput,
  ): Promise<TimberPayload> {
    return this.payload(caller, await this.stock.keepTrip(caller, input));
  }

  @Allow('shipwright', 'coordinator')
  @Mutation(() => results.keepTimberLog, { description: 'Enters a log, or changes one.' })
  async keepTimberLog(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'The log.' }) input: TimberLogInput,
  ): Promise<TimberPayload> {
    return this.payload(caller, await this.stock.keepLog(caller, input));
  }

  @Allow('shipwright', 'coordinator')
  @Mutation(() => results.keepFlitch, { description: 'Enters a flitch as it is taped, or changes one.' })
  async keepFlitch(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'The flitch.' }) input: FlitchInput,
  ): Promise<TimberPayload> {
    return this.payload(caller, await this.stock.keepFlitch(caller, input));
  }

  @Allow('shipwright', 'coordinator')
  @Mutation(() => results.noteMoisture, { description: 'Enters how wet a flitch is.' })
  async noteMoisture(
    @CurrentCaller() caller: Caller,
    @Args('flitchId', { type: () => ID, description: 'Which flitch.' }) flitchId: string,
    @Args('on', { type: () => LocalDate, description: 'The day.' }) on: string,
    @Args('percent', { type: () => Float, description: 'Percent of dry weight.' }) percent: number,
  ): Promise<TimberPayload> {
    return this.payload(caller, await this.stock.noteMoisture(caller, flitchId, on, percent));
  }

  @Allow('shipwright', 'coordinator')
  @Mutation(() => results.withdrawMoisture, { description: 'Withdraws a wrong reading; it stays on record.' })
  async withdrawMoisture(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Which reading.' }) id: string,
    @Args('reason', { type: () => String, description: 'What is wrong with it.' }) reason: string,
  ): Promise<TimberPayload> {
    return this.payload(caller, await this.stock.withdrawMoisture(caller, id, reason));
  }

  @Allow('shipwright')
  @Mutation(() => results.changeTimberSettings, {
    description: 'Changes what the book reckons with, in your name and with your reason.',
  })
  async changeTimberSettings(
    @CurrentCaller() caller: Caller,
    @Args('version', { type: () => Int, description: 'The version that was read.' }) version: number,
    @Args('input', { description: 'What is to be different.' }) input: TimberSettingsInput,
    @Args('reason', { type: () => String, description: 'Why.' }) reason: string,
  ): Promise<TimberPayload> {
    return this.payload(caller, await this.rules.change(caller, version, input, reason));
  }

  @Allow('shipwright')
  @Mutation(() => results.askForLayUp, { description: 'Asks for a proposal: which piece from which flitch.' })
  async askForLayUp(@CurrentCaller() caller: Caller): Promise<TimberPayload> {
    return this.payload(caller, await this.layUps.ask(caller));
  }

  @Allow('shipwright')
  @Mutation(() => results.keepLayUp, {
    description: 'Keeps a proposal: from now on tasks wait for their wood.',
  })
  async keepLayUp(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Which proposal.' }) id: string,
  ): Promise<TimberPayload> {
    return this.payload(caller, await this.layUps.keep(caller, id));
  }

  @Allow('shipwright', 'coordinator')
  @Mutation(() => results.promiseStock, {
    description: 'Says when stock for a piece without any is expected.',
  })
  async promiseStock(
    @CurrentCaller() caller: Caller,
    @Args('piece', { type: () => ID, description: 'Key of the hull’s element.' }) piece: string,
    @Args('expectedOn', { type: () => LocalDate, description: 'The day.' }) expectedOn: string,
    @Args('note', { type: () => String, nullable: true, description: 'Who promised it.' })
    note: string | null = null,
  ): Promise<TimberPayload> {
    return this.payload(caller, await this.layUps.promise(caller, piece, expectedOn, note));
  }

  private async payload(caller: Caller, entry: { id: string }): Promise<TimberPayload> {
    const timberBook = await this.books.read(caller);
    return Object.assign(new TimberPayload(), { timberBook, entryId: entry.id });
  }
}
