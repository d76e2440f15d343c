import { Allow, AllowSignedIn, CurrentCaller, type Caller, type RequestContext } from '@ribband/access';
import { refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, Context, ID, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { forgetRead } from '../repair.loaders.js';
import { Marks, type MarkToday } from './marks.service.js';
import { ReadingInput, WitnessMarkPayload, WitnessMarkToday } from './marks.types.js';
import { MarkKindEnum, type MarkKind } from './witness-mark.entity.js';

const AddWitnessMarkResult = refusable('AddWitnessMarkResult', () => WitnessMarkPayload);
const EnterReadingsResult = refusable('EnterReadingsResult', () => WitnessMarkPayload);
const StrikeReadingResult = refusable('StrikeReadingResult', () => WitnessMarkPayload);
const LiftShapeHoldResult = refusable('LiftShapeHoldResult', () => WitnessMarkPayload);

const told = ({ mark, readings, lifts, state }: MarkToday): WitnessMarkToday => ({
  mark,
  readings: readings.slice(-2000),
  lifted: lifts.slice(-200),
  drift: state.drift.kind,
  says: state.drift.says,
  movedMillimetres: state.drift.kind === 'no baseline' ? null : state.drift.moved,
  millimetresAWeek: state.drift.kind === 'no baseline' ? null : state.drift.perWeek,
  held: state.held,
  dueOn: state.due?.on ?? null,
  due: state.due?.what ?? null,
});

const payload = (mark: MarkToday): WitnessMarkPayload =>
  Object.assign(new WitnessMarkPayload(), { witnessMark: told(mark) });

@Resolver(() => WitnessMarkToday)
export class MarksResolver {
  constructor(@Inject(Marks) private readonly marks: Marks) {}

  @AllowSignedIn()
  @Query(() => [WitnessMarkToday], { description: 'Witness marks and what they say today; at most 200.' })
  async witnessMarks(@CurrentCaller() caller: Caller): Promise<WitnessMarkToday[]> {
    return (await this.marks.list(caller)).map(told);
  }

  @Allow('shipwright')
  @Mutation(() => AddWitnessMarkResult, { description: 'Sets a mark that is to be read on a rhythm.' })
  async addWitnessMark(
    @CurrentCaller() caller: Caller,
    @Args('name', { type: () => String, description: 'What is measured and where.' }) name: string,
    @Args('kind', { type: () => MarkKindEnum, description: 'What kind of distance.' }) kind: MarkKind,
    @Args('frame', { type: () => Int, nullable: true, description: 'The frame at which it lies.' })
    frame: number | null | undefined,
    @Args('everyDays', { type: () => Int, description: 'Read again after so many days.' }) everyDays: number,
    @Context() context: RequestContext,
  ): Promise<WitnessMarkPayload> {
    forgetRead(context);
    return payload(await this.marks.add(caller, { name, kind, frame: frame ?? null, everyDays }));
  }

  @Allow('shipwright', 'coordinator', 'director')
  @Mutation(() => EnterReadingsResult, { description: 'Enters what people read at a mark.' })
  async enterReadings(
    @CurrentCaller() caller: Caller,
    @Args('markId', { type: () => ID, description: 'Which mark.' }) markId: string,
    @Args('readings', { type: () => [ReadingInput], description: 'What was read; at most 50.' })
    readings: ReadingInput[],
    @Args('reason', {
      type: () => String,
      nullable: true,
      description:
        'Why she is measured from another baseline: the shipwright’s, once she was read after the first.',
    })
    reason: string | null | undefined,
    @Context() context: RequestContext,
  ): Promise<WitnessMarkPayload> {
    forgetRead(context);
    return payload(await this.marks.enter(caller, markId, readings, reason ?? null));
  }

  @Allow('shipwright')
  @Mutation(() => StrikeReadingResult, {
    description: 'Says that a reading was misread; it stays on record.',
  })
  async strikeReading(
    @CurrentCaller() caller: Caller,
    @Args('readingId', { type: () => ID, description: 'Which reading.' }) readingId: string,
    @Args('reason', { type: () => String, description: 'How it came to be misread.' }) reason: string,
    @Context() context: RequestContext,
  ): Promise<WitnessMarkPayload> {
    forgetRead(context);
    return payload(await this.marks.strike(caller, readingId, reason));
  }

  @Allow('shipwright')
  @Mutation(() => LiftShapeHoldResult, {
    description: 'Lets opening go on although a mark has moved, in your name and with your reason.',
  })
  async liftShapeHold(
    @CurrentCaller() caller: Caller,
    @Args('markId', { type: () => ID, description: 'Which mark.' }) markId: string,
    @Args('reason', { type: () => String, description: 'What was looked at, and why opening may go on.' })
    reason: string,
    @Context() context: RequestContext,
  ): Promise<WitnessMarkPayload> {
    forgetRead(context);
    return payload(await this.marks.lift(caller, markId, reason));
  }
}
