import { bareYard, CardKind, Skill, type YardFacts } from '@ribband/crew';
import { safetyFactsOn } from '@ribband/repair';
import type { EntityManager } from 'typeorm';

/** How things stand at the yard on some days, as far as the gates ask. */
export async function yardFactsOn(
  manager: EntityManager,
  organisationId: string,
  days: readonly string[],
): Promise<(on: string) => YardFacts> {
  const kinds = await manager.findBy(CardKind, { organisationId });
  const watchSkills = await manager.findBy(Skill, { organisationId, purpose: 'hot-work-watch' });
  const takenFor = (purpose: CardKind['purpose']) =>
    new Set(kinds.filter((kind) => kind.purpose === purpose).map(({ id }) => id));
  const own = {
    ...bareYard,
    firstAidKinds: takenFor('first-aid'),
    fireWatchKinds: takenFor('hot-work-watch'),
    fireWatchSkills: new Set(watchSkills.map(({ id }) => id)),
  };
  const written = await safetyFactsOn(manager, organisationId, days);
  return (on) => ({ ...own, ...written(on) });
}
