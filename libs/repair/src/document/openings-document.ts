import type { Eyes } from '@ribband/hull';
import { insertAll, known } from '@ribband/crew';
import { instantToLocal, localToInstant, newId } from '@ribband/platform';
import type { EntityManager, EntityTarget } from 'typeorm';
import { HoldPoint } from '../hold-points/hold-point.entity.js';
import { HoldLift } from '../marks/hold-lift.entity.js';
import { MarkReading, type ReadingTime } from '../marks/mark-reading.entity.js';
import { type MarkKind, WitnessMark } from '../marks/witness-mark.entity.js';
import { ElementReport } from '../openings/element-report.entity.js';
import type { Side } from '../openings/hull-element.entity.js';
import { HullSupport, type SupportKind } from '../openings/hull-support.entity.js';
import { LayoutChoice } from '../planking/layout-choice.entity.js';

/** What is kept of a hull while she is open. */
export interface OpeningsDocument {
  supports: SupportDocument[];
  /** What was seen at the yard, in the order of entry. */
  reports: {
    element: string;
    isOpen: boolean;
    seenBy: string;
    on: string;
    time: string;
    enteredBy: string;
    note: string | null;
  }[];
  witnessMarks: MarkDocument[];
  holdPoints: {
    task: string;
    eyes: Eyes;
    noticeDays: number;
    notice: { on: string; by: string } | null;
    seen: { on: string; by: string } | null;
    note: string | null;
  }[];
  plankLayouts: { side: Side; butts: { strake: number; bay: number }[]; by: string; reason: string }[];
}

interface SupportDocument {
  ref: string;
  kind: SupportKind;
  /** Null: both. */
  side: Side | null;
  /** Both null: wherever she is opened. */
  firstFrame: number | null;
  lastFrame: number | null;
  /** The work that sets it, or null where it was just seen. */
  task: string | null;
  seen: { on: string; by: string } | null;
  struck: { on: string; by: string } | null;
}

interface MarkDocument {
  ref: string;
  name: string;
  kind: MarkKind;
  frame: number | null;
  everyDays: number;
  /** Readings and lifted holds in the order of entry: a lift covers the readings before it. */
  entries: (
    | {
        kind: 'reading';
        on: string;
        time: ReadingTime;
        reader: string;
        millimetres: number;
        enteredBy: string;
        struck: { by: string; reason: string } | null;
      }
    | { kind: 'lift'; by: string; reason: string }
  )[];
}

export const noOpenings: OpeningsDocument = {
  supports: [],
  reports: [],
  witnessMarks: [],
  holdPoints: [],
  plankLayouts: [],
};

type Keys = ReadonlyMap<string, string>;
/** Refs by id when reading, ids by ref when writing. */
interface Around {
  elements: Keys;
  tasks: Keys;
  timeZone: string;
}

const dated = (on: string | null, by: string | null): { on: string; by: string } | null =>
  on === null || by === null ? null : { on, by };

export async function readOpenings(
  manager: EntityManager,
  organisationId: string,
  { elements, tasks, timeZone }: Around,
): Promise<OpeningsDocument> {
  const rows = <T extends object>(entity: EntityTarget<T>): Promise<T[]> =>
    manager.find(entity, { where: { organisationId }, order: { id: 'ASC' } } as never);
  const readings = await rows(MarkReading);
  const lifts = await rows(HoldLift);
  return {
    supports: (await rows(HullSupport))
      // What a dropped task would have set is gone with it.
      .filter(({ taskId }) => taskId === null || tasks.has(taskId))
      .map(({ ref, kind, side, firstFrame, lastFrame, ...row }) => ({
        ref,
        kind,
        side,
        firstFrame,
        lastFrame,
        task: row.taskId === null ? null : known(tasks, row.taskId),
        seen: dated(row.seenOn, row.seenBy),
        struck: dated(row.struckOn, row.struckBy),
      })),
    reports: (await rows(ElementReport)).map(({ elementId, isOpen, seenBy, yardAt, enteredBy, note }) => {
      const { day, time } = instantToLocal(yardAt, timeZone);
      return { element: known(elements, elementId), isOpen, seenBy, on: day, time, enteredBy, note };
    }),
    witnessMarks: (await rows(WitnessMark)).map(({ id, ref, name, kind, frame, everyDays }) => ({
      ref,
      name,
      kind,
      frame,
      everyDays,
      entries: entriesOf(
        readings.filter((one) => one.markId === id),
        lifts.filter((one) => one.markId === id),
      ),
    })),
    holdPoints: (await rows(HoldPoint)).flatMap(({ taskId, eyes, noticeDays, note, ...row }) => {
      const task = tasks.get(taskId);
      if (task === undefined) return [];
      const notice = dated(row.noticeOn, row.noticeBy);
      return [{ task, eyes, noticeDays, notice, seen: dated(row.seenOn, row.seenBy), note }];
    }),
    plankLayouts: (await rows(LayoutChoice)).map(({ side, butts, by, reason }) => ({
      side,
      butts,
      by,
      reason,
    })),
  };
}

function entriesOf(readings: MarkReading[], lifts: HoldLift[]): MarkDocument['entries'] {
  const entries = [
    ...readings.map((row) => ({
      at: row.enteredAt,
      entry: {
        kind: 'reading' as const,
        on: row.readOn,
        time: row.time,
        reader: row.reader,
        millimetres: row.millimetres,
        enteredBy: row.enteredBy,
        struck: row.struckBy === null ? null : { by: row.struckBy, reason: row.struckReason ?? '' },
      },
    })),
    ...lifts.map(({ liftedAt, by, reason }) => ({
      at: liftedAt,
      entry: { kind: 'lift' as const, by, reason },
    })),
  ];
  return entries.sort((a, b) => a.at - b.at).map(({ entry }) => entry);
}

/** @param entered by whom and when the document is read in */
export async function writeOpenings(
  manager: EntityManager,
  organisationId: string,
  document: OpeningsDocument,
  { elements, tasks, timeZone }: Around,
  entered: { enteredBy: string; enteredAt: number },
): Promise<void> {
  const base = (kind: string) => ({ id: newId(kind), organisationId });
  await insertAll(
    manager,
    HullSupport,
    document.supports.map(({ task, seen, struck, ...row }) => ({
      ...base('support'),
      version: 1,
      ...row,
      taskId: task === null ? null : known(tasks, task),
      seenOn: seen?.on ?? null,
      seenBy: seen?.by ?? null,
      struckOn: struck?.on ?? null,
      struckBy: struck?.by ?? null,
    })),
  );
  await insertAll(
    manager,
    ElementReport,
    document.reports.map(({ element, on, time, ...row }) => ({
      ...base('report'),
      ...row,
      elementId: known(elements, element),
      yardAt: localToInstant(on, time, timeZone),
      enteredAt: entered.enteredAt,
    })),
  );
  await writeMarks(manager, organisationId, document.witnessMarks, entered.enteredAt);
  await insertAll(
    manager,
    HoldPoint,
    document.holdPoints.map(({ task, eyes, noticeDays, notice, seen, note }) => ({
      ...base('holdpoint'),
      taskId: known(tasks, task),
      eyes,
      noticeDays,
      noticeOn: notice?.on ?? null,
      noticeBy: notice?.by ?? null,
      seenOn: seen?.on ?? null,
      seenBy: seen?.by ?? null,
      note,
    })),
  );
  await insertAll(
    manager,
    LayoutChoice,
    document.plankLayouts.map((row) => ({ ...base('layout'), ...row, chosenAt: entered.enteredAt })),
  );
}

async function writeMarks(
  manager: EntityManager,
  organisationId: string,
  documents: MarkDocument[],
  enteredAt: number,
): Promise<void> {
  const base = (kind: string) => ({ id: newId(kind), organisationId });
  const marks = documents.map(({ entries, ...mark }) => ({
    entries,
    mark: { ...base('mark'), ...mark, madeAt: enteredAt },
  }));
  await insertAll(
    manager,
    WitnessMark,
    marks.map(({ mark }) => mark),
  );
  for (const { mark, entries } of marks) {
    // A millisecond apart, so that the order of entry stays.
    const at = (i: number): number => enteredAt - entries.length + i;
    await insertAll(
      manager,
      MarkReading,
      entries.flatMap((entry, i) => {
        if (entry.kind !== 'reading') return [];
        const { on, time, reader, millimetres, enteredBy, struck } = entry;
        return [
          {
            ...base('reading'),
            markId: mark.id,
            readOn: on,
            time,
            reader,
            millimetres,
            enteredAt: at(i),
            enteredBy,
            struckBy: struck?.by ?? null,
            struckReason: struck?.reason ?? null,
          },
        ];
      }),
    );
    await insertAll(
      manager,
      HoldLift,
      entries.flatMap((entry, i) => {
        if (entry.kind !== 'lift') return [];
        return [{ ...base('lift'), markId: mark.id, by: entry.by, reason: entry.reason, liftedAt: at(i) }];
      }),
    );
  }
}
