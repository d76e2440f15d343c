import { asHand, hours, nine, person, rulesOf, stopsOnTheDay } from './gates.fixture.js';

const watch = { id: 'card_watch', name: 'Hot-work watch' };
const cutter = { skill: { id: 'skill_cut', name: 'Bolt cutting' }, level: 2, cards: [] };
const withCard = (name: string, expiresOn: string | null = null) =>
  person(name, { cards: [{ kindId: watch.id, expiresOn }], levels: new Map([['skill_cut', 2]]) });
const job = { hazards: ['hot-work'] };
const yard = {
  fireWatchKinds: new Set([watch.id]),
  permits: [
    {
      kind: 'hot-work' as const,
      taskId: null,
      by: 'Odalys Brenn',
      opensAt: nine - hours(1),
      expiresAt: nine + hours(5),
      oxygenPercent: null,
      flammablePercent: null,
    },
  ],
};
const hand = withCard('Kofi Dallimore');

describe('Hot work', () => {
  it('waits for a watch who does nothing else: told ahead, stopped on the day', () => {
    expect(rulesOf('caution', { job, yard, hand, seat: cutter })).toEqual(['fire-watch']);
    expect(stopsOnTheDay({ job, yard, hand, seat: cutter })).toEqual(['fire-watch']);
    expect(stopsOnTheDay({ job, yard, hand, seat: cutter, alongside: [withCard('Suri Adamczak')] })).toEqual(
      [],
    );
  });

  it('who cuts is not the watch, whatever card they hold, and a card that lapsed is none', () => {
    const late = withCard('Suri Adamczak', '2027-04-02');
    expect(stopsOnTheDay({ job, yard, hand, seat: cutter, alongside: [late] })).toEqual(['fire-watch']);
    expect(
      stopsOnTheDay({
        job,
        yard,
        hand,
        seat: asHand,
        occasion: { alongside: [{ hand: late, seat: cutter }] },
      }),
    ).toEqual([]);
  });

  it('knows the watch’s seat by what its skill is taken for, whatever it is called', () => {
    const seat = { skill: { id: 'skill_eyes', name: 'Eyes on it' }, level: 1, cards: [] };
    const occasion = { alongside: [{ hand: withCard('Suri Adamczak'), seat }] };
    expect(stopsOnTheDay({ job, yard, hand, seat: cutter, occasion })).toEqual(['fire-watch']);
    const known = { ...yard, fireWatchSkills: new Set(['skill_eyes']) };
    expect(stopsOnTheDay({ job, yard: known, hand, seat: cutter, occasion })).toEqual([]);
  });

  it('never ends the day: the watch has its hour before the turnout ends', () => {
    const alongside = [withCard('Suri Adamczak')];
    const at = (from: number, to: number, fireWatchMinutes = 60) => ({
      job,
      alongside,
      hand,
      seat: cutter,
      yard: { ...yard, fireWatchMinutes },
      occasion: { startsAt: nine + hours(from), endsAt: nine + hours(to) },
    });
    expect(rulesOf('stop', at(0, 4))).toEqual([]);
    expect(rulesOf('caution', at(0, 4))).toEqual([]);
    expect(rulesOf('caution', at(0, 4.5))).toEqual(['hot-work-last']);
    expect(rulesOf('stop', at(4, 5))).toEqual(['hot-work-last']);
    // A yard may shorten the hour, and never below the regulation's half hour.
    expect(rulesOf('stop', at(4.4, 4.5, 30))).toEqual([]);
    expect(rulesOf('stop', at(4.6, 5, 5))).toEqual(['hot-work-last']);
  });
});
