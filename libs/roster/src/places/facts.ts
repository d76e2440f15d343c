import { bareYard, CardKind, type YardFacts } from '@ribband/crew';
import type { EntityManager } from 'typeorm';

/** How things stand at the yard on some days, as far as the gates ask. */
export async function yardFactsOn(
  manager: EntityManager,
  organisationId: string,
  _days: readonly string[],
): Promise<(on: string) => YardFacts> {
  const kinds = await manager.findBy(CardKind, { organisationId });
  const named = (pattern: RegExp) =>
    new Set(kinds.filter((kind) => pattern.test(kind.name)).map((kind) => kind.id));
  const yard = { ...bareYard, firstAidKinds: named(/first[\s-]?aid/i), fireWatchKinds: named(/watch/i) };
  return () => yard;
}
