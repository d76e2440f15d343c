export type * from './problem.js';
export type * from './plan.js';
export * from './calendar.js';
