import type { Problem } from '@ribband/engine';
import { count, listOf } from '../words/days.js';
import { inSentence, quoted } from '../words/hold.js';
import type { Fallen } from './why-fallen.js';

/** Beyond so many pieces of work nobody reads which. */
const mostNamed = 2;

/** Why posted work is not done this morning, as a sentence. */
export function fallenSentence(problem: Problem, { task, why }: Fallen): string {
  switch (why.kind) {
    case 'seat': {
      const skill = inSentence(problem.skills[why.skill]?.name ?? '');
      if (why.have === 0) return `Nobody here for ${skill}.`;
      return `Only ${String(why.have)} here for ${skill}, and it takes ${String(why.need)}.`;
    }
    case 'crew':
      return `It takes ${count(why.need, 'person', 'people')} at once; ${why.have === 0 ? 'nobody' : String(why.have)} of those here may be on it.`;
    case 'closed':
      return 'It must wait.';
    case 'waits':
      return `Waits for ${quoted(problem, why.task)}, which does not get so far today.`;
    case 'elsewhere': {
      const tasks = why.tasks.filter((one) => one !== task).map((one) => quoted(problem, one));
      if (tasks.length > mostNamed)
        return 'Those who could do it are on other work, which she waits for more.';
      return `Those who could do it are on ${listOf(tasks)}, which she waits for more.`;
    }
    case 'opening':
      return `Opening limit “${problem.openingLimits[why.limit]?.name ?? ''}”: no more may be open.`;
    case 'tool':
      return `The ${inSentence(problem.tools[why.tool]?.name ?? '')} is in use.`;
    case 'done':
      return 'It is done.';
    case 'later':
      return 'Other work goes first with the people who are here.';
  }
}
