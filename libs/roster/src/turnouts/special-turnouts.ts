import { newId, refuse } from '@ribband/platform';
import { In, IsNull, MoreThan, type EntityManager } from 'typeorm';
import { PlaceEntity } from '../places/place.entity.js';
import { refuseSameStart } from './call-off.js';
import { overlap, slotOf } from './relay-out.js';
import { TurnoutEntity, type TurnoutKind } from './turnout.entity.js';

export type DatedSpecial = Pick<TurnoutEntity, 'heldOn' | 'startTime' | 'endTime' | 'startsAt' | 'endsAt'>;

/** Watches or all-hands days that are not over, in order of time. */
export function specialToCome(
  manager: EntityManager,
  organisationId: string,
  kind: TurnoutKind,
  now: number,
): Promise<TurnoutEntity[]> {
  return manager.find(TurnoutEntity, {
    where: { organisationId, kind, cancelledAt: IsNull(), endsAt: MoreThan(now) },
    order: { startsAt: 'ASC' },
  });
}

/**
 * Lays watches or an all-hands day on. What was called off and would begin at the same minute is held after all, and
 * whoever was on it is asked anew.
 * @param dated in order of time
 * @throws RefusalError where the first would have begun by `now`, one of the kind goes on then, or something else
 *   starts at the minute of one
 */
export async function laySpecial(
  manager: EntityManager,
  organisationId: string,
  { kind, note, now }: { kind: TurnoutKind; note: string | null; now: number },
  dated: readonly DatedSpecial[],
): Promise<TurnoutEntity[]> {
  const [first] = dated;
  if (first && first.startsAt <= now)
    refuse('BAD_INPUT', `${began[kind]} would have begun already.`, {
      field: 'on',
      remedy: 'Choose a time that is still to come.',
    });
  const known = await knownThen(manager, organisationId, kind, dated);
  const rows = dated.map((one): TurnoutEntity => {
    const same = known.get(slotOf(one));
    return {
      ...one,
      ...{ id: same?.id ?? newId('turnout'), version: (same?.version ?? 0) + 1, organisationId },
      ...{ ruleId: null, kind, note, cancelledAt: null, cancelReason: null },
    };
  });
  await manager.delete(PlaceEntity, {
    turnoutId: In([...known.values()].map(({ id }) => id)),
    state: In(['posted', 'taken']),
  });
  return manager.save(TurnoutEntity, rows);
}

const began = { watch: 'The first watch', 'all-hands': 'The all-hands day' } as const;
const another = { watch: 'a watch', 'all-hands': 'an all-hands day' } as const;
const remedies = {
  watch: 'Call the watches off that are laid on, or begin after them.',
  'all-hands': 'Call that day off, or begin after it.',
} as const;

/** What was called off and would begin at the same minutes. */
async function knownThen(
  manager: EntityManager,
  organisationId: string,
  kind: TurnoutKind,
  dated: readonly DatedSpecial[],
): Promise<Map<string, TurnoutEntity>> {
  const slots = new Set(dated.map(slotOf));
  const known = await manager.find(TurnoutEntity, { where: { organisationId }, order: { startsAt: 'ASC' } });
  const isOff = (one: TurnoutEntity) => one.kind === kind && one.cancelledAt !== null;
  const kept = known.find(
    (one) => one.kind === kind && !isOff(one) && dated.some((other) => overlap(other, one)),
  );
  if (kept)
    refuse(
      'ALREADY_EXISTS',
      `There is ${another[kind]} on ${kept.heldOn} from ${kept.startTime} to ${kept.endTime}.`,
      { field: 'on', remedy: remedies[kind] },
    );
  const same = known.filter((one) => slots.has(slotOf(one)));
  const other = same.find((one) => !isOff(one));
  if (other) refuseSameStart(other);
  return new Map(same.map((one) => [slotOf(one), one]));
}
