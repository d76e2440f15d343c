import { solve, type Plan, type Posting, type Problem } from '@ribband/engine';
import { verifyPlan } from '../../engine/verify-plan.js';
import { cpuSeconds, seldom } from '../clock.js';

/** A search for a plan of a yard, in computing time. */
export interface YardRun {
  /** Seconds until there was a first plan. */
  firstSeconds: number;
  /** The first plan's ready minute. */
  firstReady: number;
  plan: Plan;
  /** Rules that the last plan breaks; empty when sound. */
  faults: string[];
}

export interface RunWish {
  /** How long to search; the first plan alone unless given. */
  seconds?: number;
  warm?: Plan;
  /** Stops once the plan is this good a share above the bound. */
  gap?: number;
}

/** @throws Error where the yard has no plan */
export function runYard(problem: Problem, { seconds = 0, warm, gap = 0 }: RunWish = {}): YardRun {
  const clock = seldom(cpuSeconds, 4);
  const begun = cpuSeconds();
  let firstSeconds = -1;
  let firstReady = 0;
  let near = false;
  const outcome = solve(problem, {
    seed: 1,
    ...(warm ? { warm } : {}),
    shouldStop: () => (firstSeconds >= 0 && clock() - begun >= seconds) || near,
    onBetter: ({ ready }, { bound }) => {
      if (firstSeconds < 0) {
        firstSeconds = cpuSeconds() - begun;
        firstReady = ready;
      } else near = gap > 0 && overBound(problem, ready, bound) <= gap;
    },
  });
  if (outcome.kind === 'no plan') throw new Error(`no plan: ${JSON.stringify(outcome.wishes)}`);
  const { plan } = outcome;
  const faults = verifyPlan(problem, plan).map(({ rule, says }) => `${rule}: ${says}`);
  return {
    firstSeconds,
    firstReady,
    plan,
    faults,
  };
}

/** How much longer than the bound the work takes from now on, as a share. */
export function overBound({ now }: Problem, ready: number, bound: number): number {
  return (ready - now) / Math.max(1, bound - now) - 1;
}

/** The places that the plan gives in the coming days, as a roster that was posted. */
export function posted(problem: Problem, plan: Plan, days = 7): Posting[] {
  const until = problem.now + days * 24 * 60;
  const places = plan.segments.flatMap(({ task, turnout, start, crew }) =>
    turnout === null || start >= until
      ? []
      : crew.map(({ person }) => ({ task, turnout, person, firm: false })),
  );
  return [...new Map(places.map((one) => [`${one.task} ${one.turnout} ${one.person}`, one])).values()];
}

/** How many of the posted places the plan does not give. */
export function changes(postings: Posting[], plan: Plan): number {
  return postings.filter(
    ({ task, turnout, person }) =>
      !plan.segments.some(
        (one) =>
          one.task === task && one.turnout === turnout && one.crew.some((hand) => hand.person === person),
      ),
  ).length;
}
