export * from './measure.js';
export * from './refusal.js';
export * from './rule.js';
export * from './model/names.js';
export type * from './model/outline.js';
export type * from './model/hull.js';
export * from './model/width-rule.js';
export * from './model/ask.js';
export { buildHull } from './model/build-hull.js';
export * from './openings/settings.js';
export { openingLimits, type OpeningLimit } from './openings/limits.js';
export { brokenBy, waitsBefore, type Wait } from './openings/may-open.js';
export {
  missingSupports,
  prerequisitesOf,
  type Prerequisite,
  type Support,
} from './openings/prerequisites.js';
