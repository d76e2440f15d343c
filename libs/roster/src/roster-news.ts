import type { Bus } from '@ribband/platform';
import type { EntityManager } from 'typeorm';

/** What is told when a roster changes: which turnouts to look at again; none named means look at all. */
export interface RosterNews {
  turnoutIds: string[];
}

export const rosterTopic = (organisationId: string): string => `roster:${organisationId}`;

/** Tells those who look at the roster, once the change is kept. */
export function tellRoster(
  bus: Bus,
  manager: EntityManager,
  organisationId: string,
  turnoutIds: string[],
): void {
  bus.publishAfter(manager, rosterTopic(organisationId), { turnoutIds } satisfies RosterNews);
}
