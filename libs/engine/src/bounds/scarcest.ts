import { WorkCalendar } from '../calendar.js';
import { NetworkPass } from '../network.js';
import type { Bottleneck } from '../plan.js';
import type { Minute, Problem } from '../problem.js';
import { Reach } from './reach.js';
import { SkillLoad } from './skill-load.js';

/** Steps of halving: to the thousandth part of the hours. */
const STEPS = 10;

/**
 * The skills that run short first if fewer hours come than were promised, with every task between its early start and
 * its late end for that deadline: what they have to do and what is there. The cut of the load on skills at the least
 * share of everybody's hours that still carries all of it.
 *
 * Null where the links alone miss the deadline, where nobody's skill is asked for, or where the skills never run short
 * before everything does.
 */
export function scarcestSkills(problem: Problem, deadline: Minute): Bottleneck | null {
  const reach = new Reach(problem, new WorkCalendar(problem.turnouts));
  const pass = new NetworkPass(problem, reach);
  if (pass.circle) return null;
  const end = Math.min(deadline, problem.horizon);
  if (pass.forward() > end) return null;
  pass.backward(end);
  const load = new SkillLoad(problem, reach);
  const shortAt = (share: number) => load.shortage(pass.earlyStart, pass.lateFinish, share);
  let low = 0;
  let high = 1;
  let short = shortAt(1);
  for (let step = 0; step < STEPS && (step > 0 || short === null); step++) {
    const share = (low + high) / 2;
    const found = shortAt(share);
    if (found === null) high = share;
    else {
      low = share;
      short = found;
    }
  }
  return short && short.skills.length > 0 ? short : null;
}
