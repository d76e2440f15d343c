import { buildHull, checkOffsets, flitchOf, HullRefusal, offsetsOfModel } from '@ribband/hull';
import type { Add, Refs } from './refs.js';
import type { YardDocument } from './yard-document.js';

/** The timber book names what it has, and its measures make shapes. */
export function checkTimber({ timber, hull }: YardDocument, refs: Refs, add: Add): void {
  const sources = once(timber.sources, 'ref', 'timber.sources', add);
  const logs = once(timber.logs, 'mark', 'timber.logs', add);
  const flitches = once(timber.flitches, 'mark', 'timber.flitches', add);
  const named = (known: Set<string>, key: string | null, path: string, what: string) => {
    if (key !== null && !known.has(key)) add(path, `names ${key}, which is not there`, what);
  };
  timber.logs.forEach((log, i) => {
    named(sources, log.source, `timber.logs[${i}].source`, 'the ref of a source, or null');
  });
  timber.flitches.forEach((flitch, i) => {
    const path = `timber.flitches[${i}]`;
    named(sources, flitch.source, `${path}.source`, 'the ref of a source, or null');
    named(logs, flitch.log, `${path}.log`, 'the mark of a log, or null');
    noted(`${path}.taped`, add, () => flitchOf({ key: flitch.mark, name: flitch.mark, ...flitch.taped }));
  });
  timber.trips.forEach((trip, i) => {
    trip.volunteers.forEach((ref, v) => {
      refs.check('volunteers', ref, `timber.trips[${i}].volunteers[${v}]`);
    });
  });
  const { shape } = timber;
  if (shape)
    noted('timber.shape', add, () => {
      if (shape.by === 'half model') offsetsOfModel(shape);
      else checkOffsets(shape);
    });
  const pieces = hull && new Set(elementsOf(hull.outline));
  const piece = (key: string, path: string) => {
    if (pieces && !pieces.has(key))
      add(path, `${key} is no piece of hers`, 'the key of a futtock or a plank');
  };
  timber.layUp?.placed.forEach((one, i) => {
    named(flitches, one.flitch, `timber.layUp.placed[${i}].flitch`, 'the mark of a flitch');
    piece(one.piece, `timber.layUp.placed[${i}].piece`);
  });
  timber.promises.forEach((one, i) => {
    piece(one.piece, `timber.promises[${i}].piece`);
    if (timber.promises.findIndex((other) => other.piece === one.piece) < i)
      add(`timber.promises[${i}].piece`, 'is promised twice', 'each piece once');
  });
}

function elementsOf(outline: NonNullable<YardDocument['hull']>['outline']): string[] {
  try {
    const { frames, planks } = buildHull(outline);
    return [...frames.flatMap((frame) => frame.pieces), ...planks].map((one) => one.key);
  } catch (error) {
    // A hull that contradicts itself is told by its own check.
    if (error instanceof HullRefusal) return [];
    throw error;
  }
}

function noted(path: string, add: Add, work: () => unknown): void {
  try {
    work();
  } catch (error) {
    if (!(error instanceof HullRefusal)) throw error;
    add(`${path}.${error.field}`, error.fault, error.wouldBeRight);
  }
}

/** The keys of a list; one that comes twice is a fault. */
function once<Key extends string>(
  list: Record<Key, string>[],
  key: Key,
  path: string,
  add: Add,
): Set<string> {
  const known = new Set<string>();
  list.forEach((one, i) => {
    if (known.has(one[key])) add(`${path}[${i}].${key}`, `${one[key]} comes twice`, 'each once');
    known.add(one[key]);
  });
  return known;
}
