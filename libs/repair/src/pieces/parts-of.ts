import type { Hull } from '@ribband/hull';
import type { HullElement } from '../openings/hull-element.entity.js';
import { mostWords, type PieceDraft } from './piece-draft.js';
import { capital } from '../words.js';

/**
 * The parts that come off where an element is opened: a plank is one; of a frame those pieces that the survey has
 * renewed, or the frame as a whole where it says nothing.
 * @param drawn keys of the pieces that are renewed
 */
export function partsOf(
  element: Pick<HullElement, 'ref' | 'name'>,
  hull: Hull | null,
  drawn: ReadonlySet<string>,
): PieceDraft[] {
  const plank = hull?.planks.find((one) => one.key === element.ref);
  if (plank) {
    const place = `${plank.side}, frames ${plank.firstFrame} to ${plank.lastFrame}`;
    return [part(element.ref, element.name, capital(place))];
  }
  const frame = hull?.frames.find((one) => one.key === element.ref);
  const pieces = frame?.pieces.filter((piece) => drawn.has(piece.key)) ?? [];
  if (pieces.length === 0) return [part(element.ref, element.name, element.name)];
  return pieces.map((piece) =>
    part(piece.key, capital(piece.name), `${capital(piece.layer)} half, strakes ${strakes(piece)}`),
  );
}

const strakes = ({ from, to }: { from: number; to: number }): string =>
  `${Math.floor(from) + 1} to ${Math.ceil(to)}`;

const part = (elementKey: string, name: string, place: string): PieceDraft => ({
  name: name.slice(0, mostWords.name),
  elementKey,
  place: place.slice(0, mostWords.place),
  face: null,
  heading: null,
  fate: 'not said',
  keptAt: null,
  cameOffOn: null,
});
