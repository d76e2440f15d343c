import {
  type Beliefs,
  latenessOf,
  pinRate,
  plainTask,
  type Problem,
  rateOf,
  type RateLearned,
  reworkOf,
  type ThreePoints,
  togetherOf,
} from '@ribband/engine';
import { showUpBelief, type WhoCame } from './coming.js';

/** What the records say of how things go, by ids of the records. */
export interface YardExperience extends WhoCame {
  tasks: ReadonlyMap<string, TaskExperience>;
  /** What was done of each kind of work, a turnout an entry, in order of time. */
  tallies: ReadonlyMap<string, { count: number; hours: number }[]>;
  pinned: ReadonlyMap<string, { pace: number; reason: string }>;
  /** Work that was shown, and which share of it was sent back where it was. */
  shown: number;
  sentBack: number[];
  /** Days by which stock came after the day it was promised for, 0 or less in time. */
  deliveryDelays: number[];
}

export interface TaskExperience {
  /** Kind of counted work, its range of pieces a person-hour and the likeliest; null where nothing is counted. */
  kind: { key: string; name: string; low: number; likely: number; high: number } | null;
  /** What is left of an estimate in three points; null where it is counted, or known. */
  points: ThreePoints | null;
}

/** A belief as it is shown: what is expected, from what, and what the book said. */
export interface ToldBelief {
  key: string;
  name: string;
  pace: number;
  turnouts: number;
  book: { low: number; high: number };
  pinned: { pace: number; reason: string } | null;
}

/**
 * Beliefs about a problem out of a yard's experience. Pure. What nothing is known of is as the problem says.
 */
export function beliefsFor(
  problem: Problem,
  known: YardExperience,
): { beliefs: Beliefs; told: ToldBelief[] } {
  const kinds = new Map<string, number>();
  const rates: Beliefs['rates'] = [];
  const told: ToldBelief[] = [];
  const rework = reworkOf(known.shown, known.sentBack);
  const { late } = latenessOf(known.deliveryDelays.map((days) => days * minutesADay));
  const tasks = problem.tasks.map((task): Beliefs['tasks'][number] => {
    const belief = plainTask();
    const experience = known.tasks.get(task.id);
    if (task.progress.kind === 'done' || task.effort.kind === 'hold') return belief;
    const { kind = null, points = null } = experience ?? {};
    if (kind !== null && task.effort.kind === 'work') {
      let index = kinds.get(kind.key);
      if (index === undefined) {
        index = rates.length;
        kinds.set(kind.key, index);
        const learned = learnedOf(kind, known);
        rates.push({ id: kind.key, name: kind.name, pace: learned.pace, byTurnout: learned.byTurnout });
        told.push(toldOf(kind, learned));
      }
      belief.rate = index;
      belief.plannedPace = kind.likely;
      belief.own = ownSpread;
    } else belief.points = points;
    if (task.effort.kind === 'work') belief.rework = { chance: rework.chance, share: rework.share };
    // A day to come before which it can't begin is somebody's promise: stock, a bench, a hired hand.
    if (task.notBefore !== null && task.notBefore > problem.now && task.progress.kind === 'waiting')
      belief.late = late;
    return belief;
  });
  const showUp = problem.people.map(({ id, stays }) => {
    const [stay] = stays;
    return stay ? showUpBelief(stay.showUp, known.showUps.get(id)) : null;
  });
  return { beliefs: { showUp, together: togetherOf(known.met).together, rates, tasks }, told };
}

const minutesADay = 24 * 60;

/** How much a piece of counted work may differ from its kind, standard deviation over mean: common practice, no source. */
const ownSpread = 0.15;

function learnedOf(kind: NonNullable<TaskExperience['kind']>, known: YardExperience): RateLearned {
  const learned = rateOf(known.tallies.get(kind.key) ?? [], { low: kind.low, high: kind.high });
  const pinned = known.pinned.get(kind.key);
  return pinned ? pinRate(learned, pinned.pace, pinned.reason) : learned;
}

function toldOf(kind: NonNullable<TaskExperience['kind']>, { pace, evidence }: RateLearned): ToldBelief {
  return {
    key: kind.key,
    name: kind.name,
    pace: pace.shape / pace.rate,
    turnouts: evidence.turnouts,
    book: evidence.book,
    pinned: evidence.pinned,
  };
}
