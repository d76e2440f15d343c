import { bareYard, CardKind, type YardFacts } from '@ribband/crew';
import { safetyFactsOn } from '@ribband/repair';
import type { EntityManager } from 'typeorm';

/** How things stand at the yard on some days, as far as the gates ask. */
export async function yardFactsOn(
  manager: EntityManager,
  organisationId: string,
  days: readonly string[],
): Promise<(on: string) => YardFacts> {
  const kinds = await manager.findBy(CardKind, { organisationId });
  const named = (pattern: RegExp) =>
    new Set(kinds.filter((kind) => pattern.test(kind.name)).map((kind) => kind.id));
  const own = {
    ...bareYard,
    firstAidKinds: named(/first[\s-]?aid/i),
    fireWatchKinds: named(/(hot[\s-]?work|fire)[\s-]?watch/i),
  };
  const written = await safetyFactsOn(manager, organisationId, days);
  return (on) => ({ ...own, ...written(on) });
}
