import { type Asked, swingHands } from '@ribband/engine';
import type { ToldPlan } from '../../plans/told-plan.js';
import { crewsAt, type SeatedTurnout } from '../crews.js';

/**
 * Who stands by at a turnout, until every crew is as likely as the yard wishes or nobody is left who helps: first those
 * who come and have no place, then those whose work could start without them, who go on with it until they are needed.
 * @param wish 0..1
 * @returns ids, in the order in which they help
 */
export function standingBy(
  told: ToldPlan,
  at: Omit<SeatedTurnout, 'standingBy'>,
  { idleIds, extraIds }: { idleIds: readonly string[]; extraIds: readonly string[] },
  wish: number,
): string[] {
  const seatedOnly = crewsAt(told, { ...at, standingBy: [] });
  const swinging = crewsAt(told, { ...at, standingBy: [...idleIds, ...extraIds] });
  const ownSeat = new Map(seatedOnly.ids.map((id, i) => [id, seatedOnly.people[i]?.seated ?? []]));
  const asSpare = (id: string): Asked => {
    const one = swinging.people[swinging.ids.indexOf(id)];
    return { chance: one?.chance ?? 0, standsIn: one?.standsIn ?? [], seated: ownSeat.get(id) ?? [] };
  };
  const spareIds = new Set([...idleIds, ...extraIds]);
  const seated = seatedOnly.people.filter((_, i) => !spareIds.has(seatedOnly.ids[i] ?? ''));
  const extra = extraIds.map(asSpare);
  const idle = idleIds.map(asSpare);
  const others = extra.map((one) => ({ ...one, standsIn: [] }));
  const first = swingHands(swinging.works, [...seated, ...others], idle, wish, at.together);
  const standing = first.flatMap((i) => idle[i] ?? []).map((one) => ({ ...one, seated: [] }));
  const more = swingHands(swinging.works, [...seated, ...standing], extra, wish, at.together);
  return [...first.flatMap((i) => idleIds[i] ?? []), ...more.flatMap((i) => extraIds[i] ?? [])];
}
