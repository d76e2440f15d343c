export type * from './problem.js';
export type * from './plan.js';
export * from './calendar.js';
export * from './network.js';
export * from './lengths.js';
export { checkProblem } from './check.js';
export type { Fault } from './faults.js';
export { solve, type Progress as SearchProgress, type SolveOptions } from './solve.js';
export { lowerBound } from './bounds/lower-bound.js';
