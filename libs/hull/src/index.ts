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
export {
  brokenAmong,
  brokenBy,
  type ElementNames,
  waitsBefore,
  waitsUnder,
  type OpenSet,
  type Wait,
} from './openings/may-open.js';
export {
  missingSupports,
  prerequisitesOf,
  type Prerequisite,
  type Support,
} from './openings/prerequisites.js';
export { BUTT_RULES, REPLACEMENT_RULES, SISTER_RULES } from './planking/butt-rules.js';
export {
  buttsOf,
  checkButts,
  readingFor,
  type Butt,
  type ButtCheck,
  type ButtFault,
  type Reading,
} from './planking/butts.js';
export { proposeLayout, type LayoutAnswer, type LayoutWish } from './planking/propose-layout.js';
export {
  checkRefastening,
  checkReplacement,
  proposeReplacements,
  type Replacement,
  type ReplacementCheck,
} from './planking/replacement.js';
export { checkSisters, leastPastDamage, type SisterFault, type SisterWish } from './planking/sisters.js';
export { JOINT_RULES } from './framing/joint-rules.js';
export { girthAt, heightAt, mouldedAt } from './framing/girth.js';
export { checkJointShift, type ShiftFault, type ShiftReading } from './framing/joint-shift.js';
export { partingsOf, type JointSettings, type Parting } from './framing/new-joint.js';
export {
  nearJoint,
  SCARF_KINDS,
  scarfAt,
  scarfLength,
  type Scarf,
  type ScarfKind,
} from './framing/scarfs.js';
export type { Drawn, EndJoint } from './scope/drawn.js';
export {
  minimumOpening,
  openingAlternatives,
  STRAKES_THAT_STAY_OVER_HEAD,
  type MinimumOpening,
  type OpeningAim,
  type OpeningAnswer,
  type OpeningWish,
} from './scope/minimum-opening.js';
export { scopeCounts, seamFeet, type ScopeCounts } from './scope/scope-counts.js';
export { plankFeet } from './scope/plank-hours.js';
export * from './methods/method.js';
export { RATES, type NamedRate, type Rate } from './methods/rates.js';
export { STARTING_BOOK } from './methods/book/book.js';
export { checkBook, needBook, type BookFault } from './methods/check-book.js';
export { changeMethod, changeRate } from './methods/change.js';
export { whatChanged } from './methods/what-changed.js';
export type { ScopedElement } from './methods/scope.js';
export { expandScope, taskRef, type Expansion, type MethodLink, type MethodTask } from './methods/expand.js';
export { compareExpansions, type ExpansionChange } from './methods/compare.js';
export type * from './scope/survey.js';
export { scopeOfSurvey, type Scope, type ScopeChoices } from './scope/scope-of-survey.js';
export * from './timber/log-rules.js';
export * from './timber/moisture.js';
export * from './timber/sizes.js';
export { framePiecePounds, plankPounds } from './timber/element-weight.js';
export {
  holeFate,
  lotBalance,
  trayBalance,
  type HoleFate,
  type TrayBalance,
  type TrayEntry,
} from './trays/balance.js';
export { buyBy, forecastShortfall, type BuyBy, type ShortfallForecast } from './trays/forecast.js';
export { careChoices, careRate, withCare, type Care, type CareChoice } from './trays/care.js';
export {
  checkOffsets,
  offsetsOfModel,
  type HalfModel,
  type Offsets,
  type Section,
  type SectionPoint,
} from './shape/offsets.js';
export { unfairReadings, type UnfairReading } from './shape/surface.js';
export {
  futtockPatterns,
  outlineOf,
  type FuttockPattern,
  type PatternWish,
  type Point,
} from './shape/patterns.js';
export { layUp, stockPatternOf, type LayUp, type LayUpWish, type Placed } from './layup/lay-up.js';
export { LAY_UP_RULES, type Flitch, type StockPattern } from './layup/stock.js';
export { wantedList, type Wanted } from './layup/wanted.js';
export { DRIFT_RULES, driftOf, type DriftState, holdOf } from './readings/witness-marks.js';
export type { Reading as WitnessReading } from './readings/witness-marks.js';
export { readTag, TAG_CODES, tagCode, type TagReading } from './tags/tag-code.js';
export {
  ELEMENT_STATES,
  elementStateAt,
  shellMap,
  type ElementState,
  type OpeningTimes,
  type ShellCell,
  type ShellMap,
} from './shell/shell-map.js';
export { overridesNeeded, type OverrideNeeded } from './scope/overrides-needed.js';
export { QR_MOST_BYTES, qrCode, type QrCode } from './tags/qr-code.js';
export { likelyMinutes } from './methods/likely.js';
export { flitchOf, type TapedDefect, type TapedFlitch } from './layup/taped-flitch.js';
export { stockPatterns, type StockWish } from './layup/scope-patterns.js';
