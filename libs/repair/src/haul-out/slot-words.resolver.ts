import { Allow, CurrentCaller, type Caller, type RequestContext } from '@ribband/access';
import { Database, LocalDate, refusable } from '@ribband/platform';
import { groupedBy, loader } from '@ribband/crew';
import { Inject } from '@nestjs/common';
import {
  Args,
  Context,
  Field,
  ID,
  Mutation,
  ObjectType,
  Parent,
  ResolveField,
  Resolver,
} from '@nestjs/graphql';
import { forgetRead } from '../repair.loaders.js';
import { slotWordsOf } from './haul-out.records.js';
import { LiftSlot } from './lift-slot.entity.js';
import { standingsOf } from './slots-left.js';
import { SlotWord, type SlotWordKind, SlotWordKindEnum } from './slot-word.entity.js';
import { SlotWords } from './slot-words.service.js';

@ObjectType({ description: 'It is written down.' })
export class SlotWordPayload {
  @Field(() => LiftSlot, { description: 'The slot with the word that holds now.' })
  slot!: LiftSlot;
}

const GiveSlotWordResult = refusable('GiveSlotWordResult', () => SlotWordPayload);

@Resolver(() => LiftSlot)
export class SlotWordsResolver {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(SlotWords) private readonly slotWords: SlotWords,
  ) {}

  @ResolveField(() => SlotWord, {
    nullable: true,
    description: 'What the yard was told about it; null while it is to be decided.',
  })
  async word(@Parent() slot: LiftSlot, @Context() context: RequestContext): Promise<SlotWord | null> {
    const words = loader(context, 'repair.slotWords', async (ids: readonly string[]) =>
      groupedBy(ids, await slotWordsOf(this.database.read, ids), ({ slotId }) => slotId),
    );
    return standingsOf([slot], await words.load(slot.id))[0]?.word ?? null;
  }

  @Allow('director')
  @Mutation(() => GiveSlotWordResult, {
    description: 'Writes down that the yard was told about a lift slot, and its answer.',
  })
  async giveSlotWord(
    @CurrentCaller() caller: Caller,
    @Args('slotId', { type: () => ID, description: 'The slot.' }) slotId: string,
    @Args('word', { type: () => SlotWordKindEnum, description: 'What the yard was told.' })
    word: SlotWordKind,
    @Args('on', { type: () => LocalDate, description: 'When.' }) on: string,
    @Args('by', { type: () => String, description: 'Who told the yard.' }) by: string,
    @Args('yardSays', {
      type: () => String,
      nullable: true,
      description: 'The yard’s answer, with its reference where it has one.',
    })
    yardSays: string | null | undefined,
    @Args('note', { type: () => String, nullable: true, description: 'Why, or anything to know.' })
    note: string | null | undefined,
    @Context() context: RequestContext,
  ): Promise<SlotWordPayload> {
    const given = { word, on, by, yardSays: yardSays ?? null, note: note ?? null };
    const { slot } = await this.slotWords.give(caller, slotId, given);
    forgetRead(context);
    return Object.assign(new SlotWordPayload(), { slot });
  }
}
