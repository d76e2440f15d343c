export type * from './problem.js';
export type * from './plan.js';
export { EVER, NEVER, WorkCalendar } from './calendar.js';
export { Lengths } from './lengths.js';
export { network, NetworkPass, type Circle, type Network } from './network.js';
export { checkProblem } from './check.js';
export type { Fault } from './faults.js';
export { redraw } from './redraw.js';
export {
  boundless,
  solve,
  type OtherSearch,
  type Progress as SearchProgress,
  type SolveOptions,
} from './solve.js';
export { lowerBound, type BoundOptions } from './bounds/lower-bound.js';
export type * from './forecast/beliefs.js';
export { plainBeliefs, plainTask } from './forecast/beliefs.js';
export type * from './forecast/forecast-shape.js';
export { forecast, type ForecastOptions } from './forecast/forecast.js';
export type * from './advice/advice-shape.js';
export {
  gammaOfRange,
  paceOfFinished,
  pinRate,
  rateOf,
  ratesByCrew,
  type RateEvidence,
  type RateLearned,
  type RateRange,
} from './learning/rates.js';
export type { Tally } from './learning/tally.js';
export type { Learning } from './learning/learning-curve.js';
export {
  showUpOf,
  togetherOf,
  USUAL_SHOW_UP,
  type MetTurnout,
  type ShowUpLearned,
  type ShowUpRecord,
  type TogetherLearned,
} from './learning/show-ups.js';
export { latenessOf, reworkOf, setUpOf } from './learning/happenings.js';
export { advise, type AdviseOptions } from './advice/advise.js';
export { gainsOf, percentileGained } from './advice/gains.js';
export { candidatesFor, type Possible } from './advice/candidates.js';
export { changed, changedBy, type Changed } from './advice/changed.js';
export { scarcestSkills } from './bounds/scarcest.js';
export { driftOf, type Drift, type DriftPoint } from './record/drift.js';
export { earnedSchedule, type EarnedSchedule, type PlannedPoint } from './record/earned-schedule.js';
export {
  type EarnedFigures,
  earnedFigures,
  type EarnedSums,
  executionIndex,
  pathLengthIndex,
} from './record/earned-value.js';
export { type BaselineWish, type QualityKind, type QualityPoint, qualityPoints } from './record/quality.js';
export { crewOdds, type Asked, type CrewWanted } from './odds/crew-odds.js';
export { agreement, type Agreement } from './forecast/agreement.js';
export { assignRoster, pointsOf } from './roster/assign.js';
export { points } from './roster/costs.js';
export { type Standing, termsOf } from './roster/costs.js';
export type * from './roster/roster-shape.js';
export { type Spare, swingHands } from './roster/swing-hands.js';
