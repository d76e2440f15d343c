import { ageKnownGate, hazardAgeGate, taskAgeGate, teardownGate, visitorGate } from './age-gates.js';
import type { Case, Finding, GateRule, Hand } from './gate.types.js';
import { cardGate, cardLapsesSoonGate, learnerGate, skillGate } from './skill-and-card.js';
import { adultAlongsideGate, keptInSightGate, twoAdultsGate } from './supervision.js';

/** What hangs on the person, the work and the day alone. */
const ownGates: GateRule[] = [
  skillGate,
  cardGate,
  cardLapsesSoonGate,
  visitorGate,
  ageKnownGate,
  taskAgeGate,
  hazardAgeGate,
  teardownGate,
  keptInSightGate,
];

/** What hangs on who else is there. */
const companyGates: GateRule[] = [learnerGate, adultAlongsideGate, twoAdultsGate];

export interface Verdict {
  /** True when no finding is a stop. It says that nothing on record forbids it, never that the work is harmless. */
  may: boolean;
  findings: Finding[];
}

function verdict(rules: GateRule[], given: Case): Verdict {
  const findings = rules.flatMap((rule) => rule(given));
  return { may: findings.every((finding) => finding.weight !== 'stop'), findings };
}

/** Everything that is asked of somebody who takes a place. */
export function mayDo(given: Case): Verdict {
  return verdict([...ownGates, ...companyGates], given);
}

/** As `mayDo`, without looking at who else is there: what a planner can know before it has chosen the others. */
export function mayDoOnTheDay(given: Omit<Case, 'occasion'> & { on: string }): Verdict {
  const { on, ...rest } = given;
  return verdict(ownGates, { ...rest, occasion: { on, alongside: [], atTurnout: [] } });
}

/**
 * Who of those left behind could no longer stay if somebody left: their verdicts with the others who remain.
 * Only what hangs on company is looked at again.
 */
export function whoCouldNotStay(
  remaining: readonly { hand: Hand; given: Omit<Case, 'hand'> }[],
): { hand: Hand; findings: Finding[] }[] {
  return remaining.flatMap(({ hand, given }) => {
    const { may, findings } = verdict(companyGates, { ...given, hand });
    return may ? [] : [{ hand, findings }];
  });
}
