import type { Finding } from '@ribband/crew';
import type { EntityManager } from 'typeorm';
import { signedInAt } from '../attendance/attendance.records.js';
import type { TurnoutEntity } from '../turnouts/turnout.entity.js';
import type { UnderWay } from './gate-book.js';

/** Of some turnouts those that have begun, with who has signed in. */
export async function underWay(
  manager: EntityManager,
  turnouts: readonly TurnoutEntity[],
  now: number,
): Promise<UnderWay> {
  const begun = turnouts.filter(({ startsAt, endsAt }) => startsAt <= now && now < endsAt);
  const found = new Map<string, string[] | null>();
  for (const { id, organisationId } of begun) found.set(id, await signedInAt(manager, organisationId, id));
  return found;
}

/** A crew comes together one by one: that it is still too small keeps nobody from joining it, only from starting. */
export const withoutCrewSize = (findings: readonly Finding[]): Finding[] =>
  findings.filter(
    ({ rule, weight }) => weight !== 'stop' || (rule !== 'minimum-crew' && rule !== 'carriers'),
  );
