import type { MethodTask } from '@ribband/hull';
import type { TaskDocument } from '../document/repair-document.js';
import { capital } from '../words.js';

/** What a learner, or a hand beyond the efficient crew, adds: common practice, no source. */
const halfAHand = 0.5;

/** A task that a method makes, as it could have been entered by hand. */
export function taskOf(task: MethodTask): TaskDocument {
  const { ref, kind, estimate, crew, seats, cards, leastAge, oneGo, setUpMinutes } = task;
  const { tools, opens, closes, hazards, cautions, noticeDays } = task;
  return {
    ref,
    title: capital(task.title),
    kind,
    position: capital(task.position),
    estimate,
    crew,
    seats,
    cards,
    leastAge,
    oneGo,
    setUpMinutes,
    extraHandShare: halfAHand,
    learnerShare: halfAHand,
    tools,
    opens,
    closes,
    hazards,
    cautions: noticeDays === null ? cautions : [...cautions, `They want ${noticeDays} days’ notice.`],
    notBefore: null,
    held: null,
    progress: null,
  };
}
