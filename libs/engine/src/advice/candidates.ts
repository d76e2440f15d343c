import type { Forecast } from '../forecast/forecast-shape.js';
import type { Problem } from '../problem.js';
import type { Change, RelaxableWish } from './advice-shape.js';

/** What the yard could do: days and people are its own affair, so the caller names them. */
export interface Possible {
  /** Groups of turnouts that one more person might come to, by what they have in common (a weekday). */
  days: { turnouts: number[] }[];
  /** How likely somebody new comes. */
  showUp: number;
  /** Lessons that it takes to bring a person one level further. */
  lessons: number;
  /** Whether somebody has said that they would like to learn a skill: they are asked first. */
  wouldLearn: (person: number, skill: number) => boolean;
  /** Further turnouts that could be held, and who would be expected. */
  further: { spans: { start: number; end: number }[]; people: number[] }[];
  /** Parts of the scope that may be dropped: each a set of tasks. */
  scope: number[][];
  wishes: RelaxableWish[];
  /** Stock that could be ordered earlier, by how much. */
  orders: { task: number; by: number }[];
  /** Tools of which one more could be had. */
  tools: number[];
}

/** How many skills are looked at, the most asked for first. */
const SKILLS = 5;

/**
 * Candidates for advice. Skills are screened by their load: person-minutes of seats that ask for the skill over
 * minutes of those expected who hold it, and by what the deciding chain spends its time on.
 */
export function candidatesFor(
  problem: Problem,
  possible: Possible,
  told: Pick<Forecast, 'chain'> | null = null,
): Change[] {
  const list: Change[] = [];
  for (const { skill, level } of scarceSkills(problem, told)) {
    for (const { turnouts } of possible.days) {
      const still = turnouts.filter((w) => problem.turnouts[w].start >= problem.now);
      if (still.length === 0) continue;
      list.push({ kind: 'recruit', skills: [{ skill, level }], turnouts: still, showUp: possible.showUp });
    }
    list.push(...trainings(problem, skill, level, possible));
  }
  for (const further of possible.further) list.push({ kind: 'turnouts', ...further });
  for (const tool of possible.tools) list.push({ kind: 'tool', tool, more: 1 });
  for (const tasks of possible.scope) list.push({ kind: 'drop', tasks });
  for (const wish of possible.wishes) list.push({ kind: 'relax', wish });
  for (const order of possible.orders) list.push({ kind: 'order earlier', ...order });
  return list;
}

/** Skills in order of how hard they press, with the level that most of their seats ask for. */
export function scarceSkills(
  problem: Problem,
  told: Pick<Forecast, 'chain'> | null,
): { skill: number; level: number; load: number }[] {
  const asked = problem.skills.map(() => new Float64Array(5));
  for (const { effort, seats, crew, progress } of problem.tasks) {
    if (progress.kind === 'done') continue;
    const minutes =
      effort.kind === 'work'
        ? effort.personMinutes / Math.max(1, crew.efficient)
        : effort.kind === 'fixed'
          ? effort.minutes
          : 0;
    for (const { skill, level, count } of seats) asked[skill][level] += minutes * count;
  }
  return asked
    .map((byLevel, skill) => {
      const level = byLevel.indexOf(Math.max(...byLevel));
      const needed = byLevel.reduce((sum, one) => sum + one, 0);
      let there = 0;
      for (const { levels, stays } of problem.people) {
        if (levels[skill] < level) continue;
        for (const { from, to, showUp } of stays) {
          if (to > problem.now && from < problem.aim.gate) there += (to - from) * showUp;
        }
      }
      const chain = told?.chain.find(({ kind, index }) => kind === 'skill' && index === skill)?.share ?? 0;
      return { skill, level, load: needed > 0 ? needed / Math.max(1, there) + chain : 0 };
    })
    .filter(({ level, load }) => level > 0 && load > 0)
    .sort((a, b) => b.load - a.load || a.skill - b.skill)
    .slice(0, SKILLS);
}

/** Of those whom somebody may teach and comes with, the two who wished for it, then those who come oftenest. */
function trainings(
  problem: Problem,
  skill: number,
  level: number,
  { lessons, wouldLearn }: Pick<Possible, 'lessons' | 'wouldLearn'>,
): Change[] {
  const { people, turnouts, now } = problem;
  const learners = people.flatMap((person, index) => {
    if (person.levels[skill] >= level || person.levels[skill] < level - 1) return [];
    const coming = person.stays
      .filter(({ turnout, showUp }) => turnouts[turnout].start >= now && showUp > 0)
      .map(({ turnout }) => turnout);
    const teacher = teacherOf(problem, { index, coming }, { skill, level, lessons });
    return teacher
      ? [{ index, wished: Number(wouldLearn(index, skill)), often: coming.length, ...teacher }]
      : [];
  });
  return learners
    .sort((a, b) => b.wished - a.wished || b.often - a.often || a.index - b.index)
    .slice(0, 2)
    .map(({ index, trainer, both }) => ({
      kind: 'train',
      person: index,
      skill,
      level,
      trainer,
      turnouts: both,
    }));
}

/** Whoever is through soonest with so many lessons at turnouts to which both come. */
function teacherOf(
  { people }: Problem,
  learner: { index: number; coming: number[] },
  { skill, level, lessons }: { skill: number; level: number; lessons: number },
): { trainer: number; both: number[] } | undefined {
  const options = people.flatMap((person, trainer) => {
    // Teaching starts at level 3, and nobody teaches what they do not stand above.
    if (trainer === learner.index || person.levels[skill] < Math.max(3, level)) return [];
    const both = learner.coming
      .filter((turnout) => person.stays.some((stay) => stay.turnout === turnout && stay.showUp > 0))
      .slice(0, lessons);
    return both.length === lessons ? [{ trainer, both }] : [];
  });
  return options.sort((a, b) => (a.both[lessons - 1] ?? 0) - (b.both[lessons - 1] ?? 0)).at(0);
}
