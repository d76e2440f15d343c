import { Audit, permit, type Caller } from '@ribband/access';
import { YardDay } from '@ribband/crew';
import { addDays, Database, isDay, newId, refuse, Revisions } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { wordsGiven, wordsOrNull } from '../words.js';
import { haulOutInForce, slotStandingsOf } from './haul-out.records.js';
import { type SlotStanding, slotsLeft } from './slots-left.js';
import { SlotWord, type SlotWordKind } from './slot-word.entity.js';

/** What is written down about a slot. */
export interface SlotWordGiven {
  word: SlotWordKind;
  on: string;
  by: string;
  yardSays: string | null;
  note: string | null;
}

/** What the yard is told about the lift slots: confirmed, released, or taken back. */
@Injectable()
export class SlotWords {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(YardDay) private readonly yardDay: YardDay,
  ) {}

  /**
   * Writes down what the yard was told. A slot that is released is none that the plan may aim at or lift in, so a
   * plan is asked for; so it is where a released one is had again.
   */
  async give(caller: Caller, slotId: string, given: SlotWordGiven): Promise<SlotStanding> {
    permit(caller, 'director');
    const givenBy = wordsGiven(given.by, 'by', 2, 200, 'The name of who told the yard.');
    const yardSays = wordsOrNull(given.yardSays, 'yardSays', 500, 'The yard’s answer');
    const note = wordsOrNull(given.note, 'note', 500, 'The note');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const haulOut = await haulOutInForce(manager, organisationId);
      const standings = haulOut ? await slotStandingsOf(manager, haulOut.id) : [];
      const found =
        standings.find(({ slot }) => slot.id === slotId) ??
        refuse('NOT_FOUND', 'There is no such lift slot.', {
          field: 'slotId',
          remedy: 'Look at the slots again.',
        });
      const today = await this.yardDay.today(organisationId, manager);
      refuseUnlessNews(found, given.word);
      refuseUnlessDay(found, given.on, {
        today,
        earliest: addDays(haulOut?.hauledOutOn ?? today, -daysBefore),
      });
      if (given.word === 'released') refuseLast(standings, slotId);
      const row: SlotWord = {
        id: newId('slotword'),
        organisationId,
        slotId,
        word: given.word,
        givenOn: given.on,
        givenBy,
        yardSays,
        note,
      };
      await manager.insert(SlotWord, row);
      const { word, givenOn } = row;
      const before = found.word?.word ?? null;
      const facts = {
        on: found.slot.liftsOn,
        kind: found.slot.kind,
        word,
        before,
        givenOn,
        givenBy,
        yardSays,
        note,
      };
      await this.audit.note(manager, caller, 'giveSlotWord', slotId, facts);
      if (word === 'released' || before === 'released')
        await this.revisions.requestPlan(manager, organisationId, `giveSlotWord: ${word}`);
      return { slot: found.slot, word: word === 'taken back' ? null : row };
    }, `slots ${organisationId}`);
  }
}

const said: Record<SlotWordKind, string> = {
  confirmed: 'is confirmed already',
  released: 'is released already',
  'taken back': 'has no word to be taken back',
};

function refuseUnlessNews({ slot, word }: SlotStanding, wanted: SlotWordKind): void {
  if ((word?.word ?? 'taken back') !== wanted) return;
  const by = word ? ` by ${word.givenBy}, on ${word.givenOn}` : '';
  refuse('ALREADY_EXISTS', `The slot of ${slot.liftsOn} ${said[wanted]}${by}.`, {
    field: 'word',
    remedy: 'Look at the slots again; somebody may have written it down meanwhile.',
  });
}

function refuseUnlessDay(
  { word }: SlotStanding,
  on: string,
  { today, earliest }: { today: string; earliest: string },
): void {
  if (isDay(on) && on <= today && on >= (word?.givenOn ?? earliest)) return;
  refuse('BAD_INPUT', `${on} is no day on which that can have been said.`, {
    field: 'on',
    remedy: word
      ? `A day from ${word.givenOn}, when it was ${word.word}, to ${today}.`
      : `A day from ${earliest}, a year before she was hauled out, to ${today}.`,
  });
}

/** Slots are spoken of before she is out, but not for years. */
const daysBefore = 365;

/** Without any slot there would be no day to aim at. */
function refuseLast(standings: readonly SlotStanding[], slotId: string): void {
  if (slotsLeft(standings).some(({ slot }) => slot.id !== slotId)) return;
  refuse('STILL_IN_USE', 'It is the only slot that is left, and the plan has to aim at one.', {
    field: 'word',
    remedy: 'Book a further slot with the yard and read it in with the yard’s document first.',
  });
}
