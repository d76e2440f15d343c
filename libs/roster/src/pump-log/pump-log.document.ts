import { leaves } from '@ribband/crew';
import { newId } from '@ribband/platform';
import { z } from 'zod';
import type { NamedThere } from '../hours/hours-faults.js';
import { hasFigures, type PumpEntryEntity } from './pump-entry.entity.js';

const { day, fromMoment, list, moment, time, toMoment, whole, words } = leaves;

/** The pump log in a yard document: each time that something was written, in order. */
export const pumpLogForm = list(
  z.strictObject({
    on: day,
    startTime: time,
    readAt: moment,
    depthMillimetres: whole.min(0).max(10_000).nullable(),
    strokes: whole.min(0).max(100_000).nullable(),
    minutes: whole.min(0).max(1440).nullable(),
    doneBy: words,
    remark: words.nullable(),
    /** Which entry of this list it corrects, the first being 0. */
    corrects: whole.min(0).nullable(),
    reason: words.nullable(),
    written: leaves.byAt.unwrap(),
  }),
  50_000,
);

type PumpLogDocument = z.infer<typeof pumpLogForm>;
type Named = { on: string; startTime: string };

export function readPumpLog(
  rows: readonly PumpEntryEntity[],
  at: (turnoutId: string) => Named,
): PumpLogDocument {
  const order = new Map(rows.map(({ id }, i) => [id, i]));
  return rows.map((row) => ({
    ...at(row.turnoutId),
    readAt: toMoment(row.readAt),
    depthMillimetres: row.depthMillimetres,
    strokes: row.strokes,
    minutes: row.minutes,
    doneBy: row.doneBy,
    remark: row.remark,
    corrects: row.correctsId === null ? null : (order.get(row.correctsId) ?? null),
    reason: row.reason,
    written: { at: toMoment(row.writtenAt), by: row.writtenBy },
  }));
}

export function pumpRows(
  organisationId: string,
  log: PumpLogDocument,
  at: (turnout: Named) => { turnoutId: string },
): PumpEntryEntity[] {
  const withIds = log.map((entry) => ({ ...entry, id: newId('pumpentry') }));
  return withIds.map(({ on, startTime, corrects, written, ...row }) => ({
    organisationId,
    ...at({ on, startTime }),
    ...row,
    readAt: fromMoment(row.readAt),
    correctsId: corrects === null ? null : (withIds[corrects]?.id ?? null),
    writtenBy: written.by,
    writtenAt: fromMoment(written.at),
  }));
}

/** What is wrong within it. */
export function pumpLogFaults(
  log: PumpLogDocument,
  named: Pick<NamedThere, 'watch'>,
  add: (path: string, message: string, wouldBeRight: string) => void,
): void {
  const corrected = new Set<number>();
  log.forEach((entry, i) => {
    const path = `turnoutBook.pumpLog[${i}]`;
    const { corrects, reason } = entry;
    named.watch(entry, `${path}.on`);
    if (corrects === null && !hasFigures(entry))
      add(path, 'has no figure and strikes nothing out', 'a depth, strokes or minutes; 0 for none');
    if ((corrects === null) !== (reason === null))
      add(`${path}.reason`, 'does not go with whether it corrects', 'why it corrects, else null');
    if (corrects === null) return;
    const other = log[corrects];
    if (corrects >= i || other?.on !== entry.on || other.startTime !== entry.startTime)
      add(
        `${path}.corrects`,
        'is no earlier entry of the same watch',
        'the place of one in this list, from 0',
      );
    if (corrected.has(corrects))
      add(`${path}.corrects`, 'is corrected twice', 'the newest entry in its place');
    corrected.add(corrects);
  });
}
