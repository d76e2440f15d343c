import { commonPractice } from './rule-book.js';
import type { GateRule, Hand, HeldConsent, Job } from './gate.types.js';
import { isMinor } from './age-gates.js';

/**
 * The kinds of work that a parent can say yes to for somebody under 18: work without a listed hazard, and one for each
 * hazard that is not closed below 18 altogether. Common practice.
 */
export const consentKinds = {
  light: 'light work without a listed hazard: records, sorting, sweeping, carrying tools',
  eye: 'hand tools where eyes are protected',
  dust: 'dusty work with a mask: sanding by hand, sweeping up',
  noise: 'noisy work with ear muffs',
  strain: 'the same movement for hours, kneeling, working overhead',
  lifting: 'carrying and lifting with others',
  chemical: 'paint, glue and bedding compounds',
  wet: 'work in the wet and cold',
} as const;

export type ConsentKind = keyof typeof consentKinds;

/** The kinds that somebody's parent must have said yes to for this work; what is closed below 18 is not among them. */
export function consentAskedFor(hazards: readonly string[]): ConsentKind[] {
  const asked = hazards.filter((hazard): hazard is ConsentKind => hazard in consentKinds);
  return asked.length > 0 ? asked : ['light'];
}

const isInForce = (consent: HeldConsent, on: string): boolean =>
  consent.givenOn <= on && (consent.withdrawnOn === null || on < consent.withdrawnOn);

/** What of the work no parent has said yes to, for the day; nothing for adults. */
export function consentMissing(
  hand: Pick<Hand, 'bornOn' | 'consents'>,
  job: Pick<Job, 'hazards'>,
  on: string,
): ConsentKind[] {
  if (!isMinor(hand, on)) return [];
  const given = new Set(
    (hand.consents ?? []).filter((consent) => isInForce(consent, on)).flatMap(({ kinds }) => kinds),
  );
  return consentAskedFor(job.hazards).filter((kind) => !given.has(kind));
}

/** Somebody under 18 has a place only where a parent has said yes to that kind of work. Common practice. */
export const consentGate: GateRule = ({ hand, job, occasion }) => {
  // Absent, not empty: whoever asks has not looked.
  if (hand.consents === undefined) return [];
  return consentMissing(hand, job, occasion.on).map((kind) => ({
    rule: 'no-consent',
    weight: 'stop',
    words: `Under 18 a parent says yes first, and nobody has yet to this kind of work: ${consentKinds[kind]}.`,
    remedy: 'A parent tells the coordinator, who writes it down.',
    basis: commonPractice,
  }));
};
