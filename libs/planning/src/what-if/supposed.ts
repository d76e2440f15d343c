import type { Change, Problem } from '@ribband/engine';
import { addDays, instantToLocal, localToInstant, weekdayOf } from '@ribband/platform';
import type { ToldPlan } from '../plans/told-plan.js';

/** A change as people name it, by ids of the records and local days. */
export type Supposed =
  | { kind: 'drop'; taskIds: string[] }
  | { kind: 'turnouts'; weekday: number; fromOn: string; untilOn: string }
  | { kind: 'recruit'; skillId: string; level: number; weekdays: number[]; fromOn: string; untilOn: string }
  | { kind: 'late' | 'sooner'; taskIds: string[]; days: number }
  | { kind: 'tool'; toolId: string; more: number }
  | { kind: 'train'; volunteerId: string; trainerId: string; skillId: string; level: number };

/** How things would look: instants are epoch milliseconds, null past the last turnout. */
export interface Look {
  readyAt: number | null;
  evenAt: number | null;
  likelyAt: number | null;
  gate: { odds: number; error: number };
  /** Ready instants at 0.5, 1.5, ... 99.5 %. */
  spread: (number | null)[];
}

export interface WhatIfResult {
  /** The plan in force that it was held against. */
  planId: string;
  now: Look;
  then: Look;
  /**
   * What the same futures gain, each with the standard error of the difference: odds of the gate, and minutes by which
   * she is earlier ready in 8 of 10. Not in what was reckoned before it was kept.
   */
  gained?: Gained;
}

export interface Gained {
  odds: { odds: number; error: number };
  likely: { minutes: number; error: number };
}

/** Somebody who is asked comes so often; common practice, no source. */
const recruitShowUp = 0.85;
/** Lessons from one level to the next; common practice, no source. */
const lessons = 6;
const day = 24 * 60;

/** A supposed change in the engine's words. What it names and the plan does not know falls out. */
export function changesOf(told: ToldPlan, supposed: Supposed): Change[] {
  const { problem } = told;
  switch (supposed.kind) {
    case 'drop': {
      const tasks = supposed.taskIds.flatMap((id) => told.indexOf(id) ?? []);
      return tasks.length > 0 ? [{ kind: 'drop', tasks }] : [];
    }
    case 'late':
    case 'sooner':
      return supposed.taskIds.flatMap((id): Change[] => {
        const task = told.indexOf(id);
        const by = (supposed.kind === 'late' ? -1 : 1) * supposed.days * day;
        return task === undefined ? [] : [{ kind: 'order earlier', task, by }];
      });
    case 'tool': {
      const tool = problem.tools.findIndex(({ id }) => id === supposed.toolId);
      return tool < 0 ? [] : [{ kind: 'tool', tool, more: supposed.more }];
    }
    case 'train':
      return lessonsFor(told, supposed);
    case 'recruit': {
      const skill = problem.skills.findIndex(({ id }) => id === supposed.skillId);
      const turnouts = turnoutsOn(told, supposed.weekdays, supposed.fromOn, supposed.untilOn);
      if (skill < 0 || turnouts.length === 0) return [];
      return [
        { kind: 'recruit', skills: [{ skill, level: supposed.level }], turnouts, showUp: recruitShowUp },
      ];
    }
    case 'turnouts': {
      const further = furtherTurnouts(told, supposed.weekday, supposed.fromOn, supposed.untilOn);
      return further.spans.length > 0 ? [{ kind: 'turnouts', ...further }] : [];
    }
  }
}

/** The next turnouts to which both come, as many as it usually takes. */
function lessonsFor(told: ToldPlan, supposed: Extract<Supposed, { kind: 'train' }>): Change[] {
  const { people, skills, turnouts, now } = told.problem;
  const person = people.findIndex(({ id }) => id === supposed.volunteerId);
  const trainer = people.findIndex(({ id }) => id === supposed.trainerId);
  const skill = skills.findIndex(({ id }) => id === supposed.skillId);
  const comes = (p: number) => new Set(people[p]?.stays.map(({ turnout }) => turnout));
  const [learner, teacher] = [comes(person), comes(trainer)];
  const both = turnouts.flatMap(({ start }, w) =>
    start >= now && learner.has(w) && teacher.has(w) ? [w] : [],
  );
  if (person < 0 || trainer < 0 || skill < 0 || both.length < lessons) return [];
  const { level } = supposed;
  return [{ kind: 'train', person, trainer, skill, level, turnouts: both.slice(0, lessons) }];
}

/** Turnouts to come on these weekdays (1 Monday to 7 Sunday) between two days. */
export function turnoutsOn(told: ToldPlan, weekdays: number[], fromOn: string, untilOn: string): number[] {
  const { turnouts, now } = told.problem;
  return turnouts.flatMap(({ start }, w) => {
    const on = told.days.dayOf(told.instant(start));
    return start >= now && on >= fromOn && on <= untilOn && weekdays.includes(weekdayOf(on)) ? [w] : [];
  });
}

/**
 * One more turnout a week, at the hours of the usual one, with those who come to the nearest one that there is. Days
 * that have one already are left out.
 */
export function furtherTurnouts(
  told: ToldPlan,
  weekday: number,
  fromOn: string,
  untilOn: string,
): { spans: { start: number; end: number }[]; people: number[] } {
  const { problem } = told;
  const usual = problem.turnouts.find(({ start }) => start >= problem.now);
  if (!usual) return { spans: [], people: [] };
  const zone = told.input.timeZone;
  const hours = instantToLocal(told.instant(usual.start), zone).time;
  const length = usual.end - usual.start;
  const held = new Set(problem.turnouts.map(({ start }) => told.days.dayOf(told.instant(start))));
  const spans: { start: number; end: number }[] = [];
  for (let on = fromOn; on <= untilOn && spans.length < mostSpans; on = addDays(on, 1)) {
    if (weekdayOf(on) !== weekday || held.has(on)) continue;
    const start = Math.round((localToInstant(on, hours, zone) - told.input.epochAt) / 60_000);
    if (start > problem.now && start + length <= problem.horizon) spans.push({ start, end: start + length });
  }
  const first = spans[0]?.start ?? problem.now;
  return { spans, people: whoComesNear(problem, first) };
}

const mostSpans = 60;

function whoComesNear(problem: Problem, minute: number): number[] {
  const still = problem.turnouts.map((turnout, w) => ({ w, far: Math.abs(turnout.start - minute) }));
  const nearest = still.sort((a, b) => a.far - b.far || a.w - b.w)[0]?.w;
  return problem.people.flatMap(({ stays }, p) =>
    stays.some(({ turnout, showUp }) => turnout === nearest && showUp > 0) ? [p] : [],
  );
}
