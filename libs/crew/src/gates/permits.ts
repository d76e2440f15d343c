import { onTheDay } from './found.js';
import type { Case, Finding, WorkRule } from './gate.types.js';
import { type OpenPermit, type PermitKind, permitKinds } from './yard-facts.js';

const names: Record<PermitKind, string> = {
  'hot-work': 'hot work',
  lead: 'work in lead paint',
  asbestos: 'work near asbestos',
  'enclosed-space': 'closed spaces',
};

const bases: Record<PermitKind, string> = {
  'hot-work': '29 CFR 1915.504; 1915.14 from memory',
  lead: '29 CFR 1910.1025 by way of 1915.1025',
  asbestos: '29 CFR 1915.1001, from memory',
  'enclosed-space': '29 CFR 1915.12; the competent person by 1915.7, from memory',
};

/** What the air of a closed space must read: 29 CFR 1915.12. Null when it does, else what is wrong. */
export function airFault(air: Pick<OpenPermit, 'oxygenPercent' | 'flammablePercent'>): string | null {
  const { oxygenPercent, flammablePercent } = air;
  if (oxygenPercent === null || flammablePercent === null)
    return 'Oxygen and flammable gas are not both read.';
  if (oxygenPercent < 19.5 || oxygenPercent >= 22)
    return `Oxygen reads ${oxygenPercent} %; entry asks for 19.5 % up to, not including, 22.0 %.`;
  if (flammablePercent >= 10)
    return `Flammable gas reads ${flammablePercent} % of its lower limit; entry asks for less than 10 %.`;
  return null;
}

function isOpen(permit: OpenPermit, { job, occasion }: Pick<Case, 'job' | 'occasion'>): boolean {
  return (
    (permit.taskId === null || permit.taskId === job.id) &&
    permit.opensAt < occasion.endsAt &&
    permit.expiresAt >= occasion.endsAt &&
    (permit.kind !== 'enclosed-space' || airFault(permit) === null)
  );
}

/** Work of some hazards waits for a named person's permit that covers it to its end. */
export const permitGate: WorkRule = (given): Finding[] =>
  permitKinds
    .filter((kind) => given.job.hazards.includes(kind))
    .flatMap((kind) => {
      const ofKind = given.occasion.yard.permits.filter((permit) => permit.kind === kind);
      if (ofKind.some((permit) => isOpen(permit, given))) return [];
      return [
        onTheDay(given.occasion.asked)(
          'permit',
          `No permit for ${names[kind]} is open for the whole of this work.`,
          'A competent person looks, and writes it down under “Permits and weather”.',
          bases[kind],
        ),
      ];
    });
