import { type CrewHand, Volunteer } from '@ribband/crew';
import { type Beta, type MetTurnout, showUpOf, type ShowUpRecord, togetherOf } from '@ribband/engine';
import { AbsenceEntity, AttendanceEntity, PlaceEntity, TurnoutEntity } from '@ribband/roster';
import { In, IsNull, LessThan, type EntityManager } from 'typeorm';

/** Who came when expected, as the records have it. */
export interface WhoCame {
  /** Of each person how often they came when expected; notice given, illness and called-off turnouts do not count. */
  showUps: ReadonlyMap<string, ShowUpRecord>;
  met: MetTurnout[];
}

/** How likely people come to their next turnout, out of the record. Never shown of one person. */
export interface Coming {
  /** 0..1 */
  chanceOf: (volunteerId: string) => number;
  /** Share of a turnout's luck that all have in common, 0 up to but not 1. */
  together: number;
}

/** What was stated of a person before there was a record counts as much as five turnouts. */
const priorTurnouts = 5;

/**
 * What is believed of a person's chance to come.
 * @param stated 0..1, as the volunteer's record has it
 * @returns null where they are stated to come always, or never: that is not learned away
 */
export function showUpBelief(stated: number, record: ShowUpRecord | undefined): Beta | null {
  if (stated <= 0 || stated >= 1) return null;
  const prior = { a: priorTurnouts * stated, b: priorTurnouts * (1 - stated) };
  return showUpOf(record ?? { came: 0, expected: 0 }, prior).chance;
}

/**
 * Chances for one turnout: of each person the mean of what is believed of them, which for one turnout is all that
 * counts of it, and the togetherness that the turnouts so far bear out.
 */
export function comingOf(
  hands: readonly Pick<CrewHand, 'id' | 'showUpChance'>[],
  { showUps, met }: WhoCame,
): Coming {
  const chances = new Map(
    hands.map(({ id, showUpChance }) => {
      const belief = showUpBelief(showUpChance, showUps.get(id));
      return [id, belief ? belief.a / (belief.a + belief.b) : showUpChance];
    }),
  );
  return { chanceOf: (id) => chances.get(id) ?? 0, together: togetherOf(met).together };
}

/**
 * Who came of those who had a place and had not given it back, at turnouts that were held and at which somebody kept
 * the list. Whoever sent word, ill or otherwise, is not counted, nor is a turnout that was called off.
 */
export async function whoCame(manager: EntityManager, organisationId: string, now: number): Promise<WhoCame> {
  const turnouts = await manager.findBy(TurnoutEntity, {
    organisationId,
    cancelledAt: IsNull(),
    endsAt: LessThan(now),
  });
  const held = new Set(turnouts.map(({ id }) => id));
  const came = new Map<string, Set<string>>();
  for (const { turnoutId, volunteerId } of await manager.findBy(AttendanceEntity, { organisationId })) {
    const there = came.get(turnoutId) ?? new Set<string>();
    came.set(turnoutId, there.add(volunteerId));
  }
  const expected = new Map<string, Set<string>>();
  const places = await manager.findBy(PlaceEntity, { organisationId, state: In(['posted', 'taken']) });
  for (const { turnoutId, volunteerId } of places) {
    if (volunteerId === null || !held.has(turnoutId) || !came.has(turnoutId)) continue;
    const those = expected.get(turnoutId) ?? new Set<string>();
    expected.set(turnoutId, those.add(volunteerId));
  }
  // The call of the turnout gives away the place of whoever is missing.
  for (const { turnoutId, volunteerId, saidSo } of await manager.findBy(AbsenceEntity, { organisationId })) {
    if (!held.has(turnoutId) || !came.has(turnoutId)) continue;
    const those = expected.get(turnoutId) ?? new Set<string>();
    if (saidSo) those.delete(volunteerId);
    else expected.set(turnoutId, those.add(volunteerId));
  }
  const chances = new Map(
    (await manager.findBy(Volunteer, { organisationId })).map(({ id, showUpChance }) => [id, showUpChance]),
  );
  const showUps = new Map<string, ShowUpRecord>();
  const met: MetTurnout[] = [];
  for (const [turnoutId, those] of expected) {
    met.push({
      expected: [...those].map((id) => {
        const isThere = came.get(turnoutId)?.has(id) ?? false;
        const known = showUps.get(id) ?? { came: 0, expected: 0 };
        showUps.set(id, { came: known.came + (isThere ? 1 : 0), expected: known.expected + 1 });
        return { chance: chances.get(id) ?? 0.8, came: isThere };
      }),
    });
  }
  return { showUps, met };
}
