import type { Finding } from '@ribband/crew';
import { refuse, type RefusalCode } from '@ribband/platform';

/** The refusal that a finding is to somebody who wants a place. */
function codeOf(finding: Finding): RefusalCode {
  switch (finding.rule) {
    case 'skill':
      return 'SKILL_MISSING';
    case 'card':
    case 'card-lapses-soon':
      return finding.lapsedOn === undefined ? 'CARD_MISSING' : 'CARD_EXPIRED';
    case 'age-unknown':
    case 'least-age':
    case 'age-for-hazard':
    case 'watch-for-adults':
    case 'teardown':
    case 'visits-only':
      return 'TOO_YOUNG';
    case 'no-consent':
      return 'CONSENT_MISSING';
    case 'month-full':
      return 'MONTH_FULL';
    case 'kept-in-sight':
    case 'adult-alongside':
    case 'two-adults':
    case 'learner-alone':
    case 'supervisor':
    case 'two-persons':
    case 'fire-watch':
    case 'first-aider':
      return 'NEEDS_SUPERVISOR';
    case 'staging':
    case 'lifting-gear':
    case 'carriers':
    case 'check-in':
    case 'roll':
    case 'minimum-crew':
    case 'hot-work-last':
    case 'watch-record':
    case 'hours-a-shift':
    case 'rest':
    case 'machine-hours':
    case 'noise':
    case 'permit':
    case 'weather':
    case 'opening':
      return 'GATE_CLOSED';
  }
}

/**
 * Refuses with the first gate that is closed and names the others. Does nothing when all are open.
 * @param asked the field that is wrong, and a way out in the place of the gate’s
 */
export function refuseClosed(
  findings: readonly Finding[],
  asked: { field?: string; remedy?: string } = {},
): void {
  const [first, ...more] = findings.filter((finding) => finding.weight === 'stop');
  if (!first) return;
  const remedy = asked.remedy ?? first.remedy;
  refuse(codeOf(first), first.words, {
    ...(asked.field === undefined ? {} : { field: asked.field }),
    ...(remedy === null ? {} : { remedy }),
    facts: [
      { name: 'basis', value: first.basis },
      ...more.map((finding) => ({ name: finding.rule, value: finding.words })),
    ],
  });
}
