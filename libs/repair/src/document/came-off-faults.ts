import { createHash } from 'node:crypto';
import { readTag } from '@ribband/hull';
import { cleanPicture } from '../pictures/clean-picture.js';
import { countOf } from '../trays/tray-line.js';
import { standingOf } from '../trays/tray-standing.js';
import type { CameOffDocument, PictureDocument } from './came-off-document.js';
import { entryRow, trayRow } from './write-came-off.js';

type Add = (path: string, message: string, wouldBeRight: string) => void;

/** What is wrong within the trays, lots and pieces of a document whose shape is right. */
export function cameOffFaults({ lots, trays, pieces }: CameOffDocument, add: Add): void {
  const lotIds = new Map(lots.map((lot) => [lot.ref, lot.ref]));
  const taken = new Map<string, number>();
  twice(
    lots.map((lot) => lot.ref),
    (at) => `cameOff.lots[${at}].ref`,
    add,
  );
  twice(
    trays.map((tray) => tray.ref),
    (at) => `cameOff.trays[${at}].ref`,
    add,
  );
  trays.forEach(({ entries, repairs: _repairs, ...one }, at) => {
    const path = `cameOff.trays[${at}]`;
    const unknown = entries.findIndex((entry) => entry.lot !== null && !lotIds.has(entry.lot));
    if (unknown >= 0) {
      add(
        `${path}.entries[${unknown}].lot`,
        `there is no lot "${entries[unknown]?.lot ?? ''}"`,
        'a ref of cameOff.lots',
      );
      return;
    }
    const tray = trayRow('', one);
    const none = { enteredBy: '', enteredAt: 0 };
    const rows = entries.map((entry) => entryRow(tray, entry, lotIds, none, () => 0));
    const standing = standingOf(tray, rows);
    if ('fault' in standing) add(`${path}.entries`, standing.fault.message, standing.fault.wouldBeRight);
    for (const { lot, lines } of entries)
      if (lot !== null) taken.set(lot, (taken.get(lot) ?? 0) + countOf(lines, ['bought']));
  });
  lots.forEach((lot, at) => {
    if ((taken.get(lot.ref) ?? 0) > lot.count)
      add(
        `cameOff.lots[${at}].count`,
        'fewer came than were put into trays',
        `at least ${taken.get(lot.ref) ?? 0}`,
      );
  });
  twice(
    pieces.map((piece) => piece.code),
    (at) => `cameOff.pieces[${at}].code`,
    add,
  );
  pieces.forEach(({ code, pictures }, at) => {
    const tag = readTag(code);
    if (tag.kind !== 'right' || tag.code !== code)
      add(
        `cameOff.pieces[${at}].code`,
        `"${code}" is no code of a tag`,
        'as it stands on the tag, such as K7M-4TX',
      );
    pictures.forEach((picture, index) => {
      checkPicture(picture, `cameOff.pieces[${at}].pictures[${index}]`, add);
    });
  });
}

function checkPicture({ base64, hash }: PictureDocument, path: string, add: Add): void {
  if (base64 === null) return;
  const picture = cleanPicture(Buffer.from(base64, 'base64'));
  const found = picture && createHash('sha256').update(picture.bytes).digest('hex');
  if (found !== hash)
    add(
      `${path}.base64`,
      'these are not the bytes of that picture',
      'a JPEG, PNG or WebP as it was taken out, or null',
    );
}

function twice(keys: readonly string[], path: (at: number) => string, add: Add): void {
  keys.forEach((key, at) => {
    if (keys.indexOf(key) !== at) add(path(at), `"${key}" is there twice`, 'each once');
  });
}
