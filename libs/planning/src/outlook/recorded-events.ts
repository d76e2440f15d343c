import { AuditEntry } from '@ribband/access';
import { Task } from '@ribband/repair';
import { Volunteer } from '@ribband/crew';
import { Between, In, type EntityManager } from 'typeorm';

/** What an operation of the trail did to the plan, in words; operations that change no plan are not listed. */
const words: Record<string, (subject: string) => string> = {
  survey: () => 'the survey changed',
  applyWork: () => 'the work was made anew from the survey',
  methods: () => 'a method changed',
  chooseCare: () => 'another care of fastenings was chosen',
  changeOpeningRule: () => 'an opening rule changed',
  decidePlankRepair: () => 'a repair of a plank was decided',
  setAvailability: (name) => `${name || 'somebody'} changed when they come`,
  setSkillLevel: (name) => `${name || 'somebody'} was signed off anew`,
  importYard: () => 'a yard was read in',
};

/**
 * What was recorded between two instants that moves a date, newest last: by the trail, and where a note carries its
 * own words, by those.
 */
export async function recordedEvents(
  manager: EntityManager,
  organisationId: string,
  from: number,
  to: number,
): Promise<string[]> {
  const entries = await manager.find(AuditEntry, {
    where: { organisationId, at: Between(from + 1, to) },
    order: { id: 'ASC' },
    take: 500,
  });
  const ids = entries.flatMap(({ subjectId }) => subjectId ?? []);
  const names = new Map([
    ...(await manager.findBy(Volunteer, { organisationId, id: In(ids) })).map(
      ({ id, name }) => [id, name] as const,
    ),
    ...(await manager.findBy(Task, { organisationId, id: In(ids) })).map(
      ({ id, title }) => [id, title] as const,
    ),
  ]);
  const told = entries.flatMap(({ operation, subjectId, facts }) => {
    const own = (facts as { words?: unknown }).words;
    if (typeof own === 'string') return [own];
    return words[operation]?.(names.get(subjectId ?? '') ?? '') ?? [];
  });
  return [...new Set(told)].slice(-mostEvents);
}

const mostEvents = 5;
