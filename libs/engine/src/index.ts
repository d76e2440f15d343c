export type * from './problem.js';
export type * from './plan.js';
export { EVER, NEVER, WorkCalendar } from './calendar.js';
export { network, type Circle, type Network } from './network.js';
export { checkProblem } from './check.js';
export type { Fault } from './faults.js';
export { redraw } from './redraw.js';
export { solve, type OtherSearch, type Progress as SearchProgress, type SolveOptions } from './solve.js';
export { lowerBound, type BoundOptions } from './bounds/lower-bound.js';
