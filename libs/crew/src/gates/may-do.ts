import {
  ageKnownGate,
  hazardAgeGate,
  taskAgeGate,
  teardownGate,
  visitorGate,
  watchAgeGate,
} from './age-gates.js';
import { consentGate } from './consent.js';
import { minimumCrewGate, twoPersonsGate } from './crew-size.js';
import { fireWatchGate, hotWorkLastGate } from './fire-watch.js';
import { firstAiderGate } from './first-aider.js';
import type { Case, Finding, GateRule, Hand, Occasion, SetAside, WorkRule } from './gate.types.js';
import { hoursGate, machineHoursGate, restGate } from './hours.js';
import { carriersGate } from './lifting.js';
import { monthCapGate } from './month-cap.js';
import { noiseGate } from './noise-gate.js';
import { permitGate } from './permits.js';
import { supervisorGate } from './ratios.js';
import { checkInGate } from './roll.js';
import { afterSettingAside } from './set-aside.js';
import { cardGate, cardLapsesSoonGate, learnerGate, skillGate } from './skill-and-card.js';
import { adultAlongsideGate, keptInSightGate, twoAdultsGate } from './supervision.js';
import { liftingGearGate, stagingGate } from './tags.js';
import { weatherGate } from './weather.js';
import { bareYard, type YardFacts } from './yard-facts.js';

/** What hangs on the person, the work and the day alone. */
const ownGates: GateRule[] = [
  skillGate,
  cardGate,
  cardLapsesSoonGate,
  visitorGate,
  ageKnownGate,
  taskAgeGate,
  hazardAgeGate,
  watchAgeGate,
  teardownGate,
  keptInSightGate,
  consentGate,
  monthCapGate,
];

/** What hangs on who else is there. */
const companyGates: GateRule[] = [
  learnerGate,
  supervisorGate,
  adultAlongsideGate,
  twoAdultsGate,
  firstAiderGate,
  twoPersonsGate,
  minimumCrewGate,
  fireWatchGate,
];

/** What hangs on the work and on how things stand at the yard that day, whoever would be on it. */
const workGates: WorkRule[] = [hotWorkLastGate, stagingGate, liftingGearGate, permitGate, weatherGate];

/** What hangs on the hours of the person as well. */
const dayGates: GateRule[] = [
  checkInGate,
  hoursGate,
  restGate,
  machineHoursGate,
  noiseGate,
  carriersGate,
  ...workGates,
];

export interface Verdict {
  /** True when no finding is a stop. It says that nothing on record forbids it, never that the work is harmless. */
  may: boolean;
  findings: Finding[];
}

function verdict(rules: GateRule[], given: Case): Verdict {
  const findings = afterSettingAside(
    rules.flatMap((rule) => rule(given)),
    given.occasion.setAside,
  );
  return { may: findings.every((finding) => finding.weight !== 'stop'), findings };
}

/** Everything that is asked of somebody who takes a place, or stands on it on the day. */
export function mayDo(given: Case): Verdict {
  return verdict([...ownGates, ...companyGates, ...dayGates], given);
}

/** As `mayDo`, without looking at who else is there or at the hour: what a planner can know before it has chosen. */
export function mayDoOnTheDay(
  given: Omit<Case, 'occasion'> & {
    on: string;
    isWatch?: boolean;
    yard?: YardFacts;
    setAside?: readonly SetAside[];
  },
): Verdict {
  const { on, isWatch = false, yard = bareYard, setAside = [], ...rest } = given;
  const occasion: Occasion = {
    on,
    isWatch,
    startsAt: 0,
    endsAt: 0,
    turnoutEndsAt: 0,
    asked: 'ahead',
    alongside: [],
    atTurnout: [],
    shifts: [],
    yard,
    setAside,
  };
  return verdict(ownGates, { ...rest, occasion });
}

/** What closes work on a day whoever would be on it: permits, tags, weather, fire that leaves its watch no time. */
export function workFindings(given: Pick<Case, 'job' | 'occasion'>): Finding[] {
  return workGates.flatMap((rule) => rule(given));
}

/** What closes a whole day's turnout for those who are there: nobody with a first-aid card, nobody else at all. */
export function turnoutFindings(there: readonly Hand[], occasion: Occasion): Finding[] {
  const [hand, ...atTurnout] = there;
  if (!hand) return [];
  const given = { occasion: { ...occasion, atTurnout }, hand };
  return [...firstAiderGate(given), ...twoPersonsGate(given)];
}
