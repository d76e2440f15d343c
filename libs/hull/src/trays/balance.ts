import { need, needWhole } from '../refusal.js';

/**
 * The fastenings of one tray (a plank at its frames) or of a lot, from the wood and back into it:
 *
 *     in place = still in + drawn + pulled through + cut      cut = punched + bored out + left + stubs waiting
 *     drawn + pulled through + received = graded sound + scrapped + lost + lent + not graded yet
 *     sound + bought = driven + in the tray
 */
export type TrayEntry =
  | {
      kind: 'drawn' | 'cut' | 'punched' | 'bored out' | 'scrapped' | 'sound' | 'bought' | 'driven';
      count: number;
    }
  /** The head came through the plank: the plank has a repair to get. */
  | { kind: 'pulled through'; count: number }
  | { kind: 'left in place'; count: number; reason: string }
  /** Drawn and not found again before it was graded. */
  | { kind: 'lost'; count: number; reason: string }
  /** Ungraded nails moved from or to another tray, both named in words, so that neither tray's count lies. */
  | { kind: 'received' | 'lent'; count: number; tray: string };

export interface TrayBalance {
  inPlace: number;
  stillIn: number;
  drawn: number;
  pulledThrough: number;
  cut: number;
  stubsWaiting: number;
  received: number;
  lent: number;
  notGraded: number;
  sound: number;
  scrapped: number;
  lost: number;
  bought: number;
  driven: number;
  /** Sound or bought, and not driven yet. */
  inTray: number;
  /** Repairs that pulled-through heads ask of the plank. */
  plankRepairs: number;
}

/** Balance of a tray whose plank had so many fastenings. Refuses the entry that would take more than there is. */
export function trayBalance(inPlace: number, entries: TrayEntry[]): TrayBalance {
  needWhole(inPlace, 'inPlace', 0);
  const sums = new Map<TrayEntry['kind'], number>();
  const sum = (kind: TrayEntry['kind']): number => sums.get(kind) ?? 0;
  let balance = balanceOf(inPlace, sum);
  entries.forEach((entry, index) => {
    needWhole(entry.count, `entries[${index}].count`, 1);
    if (entry.kind === 'left in place' || entry.kind === 'lost')
      need(
        entry.reason.trim() !== '',
        `entries[${index}].reason`,
        entry.kind === 'lost' ? 'nails are lost without a word how' : 'a stub is left without a reason',
        entry.kind === 'lost' ? 'what is known of it' : 'why it stays',
      );
    sums.set(entry.kind, sum(entry.kind) + entry.count);
    const next = balanceOf(inPlace, sum);
    const [short, wanted] = firstNegative(next) ?? [];
    need(
      short === undefined,
      `entries[${index}].count`,
      `${entry.count} ${entry.kind} is ${wanted ?? 0} more than there are (${short ?? ''})`,
      `at most ${entry.count - (wanted ?? 0)}`,
    );
    balance = next;
  });
  return balance;
}

function balanceOf(inPlace: number, sum: (kind: TrayEntry['kind']) => number): TrayBalance {
  const [drawn, pulledThrough, cut] = [sum('drawn'), sum('pulled through'), sum('cut')];
  const [received, lent] = [sum('received'), sum('lent')];
  const [sound, scrapped, lost] = [sum('sound'), sum('scrapped'), sum('lost')];
  const [bought, driven] = [sum('bought'), sum('driven')];
  return {
    inPlace,
    stillIn: inPlace - drawn - pulledThrough - cut,
    drawn,
    pulledThrough,
    cut,
    stubsWaiting: cut - sum('punched') - sum('bored out') - sum('left in place'),
    received,
    lent,
    notGraded: drawn + pulledThrough + received - sound - scrapped - lost - lent,
    sound,
    scrapped,
    lost,
    bought,
    driven,
    inTray: sound + bought - driven,
    plankRepairs: pulledThrough,
  };
}

const WORDS = {
  stillIn: 'still in place',
  stubsWaiting: 'stubs waiting',
  notGraded: 'not graded yet',
  inTray: 'in the tray',
} as const;

function firstNegative(balance: TrayBalance): [string, number] | null {
  for (const key of ['stillIn', 'stubsWaiting', 'notGraded', 'inTray'] as const)
    if (balance[key] < 0) return [WORDS[key], -balance[key]];
  return null;
}

/** The sum of several trays: a lot. */
export function lotBalance(trays: TrayBalance[]): TrayBalance {
  const total = balanceOf(0, () => 0);
  for (const tray of trays)
    for (const key of Object.keys(total) as (keyof TrayBalance)[]) total[key] += tray[key];
  return total;
}

/** How a hole is filled again, and what it costs the old wood. */
export interface HoleFate {
  nail: 'its own' | 'another';
  hole: 'its own' | 'plugged and bored anew' | 'new, in new wood';
  /** New holes in timber that is kept. */
  newHolesInKept: 0 | 1;
  says: string;
}

/** A sound nail in its own sound hole leaves no new hole in kept timber; new wood gets new holes anyway. */
export function holeFate(nailSound: boolean, holeSound: boolean, frameIsNew: boolean): HoleFate {
  const nail = nailSound ? 'its own' : 'another';
  if (frameIsNew)
    return {
      nail,
      hole: 'new, in new wood',
      newHolesInKept: 1,
      says: 'plug the old hole in the plank, bore through plank and new frame',
    };
  if (!holeSound)
    return {
      nail,
      hole: 'plugged and bored anew',
      newHolesInKept: 1,
      says: 'plug the hole and bore anew beside it or in the plug',
    };
  return {
    nail,
    hole: 'its own',
    newHolesInKept: 0,
    says: nailSound ? 'drive the nail back into its own hole' : 'drive a matching nail into the old hole',
  };
}
