import { AuditEntry } from '@ribband/access';
import type { PlaceEntity } from '@ribband/roster';
import { In, type EntityManager } from 'typeorm';

/** Something that has changed in a week since it was posted. */
export interface RosterChange {
  /** Epoch milliseconds of the clock on the wall. */
  at: number;
  /** Name of who did it. */
  who: string;
  what: string;
}

/** As many changes as one answer holds, the newest. */
const mostChanges = 200;

/** Entries that are read back at most. */
const mostRead = 5000;

/**
 * What has changed in a week's roster since it was first posted, the newest first, out of the audit trail: who said yes
 * or no, for whom the coordinator did, turnouts that went on without somebody or were called off, further postings.
 */
export async function rosterChanges(
  manager: EntityManager,
  organisationId: string,
  week: {
    weekOf: string;
    turnoutIds: ReadonlySet<string>;
    places: readonly PlaceEntity[];
    nameOf: (volunteerId: string) => string;
    titleOf: (taskId: string) => string;
    dayOf: (turnoutId: string) => string;
  },
): Promise<RosterChange[]> {
  const rows = await manager.find(AuditEntry, {
    where: { organisationId, operation: In(operations) },
    order: { at: 'DESC', id: 'DESC' },
    take: mostRead,
  });
  const places = new Map(week.places.map((place) => [place.id, place]));
  const changes: RosterChange[] = [];
  let posted = 0;
  for (const { at, who, operation, subjectId, facts } of rows.reverse()) {
    const given = facts as Record<string, unknown>;
    const say = (what: string) => changes.push({ at, who, what });
    if (operation === 'postWeek' && given['weekOf'] === week.weekOf) {
      const [added, withdrawn] = [Number(given['added'] ?? 0), Number(given['withdrawn'] ?? 0)];
      posted++;
      if (posted > 1 && added + withdrawn > 0)
        say(`Posted again: ${added} ${added === 1 ? 'place' : 'places'} added, ${withdrawn} withdrawn.`);
      const standBy = (given['standBy'] ?? {}) as { added?: number; withdrawn?: number };
      const [more, less] = [standBy.added ?? 0, standBy.withdrawn ?? 0];
      if (posted > 1 && more + less > 0)
        say(`Swing hands: ${more} more asked to stand by, ${less} not needed any more.`);
    }
    if (posted === 0) continue;
    const person = typeof given['volunteerId'] === 'string' ? week.nameOf(given['volunteerId']) : '';
    const place = places.get(subjectId ?? '');
    if (place && (operation === 'takePlace' || operation === 'leavePlace')) {
      const where = `“${week.titleOf(place.taskId)}”, ${week.dayOf(place.turnoutId)}`;
      say(`${person} ${operation === 'takePlace' ? 'said yes' : 'can’t come'}: ${where}.`);
    }
    if (!week.turnoutIds.has(subjectId ?? '')) continue;
    if (operation === 'endLesson')
      say(
        `${person} does not learn on ${week.dayOf(subjectId ?? '')} now: the teacher is not on the work any more.`,
      );
    if (operation === 'leaveSwing') say(`${person} can’t stand by on ${week.dayOf(subjectId ?? '')}.`);
    if (operation === 'goWithout') say(`${week.dayOf(subjectId ?? '')} goes on without ${person}.`);
    if (operation === 'cancelTurnout') say(`${week.dayOf(subjectId ?? '')} was called off.`);
  }
  return changes.reverse().slice(0, mostChanges);
}

const operations = [
  'postWeek',
  'takePlace',
  'leavePlace',
  'leaveSwing',
  'endLesson',
  'goWithout',
  'cancelTurnout',
];
