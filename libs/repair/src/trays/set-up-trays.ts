import { crossingsOf, fasteningsIn, type Hull, type Plank } from '@ribband/hull';
import { newId } from '@ribband/platform';
import { elementWords } from '../pieces/element-words.js';
import type { StandIn } from '../methods/stand-ins.js';
import type { Task } from '../tasks/task.entity.js';
import type { Tray } from './tray.entity.js';

/** Steps of the methods at which fastenings come out, and those at which they go back. */
const steps = [
  { out: 'pull-nails', back: 'drive-nails' },
  { out: 'bolts-out', back: 'bolt-up' },
] as const;

/**
 * A tray for each element whose fastenings some task draws, and that has none yet: a task that a method made, or one
 * of the yard's own that stands for its step.
 */
export function traysFor(
  organisationId: string,
  tasks: readonly Pick<Task, 'ref' | 'count' | 'title' | 'position' | 'unit'>[],
  hull: Hull | null,
  there: ReadonlySet<string>,
  standIns: readonly StandIn[] = [],
): Tray[] {
  const refs = new Set(tasks.map((task) => task.ref));
  return tasks.flatMap((task) => {
    const standIn = standIns.find(
      ({ ref, step }) => ref === task.ref && steps.some(({ out }) => out === step),
    );
    const step = steps.find(({ out }) => (standIn ? standIn.step === out : task.ref.endsWith(`-${out}`)));
    const elementKey = standIn?.element ?? (step && task.ref.slice(0, -step.out.length - 1));
    if (!step || !elementKey || there.has(elementKey)) return [];
    const plank = hull?.planks.find((one) => one.key === elementKey) ?? null;
    const { frames, inPlace } =
      hull && plank ? inPlaceOf(hull, plank) : { frames: [], inPlace: task.count ?? 0 };
    const own = standIns.find((one) => one.element === elementKey && one.step === step.back);
    const back = own?.ref ?? `${elementKey}-${step.back}`;
    return [
      {
        id: newId('tray'),
        organisationId,
        ref: elementKey,
        name: plank ? trayName(plank) : shortName(elementKey),
        elementKey,
        place: plank?.name ?? task.position ?? elementWords(elementKey),
        fastening: fasteningOf(step.out, elementKey),
        inPlace,
        frames,
        pullRef: task.ref,
        driveRef: refs.has(back) ? back : null,
      },
    ];
  });
}

/** The fastenings of a plank, by frame and in all. */
export function inPlaceOf(hull: Hull, plank: Plank): Pick<Tray, 'frames' | 'inPlace'> {
  const frames = crossingsOf(hull, plank).map((crossing) => ({
    frame: crossing.frame.number,
    inPlace: fasteningsIn(crossing),
  }));
  return { frames, inPlace: frames.reduce((sum, one) => sum + one.inPlace, 0) };
}

const fasteningOf = (step: string, elementKey: string): string => {
  if (step === 'bolts-out') return 'bolts';
  return elementKey.startsWith('ceiling') ? 'ceiling nails' : 'plank nails';
};

/** S9A: starboard, strake 9, the first plank from forward; SC for the ceiling. */
function trayName({ side, skin, strake, number }: Plank): string {
  const letter = number <= 26 ? String.fromCharCode(64 + number) : `-${number}`;
  return `${side === 'starboard' ? 'S' : 'P'}${skin === 'ceiling' ? 'C' : ''}${strake}${letter}`;
}

/** What can be written on a tray where the hull's model does not know the element: F12S for frame 12 starboard. */
const shortName = (elementKey: string): string =>
  elementKey
    .split('-')
    .map((word) => (/^\d+$/.test(word) ? word : word.charAt(0).toUpperCase()))
    .join('');
