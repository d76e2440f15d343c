import {
  type Beliefs,
  latenessOf,
  type Problem,
  type RateEvidence,
  rateOf,
  reworkOf,
  type ShowUpRecord,
  type TaskBelief,
  togetherOf,
} from '@ribband/engine';

/** Beside the problem, what a forecast is made from. Everything by the ids of the records. */
export interface YardRecord {
  /** By task. */
  tasks: ReadonlyMap<string, TaskRecordOfPace>;
  /** By task: what was done of it, turnout by turnout. */
  tallies: ReadonlyMap<string, { count: number | null; minutes: number; day: string }[]>;
  /** Turnouts that were held: who was expected, and whether they came. */
  turnouts: { expected: { personId: string; came: boolean }[] }[];
  /** How often work was shown, and which share of it each sending back asked for again. */
  shown: number;
  sentBack: number[];
  /** Tasks that wait for stock on its way. */
  awaitsStock: ReadonlySet<string>;
}

export interface TaskRecordOfPace {
  /** The kind of work that shares its pace: a method's step, or the task alone. */
  kind: string;
  kindName: string;
  unit: string | null;
  /** Pieces a person-hour, where it is counted. */
  pace: { low: number; likely: number; high: number } | null;
  /** What is left of it, person-minutes or minutes; null where it takes no time of its own. */
  left: { low: number; likely: number; high: number } | null;
}

/** What was learned about the pace of one kind of work, to be said. */
export interface PaceTold {
  name: string;
  unit: string | null;
  pace: number;
  evidence: RateEvidence;
}

/** The chance stated for a person is worth so many turnouts beside what the record says. */
const STATED_WORTH = 5;
/** Differences between tasks of one kind of work, standard deviation over mean: common practice, no source. */
const OWN = 0.2;

/**
 * What is believed about a yard: paces from its tallies on top of the methods' ranges, show-ups from its turnouts on top of
 * what was stated, how much people come and stay away together, late stock and work sent back.
 */
export function beliefsOf(problem: Problem, record: YardRecord): { beliefs: Beliefs; paces: PaceTold[] } {
  const rates: Beliefs['rates'] = [];
  const rateAt = new Map<string, number>();
  const paces: PaceTold[] = [];
  for (const { id } of problem.tasks) {
    const task = record.tasks.get(id);
    if (!task?.pace || rateAt.has(task.kind)) continue;
    const { kind, kindName, unit, pace } = task;
    const learned = rateOf(talliesOf(record, kind), { low: pace.low, high: pace.high });
    rateAt.set(kind, rates.length);
    rates.push({ id: kind, name: kindName, pace: learned.pace, byTurnout: learned.byTurnout });
    paces.push({
      name: kindName,
      unit,
      pace: learned.pace.shape / learned.pace.rate,
      evidence: learned.evidence,
    });
  }
  const stock = latenessOf([]).late;
  const { chance, share } = reworkOf(record.shown, record.sentBack);
  const met = meetings(problem, record);
  return {
    beliefs: {
      showUp: problem.people.map((person) => showUpOf(person, record)),
      together: togetherOf(met).together,
      rates,
      tasks: problem.tasks.map(({ id, effort }): TaskBelief => {
        const task = record.tasks.get(id);
        const rate = task?.pace ? (rateAt.get(task.kind) ?? null) : null;
        const isWork = effort.kind === 'work';
        return {
          rate: isWork ? rate : null,
          plannedPace: (isWork ? task?.pace?.likely : undefined) ?? 1,
          own: isWork && rate !== null ? OWN : 0,
          points: rate === null || !isWork ? pointsOf(effort.kind, task?.left ?? null) : null,
          late: record.awaitsStock.has(id) ? stock : null,
          rework: isWork ? { chance, share } : null,
        };
      }),
    },
    paces,
  };
}

function pointsOf(kind: string, left: TaskRecordOfPace['left']): TaskBelief['points'] {
  if (left === null || kind === 'hold' || left.high <= 0 || left.low >= left.high) return null;
  return left;
}

/** Counts and hours of a kind of work, turnout by turnout. */
function talliesOf(record: YardRecord, kind: string): { count: number; hours: number }[] {
  const byDay = new Map<string, { count: number; hours: number }>();
  for (const [taskId, tallies] of record.tallies) {
    if (record.tasks.get(taskId)?.kind !== kind) continue;
    for (const { count, minutes, day } of tallies) {
      if (count === null || minutes <= 0) continue;
      const sum = byDay.get(day) ?? { count: 0, hours: 0 };
      sum.count += count;
      sum.hours += minutes / 60;
      byDay.set(day, sum);
    }
  }
  return [...byDay.entries()].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, sum]) => sum);
}

const statedOf = (person: Problem['people'][number]): number | null => person.stays[0]?.showUp ?? null;

function showUpOf(person: Problem['people'][number], record: YardRecord): Beliefs['showUp'][number] {
  const stated = statedOf(person);
  if (stated === null || stated <= 0 || stated >= 1) return null;
  const { came, expected } = attendanceOf(person.id, record);
  return { a: STATED_WORTH * stated + came, b: STATED_WORTH * (1 - stated) + expected - came };
}

function attendanceOf(personId: string, record: YardRecord): ShowUpRecord {
  const seen = record.turnouts.flatMap(({ expected }) => expected.filter((one) => one.personId === personId));
  return { came: seen.filter((one) => one.came).length, expected: seen.length };
}

function meetings(problem: Problem, record: YardRecord) {
  const chances = new Map(problem.people.map((person) => [person.id, showUpOf(person, record)]));
  return record.turnouts.map(({ expected }) => ({
    expected: expected.flatMap(({ personId, came }) => {
      const chance = chances.get(personId);
      return chance ? [{ chance: chance.a / (chance.a + chance.b), came }] : [];
    }),
  }));
}

/** '11 nails a person-hour from 6 turnouts; the book said 8 to 20'. */
export function paceSentence({ name, unit, pace, evidence }: PaceTold): string {
  const said = (value: number) => String(value < 10 ? Math.round(value * 10) / 10 : Math.round(value));
  const of = unit ?? 'pieces';
  const book = `${said(evidence.book.low)} to ${said(evidence.book.high)}`;
  if (evidence.pinned)
    return `${name}: ${said(pace)} ${of} a person-hour, set by the shipwright: ${evidence.pinned.reason}.`;
  if (evidence.turnouts === 0)
    return `${name}: ${book} ${of} a person-hour by the book; nothing tallied yet.`;
  const from = evidence.turnouts === 1 ? '1 turnout' : `${String(evidence.turnouts)} turnouts`;
  return `${name}: ${said(pace)} ${of} a person-hour from ${from}; the book said ${book}.`;
}
