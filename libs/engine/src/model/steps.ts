import { EVER } from '../calendar.js';
import type { Minute, Problem } from '../problem.js';

/** Capacity of a tool as steps: from minute at[k] on there are free[k]. at[0] is EVER. */
export interface ToolSteps {
  at: number[];
  free: number[];
}

export function stepsOf(
  tool: Problem['tools'][number],
  span: (from: Minute, to: Minute) => number[],
): ToolSteps {
  const at: number[] = [EVER];
  const free: number[] = [tool.capacity];
  const spans = tool.spans
    .map(({ from, to, capacity }) => ({ between: span(from, to), capacity }))
    .filter(({ between }) => between[0] < between[1])
    .sort((a, b) => a.between[0] - b.between[0]);
  for (const { between, capacity } of spans) {
    if (at[at.length - 1] === between[0]) free[free.length - 1] = capacity;
    else {
      at.push(between[0]);
      free.push(capacity);
    }
    at.push(between[1]);
    free.push(tool.capacity);
  }
  return { at, free };
}
