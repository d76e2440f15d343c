import fc from 'fast-check';
import { reconcilePlaces, type SeatToPost, type StandingPlace } from './reconcile-places.js';

function seat(volunteerId: string | null, rest: Partial<SeatToPost> = {}): SeatToPost {
  return {
    turnoutId: 'saturday',
    taskId: 'pull',
    skillId: null,
    level: 0,
    volunteerId,
    startsAt: 0,
    endsAt: 300,
    why: null,
    ...rest,
  };
}

function standing(id: string, volunteerId: string | null, rest: Partial<StandingPlace> = {}): StandingPlace {
  const { why: _why, ...place } = seat(volunteerId);
  return { id, state: 'posted', ...place, ...rest };
}

/** The places after a posting, as the rows would stand. */
function after(places: StandingPlace[], wanted: SeatToPost[]): StandingPlace[] {
  const { add, withdraw } = reconcilePlaces(places, wanted);
  return [
    ...places.filter((place) => !withdraw.includes(place.id)),
    ...add.map(({ why: _why, ...place }, i) => ({
      ...place,
      id: `new-${String(i)}`,
      state: 'posted' as const,
    })),
  ];
}

describe('posting a week', () => {
  it('asks those whom the plan names and opens the rest', () => {
    const wanted = [seat('ines', { skillId: 'puller', level: 2 }), seat(null)];
    expect(reconcilePlaces([], wanted)).toEqual({ add: wanted, withdraw: [] });
  });

  it('keeps places that were taken, whatever the plan says now', () => {
    const taken = standing('a', 'ines', { state: 'taken' });
    expect(reconcilePlaces([taken], [])).toEqual({ add: [], withdraw: [] });
    expect(reconcilePlaces([taken], [seat('ines')])).toEqual({ add: [], withdraw: [] });
  });

  it('takes back what nobody answered and the plan no longer wants', () => {
    const places = [standing('a', 'ines'), standing('b', null)];
    expect(reconcilePlaces(places, [seat('lachlan')])).toEqual({
      add: [seat('lachlan')],
      withdraw: ['a', 'b'],
    });
  });

  it('does not ask again who left the place: it is open instead', () => {
    const left = standing('a', 'ines', { state: 'left' });
    expect(reconcilePlaces([left], [seat('ines', { why: 'the only puller' })]).add).toEqual([seat(null)]);
  });

  it('counts a seat as filled by whoever took it', () => {
    const taken = standing('a', 'lachlan', { state: 'taken' });
    expect(reconcilePlaces([taken], [seat(null)]).add).toEqual([]);
    expect(reconcilePlaces([taken], [seat(null), seat(null)]).add).toEqual([seat(null)]);
  });

  it('asks nobody who has taken a place elsewhere at that time', () => {
    const elsewhere = standing('a', 'ines', { state: 'taken', taskId: 'saw' });
    expect(reconcilePlaces([elsewhere], [seat('ines')]).add).toEqual([seat(null)]);
    const later = standing('a', 'ines', { state: 'taken', taskId: 'saw', startsAt: 300, endsAt: 600 });
    expect(reconcilePlaces([later], [seat('ines')]).add).toEqual([seat('ines')]);
  });

  it('changes nothing the second time, whatever was there before', () => {
    const person = fc.constantFrom(null, 'ines', 'lachlan', 'petra');
    const span = fc.constantFrom([0, 300], [0, 150], [150, 300]);
    const wanted = fc.array(
      fc
        .record({ volunteerId: person, taskId: fc.constantFrom('pull', 'saw'), span })
        .map((one) =>
          seat(one.volunteerId, { taskId: one.taskId, startsAt: one.span[0], endsAt: one.span[1] }),
        ),
      { maxLength: 6 },
    );
    const before = fc.array(fc.tuple(wanted, fc.constantFrom('posted', 'taken', 'left')), { maxLength: 4 });
    fc.assert(
      fc.property(before, wanted, (rows, seats) => {
        const places = rows.flatMap(([some, state], i) =>
          some
            .filter((one) => state === 'posted' || one.volunteerId !== null)
            .map(({ why: _why, ...place }, k) => ({ ...place, state, id: `${String(i)}-${String(k)}` })),
        );
        const once = after(places, seats);
        expect(reconcilePlaces(once, seats)).toEqual({ add: [], withdraw: [] });
      }),
      { numRuns: 300 },
    );
  });
});
