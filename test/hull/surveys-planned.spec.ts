import fc from 'fast-check';
import { STARTING_BOOK } from '@ribband/hull';
import { type Effort, type Problem, solve } from '@ribband/engine';
import type { YardDocument } from '@ribband/planning';
import { workedIn } from '@ribband/repair';
import { SCHOONER } from '../../libs/hull/src/model/halibut-schooner.fixture.js';
import { verifyPlan } from '../engine/verify-plan.js';

/*
 * Surveys of the invented schooner, worked out by the methods that a yard starts with and planned by the engine: the
 * verifier, which shares nothing with the engine, holds the plan against every limit at every minute.
 */

type Whole = ReturnType<typeof workedOut>;
type Task = Whole['tasks'][number];

const steps = STARTING_BOOK.methods.flatMap((method) => method.steps);
const named = (words: string[]) => [...new Set(words)].map((word) => ({ ref: word, name: word }));
const yard = {
  skills: named(steps.flatMap((step) => step.seats.map((seat) => seat.skill))),
  tools: named(steps.flatMap((step) => step.tools.map((use) => use.tool))),
  cards: named(steps.flatMap((step) => [...step.cards, ...step.seats.flatMap((seat) => seat.cards)])),
};

interface Decayed {
  side: 'port' | 'starboard';
  first: number;
  count: number;
  pieces: number[];
}

const decayed: fc.Arbitrary<Decayed> = fc.record({
  side: fc.constantFrom('port', 'starboard'),
  first: fc.integer({ min: 6, max: 34 }),
  count: fc.integer({ min: 1, max: 4 }),
  pieces: fc.constantFrom([4], [3, 4]),
});

function workedOut(found: Decayed[]) {
  const survey = {
    causes: [{ key: 'deck-edge', name: 'Deck edge', hasTask: true }],
    findings: found.map(({ side, first, count, pieces }) => ({
      frames: [first, first + count - 1] as [number, number],
      side,
      pieces,
      condition: 'renew' as const,
      cause: 'deck-edge',
      by: 'Odalys Brenn',
      on: '2026-10-17',
      note: null,
    })),
    choices: {
      aim: 'fewest planks' as const,
      ceiling: 'strip in way' as const,
      stayOverHead: 2,
      stays: [],
      offAnyway: [],
      inspectionStrake: null,
      by: 'Odalys Brenn',
      reason: 'Seen from both sides.',
      openings: {
        strakeRun: {
          value: { atMost: 6 },
          ribbandsStand: true,
          by: 'Odalys Brenn',
          reason: 'Ribbands stand.',
        },
      },
    },
  };
  const methods = {
    minutesATurnout: 300,
    book: STARTING_BOOK,
    names: { skills: {}, tools: {}, cards: {} },
    ownTasks: {},
    leftOut: { tasks: [], links: [] },
  };
  const parts = { hull: { outline: SCHOONER }, survey, methods };
  const none: Pick<YardDocument, 'tasks' | 'links' | 'elements' | 'openingLimits'> = {
    tasks: [],
    links: [],
    elements: [],
    openingLimits: [],
  };
  return workedIn({ ...parts, ...none }, yard).document;
}

const index = (refs: { ref: string }[]) => new Map(refs.map(({ ref }, at) => [ref, at]));

/** Eight people who can do everything come to a turnout of five hours each day for two years. */
function problemOf(whole: Whole): Problem {
  const [skills, tools, cards] = [index(yard.skills), index(yard.tools), index(yard.cards)];
  const [elements, tasks] = [index(whole.elements), index(whole.tasks)];
  const turnouts = Array.from({ length: 730 }, (_, day) => {
    const start = day * 1440 + 540;
    return { id: `day-${String(day)}`, start, end: start + 300 };
  });
  const horizon = turnouts[729].end;
  const name = ({ ref, name }: { ref: string; name: string }) => ({ id: ref, name });
  return {
    format: 'ribband-problem/1',
    now: 0,
    horizon,
    skills: yard.skills.map(name),
    clearances: yard.cards.map(name),
    turnouts,
    people: Array.from({ length: 8 }, (_, at) => ({
      id: `hand-${String(at)}`,
      name: `hand ${String(at)}`,
      levels: yard.skills.map(() => 4),
      stays: turnouts.map(({ start, end }, turnout) => ({ turnout, from: start, to: end, showUp: 1 })),
      clearances: yard.cards.map((_card, clearance) => ({ clearance, until: null })),
      minutesAWeek: null,
      minutesATurnout: null,
    })),
    tools: yard.tools.map((tool) => ({ ...name(tool), capacity: 1, spans: [] })),
    elements: whole.elements.map(name),
    openingLimits: whole.openingLimits
      .filter((limit) => limit.override === null)
      .map((limit) => ({
        ...name(limit),
        elements: limit.elements.map((ref) => elements.get(ref)!),
        atMost: limit.atMost,
      })),
    tasks: whole.tasks.map((task) => ({
      id: task.ref,
      name: task.title,
      effort: effortOf(task),
      crew: crewOf(task),
      seats: task.seats.map((seat) => ({
        skill: skills.get(seat.skill)!,
        level: seat.level,
        count: seat.count,
        clearances: seat.cards.map((card) => cards.get(card)!),
      })),
      clearances: [],
      oneGo: task.oneGo,
      setUpMinutes: task.setUpMinutes,
      extraHandShare: task.extraHandShare,
      learnerShare: task.learnerShare,
      tools: task.tools.map(({ tool, count }) => ({ tool: tools.get(tool)!, count })),
      opens: task.opens.map((ref) => elements.get(ref)!),
      closes: task.closes.map((ref) => elements.get(ref)!),
      notBefore: null,
      progress: { kind: 'waiting' },
    })),
    links: whole.links.map((link) => ({
      before: tasks.get(link.before)!,
      after: tasks.get(link.after)!,
      relation: link.relation,
      lag: link.lagMinutes,
      lagKind: link.lagKind,
    })),
    posted: [],
    aim: { gate: horizon, slots: [horizon] },
  };
}

function effortOf({ kind, estimate }: Task): Effort {
  if (!estimate) return { kind: 'hold' };
  if (estimate.by === 'time')
    return { kind: kind === 'fixed' ? 'fixed' : 'elapsed', minutes: estimate.minutes.likely };
  const minutes =
    estimate.by === 'work'
      ? estimate.personMinutes.likely
      : (estimate.count / estimate.perPersonHour.likely) * 60;
  return { kind: 'work', personMinutes: Math.max(1, Math.round(minutes)) };
}

const crewOf = ({ estimate, seats, crew }: Task): Task['crew'] => {
  const seated = seats.reduce((sum, seat) => sum + seat.count, 0);
  return estimate ? crew : { min: seated, efficient: seated, max: seated };
};

describe('surveys, worked out and planned', () => {
  it('no limit on openings is passed at any minute, and what is opened is closed before she is launched', () => {
    fc.assert(
      fc.property(fc.array(decayed, { minLength: 1, maxLength: 2 }), fc.nat(1000), (found, seed) => {
        const whole = workedOut(found);
        const problem = problemOf(whole);
        expect(whole.openingLimits.length + whole.elements.length).toBeGreaterThan(0);
        const outcome = solve(problem, { seed, schedules: 6 });
        if (outcome.kind !== 'plan') throw new Error(JSON.stringify(outcome));
        expect(verifyPlan(problem, outcome.plan)).toEqual([]);
        const launch = problem.tasks.findIndex((task) => task.id === 'vessel-launch');
        for (const element of problem.elements.keys()) {
          const opener = problem.tasks.findIndex((task) => task.opens.includes(element));
          const closer = problem.tasks.findIndex((task) => task.closes.includes(element));
          const [opens, closes] = [outcome.plan.tasks[opener].start, outcome.plan.tasks[closer].end];
          expect(opens).toBeLessThan(closes);
          expect(closes).toBeLessThanOrEqual(outcome.plan.tasks[launch].start);
        }
      }),
      { numRuns: 5 },
    );
  }, 120_000);
});
