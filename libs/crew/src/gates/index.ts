export { adultAge, ageOn, reachesAgeOn } from './age.js';
export { leastAgeFor } from './age-gates.js';
export { consentAskedFor, type ConsentKind, consentKinds, consentMissing } from './consent.js';
export { type AgeTable, hazardAges, usualAges, visitorsBelow } from './age-table.js';
export type {
  Case,
  Finding,
  GateRuleName,
  Hand,
  HeldCard,
  HeldConsent,
  Job,
  Lift,
  Occasion,
  Seated,
  SeatOnJob,
  SetAside,
  Shift,
} from './gate.types.js';
export { carriersFor, mostCarriers } from './lifting.js';
export { watchMinutes } from './fire-watch.js';
export { heatRest } from './weather.js';
export { mayDo, mayDoOnTheDay, turnoutFindings, type Verdict, workFindings } from './may-do.js';
export { openingFindings } from './opening-brought-in.js';
export { airFault } from './permits.js';
export { type Closing, mayClose, type WatchedFire } from './roll.js';
export { gateRuleNames, ruleBook, whoSetsAside } from './rule-book.js';
export { cardCountsOn } from './skill-and-card.js';
export {
  bareYard,
  type DayWeather,
  type InspectionTag,
  type OpenPermit,
  type PermitKind,
  permitKinds,
  type TagKind,
  tagKinds,
  type YardFacts,
} from './yard-facts.js';
