import { Audit, permit, type Caller } from '@ribband/access';
import { Database, RealClock, refuse, YardClock } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { Tallies, type RightTally, type TallyDraft } from '../tallies/tallies.service.js';
import { TallyEntity } from '../tallies/tally.entity.js';
import { Task } from '../tasks/task.entity.js';
import { wordsOf } from '../words.js';
import { HoleBook } from './hole-book.service.js';
import { linesOf, restOf, type TrayWords } from './tray-draft.js';
import { TrayEntryEntity } from './tray-entry.entity.js';
import { countOf, outKinds, type TrayLine } from './tray-line.js';
import { blankEntry, entriesOf, trayOf, writeEntry } from './tray.records.js';
import { standingOf, type TrayStanding } from './tray-standing.js';
import type { Tray } from './tray.entity.js';

/** When and by whom it was worked, for the tally that goes with an entry. */
export interface TrayWork {
  minutes: number;
  finished: boolean;
  volunteerId: string | null;
  turnoutId: string | null;
  on: string | null;
}

/** What is said of trays: one entry makes the tally of its task as well, in one transaction. */
@Injectable()
export class Trays {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(YardClock) private readonly yardClock: YardClock,
    @Inject(RealClock) private readonly realClock: RealClock,
    @Inject(Tallies) private readonly tallies: Tallies,
    @Inject(HoleBook) private readonly holes: HoleBook,
  ) {}

  /** How a tray stands by all that was entered. */
  async standing({ organisationId }: Caller, trayId: string): Promise<TrayStanding> {
    const tray = await trayOf(this.database.read, organisationId, trayId, 'trayId');
    const standing = standingOf(tray, await entriesOf(this.database.read, trayId));
    if ('fault' in standing) throw new Error(`tray ${tray.id}: ${standing.fault.message}`);
    return standing;
  }

  async enter(caller: Caller, trayId: string, said: TrayWords, work: TrayWork): Promise<Tray> {
    const { organisationId } = caller;
    const lines = linesOf(said);
    const rest = restOf(said, lines);
    if (lines.length === 0 && rest.holes.length === 0 && rest.counted === null)
      refuse('BAD_INPUT', 'Nothing is said of the tray.', {
        field: 'drawn',
        remedy: 'Enter at least one count.',
      });
    return this.database.write(async (manager) => {
      const tray = await trayOf(manager, organisationId, trayId, 'trayId');
      await this.refuseWrongPlace(manager, tray, said);
      const tally = await this.tally(manager, caller, tray, lines, work, rest.note);
      const entry = {
        ...(await this.blank(manager, caller, tray)),
        ...rest,
        lines,
        tallyId: tally?.id ?? null,
      };
      await writeEntry(manager, tray, entry);
      await this.audit.note(manager, caller, 'enterTray', entry.id, { tray: tray.id, lines });
      return tray;
    });
  }

  /** A new entry takes the place of the wrong one, which stays on record; its tally is corrected with it. */
  async correct(
    caller: Caller,
    entryId: string,
    said: TrayWords,
    right: { minutes: number | null; finished: boolean | null; reason: string },
  ): Promise<Tray> {
    const { organisationId } = caller;
    const lines = linesOf(said);
    const rest = restOf(said, lines);
    const reason = wordsOf(right.reason, 'reason', 500, 'Why it is corrected');
    return this.database.write(async (manager) => {
      const wrong = await this.entryOf(manager, caller, entryId);
      if (wrong.twinId !== null)
        refuse('BAD_INPUT', 'A move stands in two trays.', {
          field: 'entryId',
          remedy: 'Move them back, and say why.',
        });
      const tray = await trayOf(manager, organisationId, wrong.trayId, 'entryId');
      await this.refuseWrongPlace(manager, tray, said);
      const tallyId = await this.correctTally(manager, caller, tray, wrong, lines, { ...right, reason });
      const entry: TrayEntryEntity = {
        ...(await this.blank(manager, caller, tray)),
        ...rest,
        lines,
        yardAt: wrong.yardAt,
        tallyId,
        correctsId: wrong.id,
        reason,
      };
      await writeEntry(manager, tray, entry);
      await this.audit.note(manager, caller, 'correctTray', entry.id, { tray: tray.id, lines, reason });
      return tray;
    });
  }

  /** Nails that are not graded yet, from one tray to another of the same kind, with the reason in both. */
  async move(
    caller: Caller,
    fromId: string,
    toId: string,
    count: number,
    why: string,
  ): Promise<{ from: Tray; to: Tray }> {
    permit(caller, 'shipwright', 'coordinator', 'director');
    const { organisationId } = caller;
    const note = wordsOf(why, 'reason', 500, 'Why they are moved');
    if (!Number.isInteger(count) || count < 1)
      refuse('BAD_INPUT', `${count} is no count.`, { field: 'count', remedy: 'A whole number, 1 or more.' });
    return this.database.write(async (manager) => {
      const from = await trayOf(manager, organisationId, fromId, 'fromId');
      const to = await trayOf(manager, organisationId, toId, 'toId');
      if (from.id === to.id || from.fastening !== to.fastening)
        refuse('BAD_INPUT', `Tray ${to.name} does not hold the same kind of fastenings.`, {
          field: 'toId',
          remedy: `Another tray of ${from.fastening}.`,
        });
      const out = { ...(await this.blank(manager, caller, from)), note };
      const into = { ...(await this.blank(manager, caller, to)), note, twinId: out.id };
      await writeEntry(manager, from, {
        ...out,
        twinId: into.id,
        lines: [{ kind: 'lent', count, tray: to.name }],
      });
      await writeEntry(manager, to, { ...into, lines: [{ kind: 'received', count, tray: from.name }] });
      await this.audit.note(manager, caller, 'moveFastenings', out.id, {
        from: from.id,
        to: to.id,
        count,
        reason: note,
      });
      return { from, to };
    });
  }

  /** Staff correct any entry, volunteers those that they made. */
  private async entryOf(manager: EntityManager, caller: Caller, id: string): Promise<TrayEntryEntity> {
    const { organisationId } = caller;
    const entry =
      (await manager.findOneBy(TrayEntryEntity, { organisationId, id })) ??
      refuse('NOT_FOUND', 'There is no such entry.', { field: 'entryId', remedy: 'Read the tray again.' });
    if (entry.accountId !== caller.accountId) permit(caller, 'shipwright', 'coordinator', 'director');
    const newer = await manager.findOneBy(TrayEntryEntity, { correctsId: id });
    if (newer)
      refuse('CHANGED_MEANWHILE', 'This entry was corrected already.', {
        field: 'entryId',
        remedy: 'Correct the correction, if it is wrong.',
        facts: { correction: newer.id },
      });
    return entry;
  }

  private async refuseWrongPlace(manager: EntityManager, tray: Tray, said: TrayWords): Promise<void> {
    const { frame } = said;
    if (frame !== null && !tray.frames.some((one) => one.frame === frame))
      refuse('BAD_INPUT', `Tray ${tray.name} has no fastenings at frame ${frame}.`, {
        field: 'frame',
        remedy:
          tray.frames.length > 0
            ? `One of its frames: ${tray.frames.map((one) => one.frame).join(', ')}; or none.`
            : 'Leave the frame out.',
      });
    await this.holes.refuseUnknown(manager, tray, said.holes);
  }

  /** The tally of the task at which they come out or go back; null where nothing was pulled or driven. */
  private async tally(
    manager: EntityManager,
    caller: Caller,
    tray: Tray,
    lines: readonly TrayLine[],
    work: TrayWork,
    note: string | null,
  ): Promise<TallyEntity | null> {
    const { organisationId } = caller;
    const out = countOf(lines, outKinds);
    const driven = countOf(lines, ['driven']);
    if (out > 0 && driven > 0)
      refuse('BAD_INPUT', 'What comes out and what goes back is not said in one go.', {
        field: 'driven',
        remedy: 'Make two entries: they are two pieces of work.',
      });
    const ref = out > 0 ? tray.pullRef : driven > 0 ? tray.driveRef : null;
    const task = ref === null ? null : await manager.findOneBy(Task, { organisationId, ref });
    if (!task || task.droppedAt !== null) {
      if (work.minutes > 0 || work.finished)
        refuse('BAD_INPUT', 'No work is counted with this entry, so that it has no hours.', {
          field: 'minutes',
          remedy: 'Leave the hours out here, and enter them on the work itself.',
        });
      return null;
    }
    const count = task.estimateBy === 'count' ? out + driven : null;
    // Where the work itself is not counted, an entry without hours says nothing of it.
    if (count === null && work.minutes === 0 && !work.finished) return null;
    const draft: TallyDraft = { taskId: task.id, ...work, count, note };
    return (await this.tallies.enterIn(manager, caller, draft)).tally;
  }

  /** The tally of a corrected entry: corrected with it, or entered now where the wrong entry had none. */
  private async correctTally(
    manager: EntityManager,
    caller: Caller,
    tray: Tray,
    wrong: TrayEntryEntity,
    lines: readonly TrayLine[],
    right: { minutes: number | null; finished: boolean | null; reason: string },
  ): Promise<string | null> {
    if (wrong.tallyId === null) {
      const whole = { volunteerId: null, turnoutId: null, on: null };
      const work = { ...whole, minutes: right.minutes ?? 0, finished: right.finished ?? false };
      return (await this.tally(manager, caller, tray, lines, work, null))?.id ?? null;
    }
    const wasDriven = countOf(wrong.lines, ['driven']) > 0;
    if (countOf(lines, wasDriven ? outKinds : ['driven']) > 0)
      refuse(
        'BAD_INPUT',
        'An entry of what came out cannot become one of what went back, nor the other way.',
        {
          field: wasDriven ? 'drawn' : 'driven',
          remedy: 'Correct this one to nothing, and make another.',
        },
      );
    const old = await newestOf(manager, wrong.tallyId);
    // What was sent back stands no longer in the entry but still in its tally: the tally changes by as much as the entry.
    const counted = (of: readonly TrayLine[]) => countOf(of, [...outKinds, 'driven']);
    const count = Math.max(0, (old.count ?? counted(wrong.lines)) + counted(lines) - counted(wrong.lines));
    const tally: RightTally = { ...right, count, minutes: right.minutes ?? old.minutes };
    return (await this.tallies.correctIn(manager, caller, old.id, tally)).tally.id;
  }

  private async blank(manager: EntityManager, caller: Caller, tray: Tray): Promise<TrayEntryEntity> {
    return blankEntry(tray, {
      yardAt: await this.yardClock.now(caller.organisationId, manager),
      enteredAt: this.realClock.now(),
      enteredBy: caller.name,
      accountId: caller.accountId,
    });
  }
}

/** The newest correction of a tally. */
async function newestOf(manager: EntityManager, tallyId: string): Promise<TallyEntity> {
  let newest = await manager.findOneByOrFail(TallyEntity, { id: tallyId });
  for (;;) {
    const next = await manager.findOneBy(TallyEntity, { correctsId: newest.id });
    if (!next) return newest;
    newest = next;
  }
}
