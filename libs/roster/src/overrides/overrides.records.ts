import type { SetAside } from '@ribband/crew';
import { In, IsNull, type EntityManager } from 'typeorm';
import { StopOverride } from './stop-override.entity.js';

type At = Pick<StopOverride, 'turnoutId' | 'taskId' | 'volunteerId'>;

const keyOf = ({ turnoutId, taskId, volunteerId }: At): string => `${turnoutId} ${taskId} ${volunteerId}`;

/** What is set aside for somebody on a task at a turnout, as the gates ask it. */
export type SetAsideFor = (at: At) => SetAside[];

/** The overrides that count at some turnouts, in the order in which they were given. */
export function overridesAt(
  manager: EntityManager,
  organisationId: string,
  turnoutIds: readonly string[],
): Promise<StopOverride[]> {
  return manager.find(StopOverride, {
    where: { organisationId, turnoutId: In([...turnoutIds]), withdrawnAt: IsNull() },
    order: { id: 'ASC' },
  });
}

/** The same for the gates. */
export async function setAsideAt(
  manager: EntityManager,
  organisationId: string,
  turnoutIds: readonly string[],
): Promise<SetAsideFor> {
  const rows = await overridesAt(manager, organisationId, turnoutIds);
  const found = new Map<string, SetAside[]>();
  for (const row of rows) {
    const { rule, grantedBy: by, reason } = row;
    found.set(keyOf(row), [...(found.get(keyOf(row)) ?? []), { rule, by, reason }]);
  }
  return (at) => found.get(keyOf(at)) ?? [];
}

/** An override in one sentence, without the name of whom it is for. */
export const overrideSentence = ({ stopped, grantedBy, reason }: StopOverride): string =>
  `Set aside by ${grantedBy}: “${stopped}” Because: ${reason}`;
