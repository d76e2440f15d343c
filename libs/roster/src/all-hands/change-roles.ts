import { newPlace, type PlaceEntity } from '../places/place.entity.js';
import type { NewRole } from './said-roles.js';

export interface RoleChange extends NewRole {
  /** What the role is called so far; null for one that the day does not have. */
  was: string | null;
}

export interface ChangedRoles {
  add: PlaceEntity[];
  /** Places as they read now, each with how it read before. */
  change: { before: PlaceEntity; now: PlaceEntity }[];
  remove: PlaceEntity[];
}

/**
 * What becomes of the places of a day when its roles change. Of a role that is for fewer, open places go first, then
 * those of who was asked, then of who said yes last. A role that nobody names goes with its places.
 * @param standing places that nobody has left
 * @param span what a new place has in common with the others
 */
export function changeRoles(
  standing: readonly PlaceEntity[],
  roles: readonly RoleChange[],
  span: Pick<PlaceEntity, 'organisationId' | 'turnoutId' | 'taskId' | 'startsAt' | 'endsAt'>,
): ChangedRoles {
  const kept = new Set<string>();
  const changed: ChangedRoles = { add: [], change: [], remove: [] };
  for (const { was, count, ...asked } of roles) {
    const own = standing.filter(({ role }) => was !== null && role === was).sort(lastToGoFirst);
    for (const before of own.slice(0, count)) {
      kept.add(before.id);
      if (isSame(before, asked)) continue;
      changed.change.push({ before, now: { ...before, ...asked, version: before.version + 1 } });
    }
    const missing = Math.max(0, count - own.length);
    changed.add.push(...Array.from({ length: missing }, () => newPlace({ ...span, ...asked })));
  }
  changed.remove.push(...standing.filter(({ id }) => !kept.has(id)));
  return changed;
}

type Asked = Omit<NewRole, 'count'>;

const isSame = (place: PlaceEntity, { role, skillId, level, cardKindId }: Asked): boolean =>
  place.role === role && asksTheSame(place, { skillId, level, cardKindId });

/** Whether a role asks for no other skill, level or card. */
export const asksTheSame = (
  one: Pick<PlaceEntity, 'skillId' | 'level' | 'cardKindId'>,
  other: Pick<PlaceEntity, 'skillId' | 'level' | 'cardKindId'>,
): boolean =>
  one.skillId === other.skillId && one.level === other.level && one.cardKindId === other.cardKindId;

const heldHow = ({ state, volunteerId }: PlaceEntity): number =>
  state === 'taken' ? 0 : volunteerId !== null ? 1 : 2;

function lastToGoFirst(a: PlaceEntity, b: PlaceEntity): number {
  const byTime = (a.takenAt ?? 0) - (b.takenAt ?? 0);
  return heldHow(a) - heldHow(b) || byTime || (a.id < b.id ? -1 : 1);
}
