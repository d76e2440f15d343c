import type { Caller } from '@ribband/access';
import { type GateRuleName, ruleBook } from '@ribband/crew';
import { refuse } from '@ribband/platform';
import { wholeAuthorityOf } from '@ribband/repair';
import type { EntityManager } from 'typeorm';

/** In whose name somebody may set stops aside, by rule; null where they may not. */
export type OverrideAuthority = (rule: GateRuleName) => string | null;

/**
 * The director for every rule that may be set aside at all; for those of the lead shipwright, also the shipwright and
 * whoever has the shipwright's whole authority in writing. A say-so over some of the work is not enough: it was given
 * to judge work, not people.
 */
export async function overrideAuthority(
  manager: EntityManager,
  caller: Caller,
  today: string,
): Promise<OverrideAuthority> {
  const whole = caller.role === 'director' ? caller.name : await wholeAuthorityOf(manager, caller, today);
  return (rule) => {
    const { setAsideBy } = ruleBook[rule];
    if (setAsideBy === 'nobody') return null;
    if (setAsideBy === 'director') return caller.role === 'director' ? caller.name : null;
    return whole;
  };
}

/** @returns in whose name it is set aside @throws RefusalError NOT_PERMITTED */
export function refuseWithoutAuthority(authority: OverrideAuthority, rule: GateRuleName): string {
  const { setAsideBy, says } = ruleBook[rule];
  if (setAsideBy === 'nobody')
    refuse('NOT_PERMITTED', `Nobody sets this aside: ${says}`, {
      field: 'rule',
      remedy: 'Put right what it asks for, or give them other work.',
    });
  return (
    authority(rule) ??
    refuse('NOT_PERMITTED', `You may not set this aside: ${says}`, {
      field: 'rule',
      remedy: setAsideBy === 'director' ? 'The director may.' : 'The director or the lead shipwright may.',
    })
  );
}
