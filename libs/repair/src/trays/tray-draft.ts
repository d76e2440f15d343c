import { refuse } from '@ribband/platform';
import { wordsOf, wordsOrNull } from '../words.js';
import { inOrder, type GradedHole, type LineKind, type TrayLine } from './tray-line.js';
import { fieldOf } from './tray.records.js';

/** What is said of a tray in one go; counts that are absent or 0 say nothing. */
export interface TrayWords {
  frame: number | null;
  counts: Partial<Record<Exclude<LineKind, 'received' | 'lent'>, number>>;
  leftReason: string | null;
  lostReason: string | null;
  holes: GradedHole[];
  counted: number | null;
  lotId: string | null;
  note: string | null;
}

const most = 100_000;
const mostHoles = 500;

/** The lines of an entry. @throws RefusalError naming the field that is wrong */
export function linesOf(said: TrayWords): TrayLine[] {
  const { counts, holes } = said;
  const graded = { sound: 0, scrapped: 0 };
  for (const { nail } of holes) {
    if (nail === 'sound') graded.sound += 1;
    if (nail === 'scrap') graded.scrapped += 1;
  }
  if (holes.length > 0 && (counts.sound || counts.scrapped))
    refuse('BAD_INPUT', 'Nails are graded hole by hole or by the count, not both at once.', {
      field: counts.sound ? 'sound' : 'scrapped',
      remedy: 'Leave the counts out: they follow from the holes.',
    });
  if (holes.length > mostHoles)
    refuse('BAD_INPUT', 'That is more holes than one entry takes.', {
      field: 'holes',
      remedy: `At most ${mostHoles}.`,
    });
  const all = holes.length > 0 ? { ...counts, ...graded } : counts;
  const lines: TrayLine[] = [];
  for (const [key, count] of Object.entries(all)) {
    const kind = key as LineKind;
    refuseNoCount(count, fieldOf[kind]);
    if (count === 0) continue;
    const line: TrayLine = { kind, count };
    if (kind === 'left in place')
      line.reason = wordsOf(said.leftReason ?? '', 'leftReason', 300, 'Why the stubs stay');
    if (kind === 'lost')
      line.reason = wordsOf(said.lostReason ?? '', 'lostReason', 300, 'What is known of it');
    lines.push(line);
  }
  return inOrder(lines);
}

function refuseNoCount(count: number, field: string): void {
  if (count < 0)
    refuse('NEGATIVE_COUNT', `${count} is below zero.`, {
      field,
      remedy: 'How many there were, 0 or more; to take some off, correct the entry that was too high.',
    });
  if (!Number.isInteger(count) || count > most)
    refuse('BAD_INPUT', `${count} is no count.`, { field, remedy: `A whole number up to ${most}.` });
}

/** The rest of an entry as it is kept. */
export function restOf(said: TrayWords, lines: readonly TrayLine[]) {
  if (said.counted !== null) refuseNoCount(said.counted, 'counted');
  if (said.lotId !== null && !lines.some((line) => line.kind === 'bought'))
    refuse('BAD_INPUT', 'A lot is named, and nothing was put in from it.', {
      field: 'bought',
      remedy: 'Say how many, or leave the lot out.',
    });
  if (said.lotId === null && lines.some((line) => line.kind === 'bought'))
    refuse('BAD_INPUT', 'From which lot were they?', {
      field: 'lotId',
      remedy: 'Choose the lot they came with.',
    });
  for (const { hole, plugTenths } of said.holes)
    if (
      (hole === 'enlarged') !== (plugTenths !== null) ||
      (plugTenths !== null && !(plugTenths >= 10 && plugTenths <= 1000))
    )
      refuse('BAD_INPUT', 'An enlarged hole has the size of its plug, a sound one has none.', {
        field: 'holes',
        remedy: 'A plug is 1 to 100 millimetres wide.',
      });
  return {
    frame: said.frame,
    holes: said.holes,
    counted: said.counted,
    lotId: said.lotId,
    note: wordsOrNull(said.note, 'note', 500, 'The note'),
  };
}
