import { Audit, permit, type Caller } from '@ribband/access';
import { freeRef, insertAll } from '@ribband/crew';
import {
  Database,
  instantToLocal,
  isDay,
  newId,
  RealClock,
  refuse,
  Revisions,
  YardClock,
} from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { HullRecords } from '../hull/hull-records.service.js';
import { wordsGiven } from '../words.js';
import { HoldLift } from './hold-lift.entity.js';
import { MarkReading, type ReadingTime } from './mark-reading.entity.js';
import { type MarkState, markState } from './mark-state.js';
import { type MarkKind, WitnessMark } from './witness-mark.entity.js';

/** A mark with everything read at it, oldest first, and what that says today. */
export interface MarkToday {
  mark: WitnessMark;
  readings: MarkReading[];
  lifts: HoldLift[];
  state: MarkState;
}

export interface ReadingDraft {
  on: string;
  time: ReadingTime;
  reader: string;
  millimetres: number;
}

const mostMarks = 200;
const mostAtOnce = 50;
const longest = 100_000;
const readers = ['shipwright', 'coordinator', 'director'] as const;

/** Whether she keeps her shape: marks, readings, holds and their lifting. */
@Injectable()
export class Marks {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(YardClock) private readonly yardClock: YardClock,
    @Inject(RealClock) private readonly realClock: RealClock,
    @Inject(HullRecords) private readonly hulls: HullRecords,
  ) {}

  list(caller: Caller): Promise<MarkToday[]> {
    return this.read(this.database.read, caller.organisationId);
  }

  /** At most 200, in the order in which they were made. */
  async read(manager: EntityManager, organisationId: string): Promise<MarkToday[]> {
    const inOrder = { where: { organisationId }, order: { id: 'ASC' } } as const;
    const marks = await manager.find(WitnessMark, { ...inOrder, take: mostMarks });
    if (marks.length === 0) return [];
    const readings = await manager.find(MarkReading, inOrder);
    const lifts = await manager.find(HoldLift, inOrder);
    const { today, hauledOutOn } = await this.day(manager, organisationId);
    return marks.map((mark) => {
      const own = readings.filter((one) => one.markId === mark.id);
      const lifted = lifts.filter((one) => one.markId === mark.id);
      return { mark, readings: own, lifts: lifted, state: markState(mark, own, lifted, today, hauledOutOn) };
    });
  }

  async add(
    caller: Caller,
    draft: { name: string; kind: MarkKind; frame: number | null; everyDays: number },
  ): Promise<MarkToday> {
    permit(caller, 'shipwright');
    const name = wordsGiven(draft.name, 'name', 3, 200, 'What is measured, and where.');
    needWhole(draft.everyDays, 'everyDays', 1, 90);
    if (draft.frame !== null) needWhole(draft.frame, 'frame', 1, 500);
    return this.database.write(async (manager) => {
      const { organisationId } = caller;
      const marks = await manager.findBy(WitnessMark, { organisationId });
      if (marks.some((one) => one.name.toLowerCase() === name.toLowerCase()))
        refuse('BAD_INPUT', `There is a mark "${name}" already.`, {
          field: 'name',
          remedy: 'Say where this one differs.',
        });
      const haulOut = await haulOutInForce(manager, organisationId);
      const last = haulOut && (await this.hulls.outlineOf(manager, haulOut.id))?.frames.count;
      if (last && draft.frame !== null) needWhole(draft.frame, 'frame', 1, last);
      if (marks.length >= mostMarks)
        refuse('BAD_INPUT', `${mostMarks} marks are enough.`, {
          field: 'name',
          remedy: 'Use those there are.',
        });
      const mark: WitnessMark = {
        id: newId('mark'),
        organisationId,
        ref: await freeRef(manager, WitnessMark, organisationId, name),
        name,
        kind: draft.kind,
        frame: draft.frame,
        everyDays: draft.everyDays,
        madeAt: this.realClock.now(),
      };
      await manager.insert(WitnessMark, mark);
      await this.changed(manager, caller, 'addWitnessMark', mark, {});
      return this.one(manager, organisationId, mark.id);
    });
  }

  /**
   * Enters what some people read. A mark counts as read only when it was read by each reader for himself.
   * @param reason why she is measured from another baseline; the shipwright's, once she was read after the first
   */
  async enter(
    caller: Caller,
    markId: string,
    drafts: readonly ReadingDraft[],
    reason: string | null = null,
  ): Promise<MarkToday> {
    permit(caller, ...readers);
    if (drafts.length === 0 || drafts.length > mostAtOnce)
      refuse('BAD_INPUT', `${drafts.length} readings at once.`, {
        field: 'readings',
        remedy: `From 1 to ${mostAtOnce}.`,
      });
    return this.database.write(async (manager) => {
      const { organisationId } = caller;
      const before = await this.one(manager, organisationId, markId);
      const { mark } = before;
      const day = await this.day(manager, organisationId);
      drafts.forEach((draft, i) => {
        refuseUnsound(draft, `readings[${i}]`, day);
      });
      const why = drafts.some(({ time }) => time === 'after blocking')
        ? newBaseline(caller, before, reason)
        : null;
      await insertAll(
        manager,
        MarkReading,
        drafts.map(({ on, time, reader, millimetres }) => ({
          id: newId('reading'),
          organisationId,
          markId,
          readOn: on,
          time,
          reader: reader.trim(),
          millimetres,
          enteredAt: this.realClock.now(),
          enteredBy: caller.name,
          struckBy: null,
          struckReason: null,
        })),
      );
      const now = await this.one(manager, organisationId, markId);
      const facts = { readings: drafts.length, held: now.state.held !== null };
      await this.changed(
        manager,
        caller,
        'enterReadings',
        mark,
        why === null ? facts : { ...facts, reason: why },
      );
      return now;
    });
  }

  /** A reading that was misread stays on record and counts no more. A hold that it made still has to be lifted. */
  async strike(caller: Caller, readingId: string, reason: string): Promise<MarkToday> {
    permit(caller, 'shipwright');
    const why = wordsGiven(reason, 'reason', 10, 500, 'How it came to be misread.');
    return this.database.write(async (manager) => {
      const { organisationId } = caller;
      const reading =
        (await manager.findOneBy(MarkReading, { organisationId, id: readingId })) ??
        refuse('NOT_FOUND', 'There is no such reading.', { field: 'readingId', remedy: 'Read them again.' });
      if (reading.struckBy !== null)
        refuse('BAD_INPUT', `${reading.struckBy} has struck it already.`, {
          field: 'readingId',
          remedy: 'The first reason stays on record.',
        });
      const before = await this.one(manager, organisationId, reading.markId);
      if (before.state.held !== null)
        refuse('SHAPE_HOLD', 'Opening is held at this mark: the hold is lifted first, with its own reason.', {
          field: 'readingId',
          remedy: 'Read again, lift the hold, then strike the reading.',
        });
      await manager.update(MarkReading, { id: readingId }, { struckBy: caller.name, struckReason: why });
      await this.changed(manager, caller, 'strikeReading', before.mark, { reason: why });
      return this.one(manager, organisationId, reading.markId);
    });
  }

  /** Lets opening go on, in the shipwright's name and with a reason. */
  async lift(caller: Caller, markId: string, reason: string): Promise<MarkToday> {
    permit(caller, 'shipwright');
    const why = wordsGiven(reason, 'reason', 10, 1000, 'What was looked at, and why opening may go on.');
    return this.database.write(async (manager) => {
      const { organisationId } = caller;
      const { mark, state } = await this.one(manager, organisationId, markId);
      if (state.held === null)
        refuse('BAD_INPUT', `Nothing is held at "${mark.name}".`, {
          field: 'markId',
          remedy: 'Read them again.',
        });
      const liftedAt = this.realClock.now();
      await manager.insert(HoldLift, {
        id: newId('lift'),
        organisationId,
        markId,
        by: caller.name,
        reason: why,
        liftedAt,
      });
      await this.changed(manager, caller, 'liftShapeHold', mark, { reason: why, held: state.held });
      return this.one(manager, organisationId, markId);
    });
  }

  private async one(manager: EntityManager, organisationId: string, markId: string): Promise<MarkToday> {
    const marks = await this.read(manager, organisationId);
    return (
      marks.find(({ mark }) => mark.id === markId) ??
      refuse('NOT_FOUND', 'There is no such mark.', { field: 'markId', remedy: 'Choose one from the list.' })
    );
  }

  private async day(
    manager: EntityManager,
    organisationId: string,
  ): Promise<{ today: string; hauledOutOn: string; haulOut: string | null }> {
    const haulOut = await haulOutInForce(manager, organisationId);
    const now = await this.yardClock.now(organisationId, manager);
    const today = instantToLocal(now, haulOut?.timeZone ?? 'UTC').day;
    const hauledOutOn = haulOut?.hauledOutOn ?? null;
    return { today, hauledOutOn: hauledOutOn ?? today, haulOut: hauledOutOn };
  }

  private async changed(
    manager: EntityManager,
    caller: Caller,
    operation: string,
    mark: WitnessMark,
    facts: Record<string, unknown>,
  ): Promise<void> {
    await this.revisions.requestPlan(manager, caller.organisationId, `${operation}: ${mark.name}`);
    await this.audit.note(manager, caller, operation, mark.id, facts);
  }
}

function needWhole(value: number, field: string, least: number, most: number): void {
  if (Number.isInteger(value) && value >= least && value <= most) return;
  refuse('BAD_INPUT', `${value} does not fit here.`, {
    field,
    remedy: `A whole number from ${least} to ${most}.`,
  });
}

/** Once she was read after blocking, or is held, what she is measured from is the shipwright's word, with a reason. */
function newBaseline(caller: Caller, { readings, state }: MarkToday, reason: string | null): string | null {
  const wasRead = readings.some(({ time, struckBy }) => time === 'later' && struckBy === null);
  if (!wasRead && state.held === null) return null;
  permit(caller, 'shipwright');
  return wordsGiven(reason ?? '', 'reason', 10, 500, 'Why she is measured from another baseline.');
}

function refuseUnsound(
  { on, time, reader, millimetres }: ReadingDraft,
  path: string,
  { today, haulOut }: { today: string; haulOut: string | null },
): void {
  if (!isDay(on) || on > today)
    refuse('BAD_INPUT', `${on} is no day on which it can have been read.`, {
      field: `${path}.on`,
      remedy: `A day such as ${today}, not after it.`,
    });
  if (haulOut !== null && (time === 'afloat' ? on > haulOut : on < haulOut))
    refuse(
      'BAD_INPUT',
      `The haul-out is on ${haulOut}: on ${on} she was ${time === 'afloat' ? 'afloat no more' : 'still afloat'}.`,
      {
        field: `${path}.on`,
        remedy:
          time === 'afloat'
            ? 'The day of the haul-out or one before.'
            : 'The day of the haul-out or one after.',
      },
    );
  if (reader.trim() === '' || reader.length > 200)
    refuse('BAD_INPUT', 'Who read it?', {
      field: `${path}.reader`,
      remedy: 'The name of who held the tape.',
    });
  if (!Number.isFinite(millimetres) || millimetres <= 0 || millimetres > longest)
    refuse('BAD_INPUT', `${millimetres} mm is no distance on a vessel.`, {
      field: `${path}.millimetres`,
      remedy: `More than 0 and at most ${longest} mm.`,
    });
}
