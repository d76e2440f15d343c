export { adultAge, ageOn, reachesAgeOn } from './age.js';
export { hazardAges, leastAgeFor, visitorsBelow } from './age-gates.js';
export type { Case, Finding, GateRuleName, Hand, HeldCard, Job, Occasion, SeatOnJob } from './gate.types.js';
export { mayDo, mayDoOnTheDay, whoCouldNotStay, type Verdict } from './may-do.js';
export { cardCountsOn } from './skill-and-card.js';
