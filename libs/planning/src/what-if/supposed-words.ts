import { inWords as levelInWords, Skill, Volunteer } from '@ribband/crew';
import { Task, Tool } from '@ribband/repair';
import { In, type EntityManager } from 'typeorm';
import { count, type DayWords, listOf, weekdayNames } from '../words/days.js';
import { inSentence } from '../words/hold.js';
import type { Supposed } from './supposed.js';

/** The names of everything that changes speak of, by id. */
export async function namesOf(
  manager: EntityManager,
  organisationId: string,
  changes: readonly Supposed[],
): Promise<ReadonlyMap<string, string>> {
  const ids = changes.flatMap((one) => {
    switch (one.kind) {
      case 'drop':
      case 'late':
      case 'sooner':
        return one.taskIds;
      case 'recruit':
        return [one.skillId];
      case 'tool':
        return [one.toolId];
      case 'train':
        return [one.volunteerId, one.trainerId, one.skillId];
      case 'turnouts':
        return [];
    }
  });
  const where = { organisationId, id: In([...new Set(ids)]) };
  const named = [
    ...(await manager.findBy(Skill, where)),
    ...(await manager.findBy(Tool, where)),
    ...(await manager.findBy(Volunteer, where)),
  ];
  const tasks = await manager.findBy(Task, where);
  return new Map([
    ...named.map(({ id, name }) => [id, name] as const),
    ...tasks.map(({ id, title }) => [id, `“${title}”`] as const),
  ]);
}

/** A supposed change as one says it. */
export function supposedWords(change: Supposed, names: ReadonlyMap<string, string>, days: DayWords): string {
  const name = (id: string) => names.get(id) ?? 'something that is no longer there';
  const tasks = (ids: readonly string[]) =>
    ids.length > 3
      ? `${listOf(ids.slice(0, 2).map(name))} and ${String(ids.length - 2)} more`
      : listOf(ids.map(name));
  const span = ({ fromOn, untilOn }: { fromOn: string; untilOn: string }) =>
    `from ${days.weekday(fromOn)} to ${days.weekday(untilOn)}`;
  switch (change.kind) {
    case 'drop':
      return `Leave out ${tasks(change.taskIds)}`;
    case 'late':
    case 'sooner':
      return `What ${tasks(change.taskIds)} waits for comes ${count(change.days, 'day')} ${change.kind === 'late' ? 'later' : 'sooner'}`;
    case 'turnouts':
      return `Further turnouts on ${weekdayNames[change.weekday - 1] ?? ''} ${span(change)}`;
    case 'recruit':
      return `One more person for ${inSentence(name(change.skillId))} (${levelInWords(change.level)}), on ${listOf(
        change.weekdays.map((one) => weekdayNames[one - 1] ?? ''),
      )} ${span(change)}`;
    case 'tool':
      return `${String(change.more)} more ${inSentence(name(change.toolId))}`;
    case 'train':
      return `${name(change.trainerId)} teaches ${name(change.volunteerId)} ${inSentence(name(change.skillId))}, up to “${levelInWords(change.level)}”`;
  }
}

const byHand = {
  recruit:
    'Nobody is added to the crew yet. When somebody is found, add them with their skill, their cards and their days.',
  train:
    'It is kept here as an aim. Ask both; when the lessons are over, the new level is signed off on the page of the crew.',
} as const;

/** What people do themselves for a change that cannot be entered; null for one that can. */
export const byHandWords = ({ kind }: Supposed): string | null =>
  kind === 'recruit' || kind === 'train' ? byHand[kind] : null;
