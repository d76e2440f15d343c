import { refuse } from '@ribband/platform';
import type { EntityManager } from 'typeorm';
import { effectiveTallies } from '../tallies/effective-tallies.js';
import { TallyEntity } from '../tallies/tally.entity.js';
import type { Task } from '../tasks/task.entity.js';
import { TrayEntryEntity } from './tray-entry.entity.js';
import { countOf, type LineKind, outKinds, type TrayLine } from './tray-line.js';
import { entriesThatCount } from './tray-standing.js';
import { blankEntry, entriesOf, writeEntry } from './tray.records.js';
import { Tray } from './tray.entity.js';

type Hand = Pick<TrayEntryEntity, 'enteredBy' | 'accountId'>;

/** What a plain tally on a task says of its tray. */
function lineFor(tray: Tray, task: Pick<Task, 'ref'>): LineKind | null {
  if (tray.pullRef === task.ref) return 'drawn';
  return tray.driveRef === task.ref ? 'driven' : null;
}

/**
 * A tally on a task that has a tray is the tray's entry as well: pulled is drawn whole, driven is driven from this tray.
 * Heads off and nails pulled through are said at the tray, which enters the tally itself.
 * @throws RefusalError NEGATIVE_COUNT when the tray has not so many
 */
export async function followTally(
  manager: EntityManager,
  task: Pick<Task, 'ref' | 'organisationId'>,
  tally: TallyEntity,
  hand: Hand,
): Promise<void> {
  if (!tally.count) return;
  const { organisationId, ref } = task;
  const trays = await manager.findBy(Tray, [
    { organisationId, pullRef: ref },
    { organisationId, driveRef: ref },
  ]);
  for (const tray of trays) {
    const kind = lineFor(tray, task);
    if (kind === null) continue;
    const { yardAt, enteredAt } = tally;
    const entry = blankEntry(tray, { yardAt, enteredAt, ...hand });
    await writeEntry(manager, tray, {
      ...entry,
      lines: [{ kind, count: tally.count }],
      tallyId: tally.id,
    });
  }
}

/**
 * A tally that is corrected takes its tray's entry along, where that says no more than the tally did.
 * @param first id of the tally as it was entered first
 * @throws RefusalError TASK_NOT_READY where more was said at the tray than a count
 */
export async function followCorrection(
  manager: EntityManager,
  tally: TallyEntity,
  chain: readonly string[],
  hand: Hand,
): Promise<void> {
  const named = await manager.findBy(
    TrayEntryEntity,
    chain.map((tallyId) => ({ organisationId: tally.organisationId, tallyId })),
  );
  for (const trayId of new Set(named.map((entry) => entry.trayId))) {
    const tray = await manager.findOneByOrFail(Tray, { id: trayId });
    const entries = entriesThatCount(await entriesOf(manager, trayId));
    const entry = entries.find((one) => one.tallyId !== null && chain.includes(one.tallyId));
    if (!entry) continue;
    const counted = countOf(entry.lines, [...outKinds, 'driven']);
    // What was sent back stands no longer in the entry: it changes by as much as the tally does.
    const before = await manager.findOneByOrFail(TallyEntity, { id: tally.correctsId ?? tally.id });
    const wanted = Math.max(0, counted + (tally.count ?? 0) - (before.count ?? 0));
    if (counted === wanted) continue;
    const [line] = entry.lines;
    if (entry.lines.length !== 1 || line === undefined)
      refuse('TASK_NOT_READY', `This tally was entered at tray ${tray.name}, with more than a count.`, {
        field: 'count',
        remedy: `Correct the entry of tray ${tray.name}; the tally follows it.`,
      });
    await writeEntry(manager, tray, {
      ...entry,
      ...blankEntry(tray, { yardAt: entry.yardAt, enteredAt: tally.enteredAt, ...hand }),
      frame: entry.frame,
      lines: wanted > 0 ? [{ kind: line.kind, count: wanted }] : [],
      tallyId: tally.id,
      note: entry.note,
      correctsId: entry.id,
      reason: tally.reason,
    });
  }
}

/**
 * Work that is sent back goes out of the tray as well: so many of the newest entries that belong to it are corrected
 * to fewer.
 * @throws RefusalError NEGATIVE_COUNT when more became of them meanwhile than would be left
 */
export async function followSendBack(
  manager: EntityManager,
  task: Pick<Task, 'ref' | 'organisationId'>,
  back: { count: number; reason: string; yardAt: number; enteredAt: number },
  hand: Hand,
): Promise<void> {
  const { organisationId, ref } = task;
  const trays = await manager.findBy(Tray, [
    { organisationId, pullRef: ref },
    { organisationId, driveRef: ref },
  ]);
  for (const tray of trays) {
    const kinds: readonly LineKind[] = lineFor(tray, task) === 'driven' ? ['driven'] : outKinds;
    let left = back.count;
    for (const entry of entriesThatCount(await entriesOf(manager, tray.id)).reverse()) {
      const here = Math.min(left, countOf(entry.lines, kinds));
      if (here === 0) continue;
      left -= here;
      await writeEntry(manager, tray, {
        ...entry,
        ...blankEntry(tray, { yardAt: entry.yardAt, enteredAt: back.enteredAt, ...hand }),
        frame: entry.frame,
        lines: fewer(entry.lines, kinds, here),
        holes: entry.holes,
        counted: entry.counted,
        lotId: entry.lotId,
        tallyId: entry.tallyId,
        twinId: entry.twinId,
        note: entry.note,
        correctsId: entry.id,
        reason: `sent back: ${back.reason}`,
      });
    }
  }
}

/** Lines with so many fewer of some kinds, taken from the last ones. */
function fewer(lines: readonly TrayLine[], kinds: readonly LineKind[], many: number): TrayLine[] {
  let left = many;
  return [...lines]
    .reverse()
    .map((line): TrayLine => {
      if (!kinds.includes(line.kind)) return line;
      const off = Math.min(left, line.count);
      left -= off;
      return { ...line, count: line.count - off };
    })
    .filter((line) => line.count > 0)
    .reverse();
}

/** Tallies that were entered before their tray was set up become its first entries. */
export async function takeOverTallies(
  manager: EntityManager,
  tray: Tray,
  task: Pick<Task, 'id' | 'ref'>,
): Promise<void> {
  const kind = lineFor(tray, task);
  const rows = await manager.find(TallyEntity, { where: { taskId: task.id }, order: { id: 'ASC' } });
  for (const { tally } of effectiveTallies(rows)) {
    if (!tally.count || kind === null) continue;
    const { yardAt, enteredAt, enteredBy } = tally;
    const entry = blankEntry(tray, { yardAt, enteredAt, enteredBy, accountId: null });
    await writeEntry(manager, tray, { ...entry, lines: [{ kind, count: tally.count }], tallyId: tally.id });
  }
}
