import { Allow, AllowSignedIn, type Caller, CurrentCaller, type RequestContext } from '@ribband/access';
import { NamedHand, volunteerLoader } from '@ribband/crew';
import { Database, LocalDate, LocalTime, refusable } from '@ribband/platform';
import { Task } from '@ribband/repair';
import { Inject } from '@nestjs/common';
import { Args, Context, ID, Int, Mutation, Parent, Query, ResolveField, Resolver } from '@nestjs/graphql';
import { rosterTaskLoader } from '../roster.loaders.js';
import type { HourEntryEntity } from './hour-entry.entity.js';
import { HourEntries } from './hour-entries.service.js';
import { HourPapers } from './hour-papers.service.js';
import { HoursTold } from './hours-told.service.js';
import {
  CrewList,
  HoursEntry,
  HoursLetterType,
  HoursLineInput,
  HoursPayload,
  HoursSheetLine,
  RightHoursInput,
} from './hours.types.js';
import { SignOns } from './sign-ons.service.js';
import { WorkKindEntity } from './work-kind.entity.js';

const SignOnResult = refusable('SignOnResult', () => HoursPayload);
const SignOffResult = refusable('SignOffResult', () => HoursPayload);
const EnterHoursResult = refusable('EnterHoursResult', () => HoursPayload);
const CorrectHoursResult = refusable('CorrectHoursResult', () => HoursPayload);
const AdjustHoursResult = refusable('AdjustHoursResult', () => HoursPayload);

/** Time given to the work: signing on and off, entering, putting right, and what is printed of it. */
@Resolver(() => HoursEntry)
export class HoursResolver {
  constructor(
    @Inject(SignOns) private readonly signOns: SignOns,
    @Inject(HourEntries) private readonly entries: HourEntries,
    @Inject(HoursTold) private readonly told: HoursTold,
    @Inject(HourPapers) private readonly papers: HourPapers,
    @Inject(Database) private readonly database: Database,
  ) {}

  @AllowSignedIn()
  @Query(() => HoursEntry, {
    nullable: true,
    description: 'The entry by which you are signed on; null when you are not.',
  })
  signedOn(@CurrentCaller() caller: Caller): Promise<HoursEntry | null> {
    return this.told.openOf(caller);
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Query(() => [HoursEntry], { description: 'Everybody who is signed on just now; at most 200.' })
  allSignedOn(@CurrentCaller() caller: Caller): Promise<HoursEntry[]> {
    return this.told.allOpen(caller);
  }

  @AllowSignedIn()
  @Query(() => [HoursEntry], {
    description:
      'The hours of some days, newest first, the newest 1,000: your own, or as coordinator anybody’s.',
  })
  hours(
    @CurrentCaller() caller: Caller,
    @Args('from', { type: () => LocalDate, description: 'The first day.' }) from: string,
    @Args('to', { type: () => LocalDate, description: 'The last day.' }) to: string,
    @Args('volunteerId', {
      type: () => ID,
      nullable: true,
      description: 'Whose; left out: everybody’s as coordinator or director, else your own.',
    })
    volunteerId: string | null = null,
  ): Promise<HoursEntry[]> {
    return this.told.between(caller, volunteerId, from, to);
  }

  @Allow('director', 'coordinator')
  @Query(() => [HoursSheetLine], {
    description: 'The paper form of a turnout, filled in with who came or was expected; at most 500 lines.',
  })
  hoursSheet(
    @CurrentCaller() caller: Caller,
    @Args('turnoutId', { type: () => ID, description: 'Which turnout.' }) turnoutId: string,
  ): Promise<HoursSheetLine[]> {
    return this.told.sheet(caller, turnoutId);
  }

  @AllowSignedIn()
  @Query(() => HoursLetterType, {
    description: 'A letter with somebody’s hours: your own, or as coordinator anybody’s.',
  })
  hoursLetter(
    @CurrentCaller() caller: Caller,
    @Args('from', { type: () => LocalDate, description: 'The first day.' }) from: string,
    @Args('to', { type: () => LocalDate, description: 'The last day.' }) to: string,
    @Args('volunteerId', { type: () => ID, nullable: true, description: 'To whom; left out: to yourself.' })
    volunteerId: string | null = null,
  ): Promise<HoursLetterType> {
    return this.papers.letter(caller, volunteerId, from, to);
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Query(() => CrewList, { description: 'Who is expected at a turnout and who was there, for the insurer.' })
  crewList(
    @CurrentCaller() caller: Caller,
    @Args('turnoutId', { type: () => ID, description: 'Which turnout.' }) turnoutId: string,
  ): Promise<CrewList> {
    return this.papers.crewList(caller, turnoutId);
  }

  @AllowSignedIn()
  @Mutation(() => SignOnResult, { description: 'Begins work: your own, or as coordinator somebody else’s.' })
  async signOn(
    @CurrentCaller() caller: Caller,
    @Args('taskId', {
      type: () => ID,
      nullable: true,
      description: 'On which task, if its gates let them; left out for work on none.',
    })
    taskId: string | null = null,
    @Args('from', {
      type: () => LocalTime,
      nullable: true,
      description: 'Since when today; left out: since they came, else now.',
    })
    from: string | null = null,
    @Args('volunteerId', { type: () => ID, nullable: true, description: 'For whom; left out: yourself.' })
    volunteerId: string | null = null,
  ): Promise<HoursPayload> {
    return this.payload(caller, [await this.signOns.on(caller, { taskId, from, volunteerId })]);
  }

  @AllowSignedIn()
  @Mutation(() => SignOffResult, { description: 'Ends work: your own, or as coordinator somebody else’s.' })
  async signOff(
    @CurrentCaller() caller: Caller,
    @Args('entryId', { type: () => ID, description: 'Which sign-on.' }) entryId: string,
    @Args('to', {
      type: () => LocalTime,
      nullable: true,
      description: 'When, of the next morning where it is before the start; left out: now.',
    })
    to: string | null = null,
  ): Promise<HoursPayload> {
    return this.payload(caller, [await this.signOns.off(caller, entryId, to)]);
  }

  @Allow('director', 'coordinator')
  @Mutation(() => EnterHoursResult, { description: 'Enters a sheet of hours: all of its lines or none.' })
  async enterHours(
    @CurrentCaller() caller: Caller,
    @Args('lines', { type: () => [HoursLineInput], description: 'Its lines; at most 200.' })
    lines: HoursLineInput[],
  ): Promise<HoursPayload> {
    const given = lines.map((line) => ({
      ...line,
      taskId: line.taskId ?? null,
      kindId: line.kindId ?? null,
      note: line.note ?? null,
    }));
    return this.payload(caller, await this.entries.enter(caller, given));
  }

  @AllowSignedIn()
  @Mutation(() => CorrectHoursResult, {
    description:
      'Puts hours right, your own or as coordinator anybody’s; what they said before stays on record.',
  })
  async correctHours(
    @CurrentCaller() caller: Caller,
    @Args('entryId', { type: () => ID, description: 'Which entry.' }) entryId: string,
    @Args('reason', { type: () => String, description: 'Why it was wrong.' }) reason: string,
    @Args('right', {
      type: () => RightHoursInput,
      nullable: true,
      description: 'What it should have said; left out to take it out.',
    })
    right: RightHoursInput | null = null,
  ): Promise<HoursPayload> {
    const given = right && { ...right, taskId: right.taskId ?? null, kindId: right.kindId ?? null };
    return this.payload(caller, [await this.entries.correct(caller, entryId, given, reason)]);
  }

  @Allow('director', 'coordinator')
  @Mutation(() => AdjustHoursResult, {
    description: 'Adds to hours of a closed period or takes from them, as an entry of its own dated today.',
  })
  async adjustHours(
    @CurrentCaller() caller: Caller,
    @Args('entryId', { type: () => ID, description: 'Which entry.' }) entryId: string,
    @Args('minutes', { type: () => Int, description: 'Minutes more, or fewer below 0.' }) minutes: number,
    @Args('reason', { type: () => String, description: 'Why they were wrong.' }) reason: string,
  ): Promise<HoursPayload> {
    return this.payload(caller, [await this.entries.adjust(caller, entryId, minutes, reason)]);
  }

  private async payload(caller: Caller, entries: HourEntryEntity[]): Promise<HoursPayload> {
    return Object.assign(new HoursPayload(), {
      entries: await this.told.tell(this.database.read, caller, entries),
    });
  }

  @ResolveField(() => NamedHand, { description: 'Whose hours.' })
  async hand(@Parent() entry: HoursEntry, @Context() context: RequestContext): Promise<NamedHand> {
    const { id, name } = await volunteerLoader(context, this.database.read).load(entry.volunteerId);
    return { volunteerId: id, name };
  }

  @ResolveField(() => Task, { nullable: true, description: 'The work; null for work on no task.' })
  task(@Parent() entry: HoursEntry, @Context() context: RequestContext): Promise<Task> | null {
    return entry.taskId === null ? null : rosterTaskLoader(context, this.database.read).load(entry.taskId);
  }

  @ResolveField(() => String, { description: 'The kind of work.' })
  async kind(@Parent() entry: HoursEntry): Promise<string> {
    return (await this.database.read.findOneByOrFail(WorkKindEntity, { id: entry.kindId })).name;
  }
}
