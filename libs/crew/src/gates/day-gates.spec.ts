import { hours, nine, person, rulesOf, stopsOnTheDay } from './gates.fixture.js';
import { airFault } from './permits.js';
import { type Closing, mayClose } from './roll.js';
import { heatRest, windChill } from './weather.js';
import type { DayWeather, OpenPermit } from './yard-facts.js';

describe('Permits', () => {
  const permit = (over: Partial<OpenPermit> = {}): OpenPermit => ({
    kind: 'enclosed-space',
    taskId: null,
    by: 'Jonty Calder-Voss',
    opensAt: nine - hours(1),
    expiresAt: nine + hours(5),
    oxygenPercent: 20.8,
    flammablePercent: 0,
    ...over,
  });
  const job = { hazards: ['enclosed-space'] };
  const stops = (over: Partial<OpenPermit>) => stopsOnTheDay({ job, yard: { permits: [permit(over)] } });

  it('a closed space waits for a reading, by name, that lasts as long as the work', () => {
    expect(rulesOf('caution', { job })).toEqual(['permit']);
    expect(stopsOnTheDay({ job })).toEqual(['permit']);
    expect(stops({})).toEqual([]);
    expect(stops({ expiresAt: nine + hours(2) })).toEqual(['permit']);
    expect(stops({ taskId: 'task_other' })).toEqual(['permit']);
    expect(stops({ taskId: 'task_1' })).toEqual([]);
    expect(stops({ kind: 'lead' })).toEqual(['permit']);
  });

  // 29 CFR 1915.12: 19.5 % up to, not including, 22.0 % oxygen; below 10 % of the lower flammable limit.
  it('the air reads what the regulation asks for', () => {
    const air = (oxygenPercent: number | null, flammablePercent: number | null) =>
      airFault({ oxygenPercent, flammablePercent }) === null;
    expect([air(19.5, 0), air(21.9, 9.9), air(19.4, 0), air(22, 0), air(20.8, 10), air(20.8, null)]).toEqual([
      true,
      true,
      false,
      false,
      false,
      false,
    ]);
    expect(stops({ oxygenPercent: 19.4 })).toEqual(['permit']);
  });

  it.each(['lead', 'asbestos'] as const)('%s waits for its permit', (kind) => {
    const work = { hazards: [kind] };
    expect(stopsOnTheDay({ job: work })).toEqual(['permit']);
    expect(stopsOnTheDay({ job: work, yard: { permits: [permit({ kind })] } })).toEqual([]);
  });
});

describe('Staging', () => {
  it('carries a tag of the day before anybody climbs', () => {
    const job = { hazards: ['fall'] };
    const tag = {
      kind: 'staging' as const,
      name: 'Starboard',
      inspectedOn: '2027-03-30',
      isWithdrawn: false,
    };
    expect(stopsOnTheDay({ job })).toEqual(['staging']);
    expect(stopsOnTheDay({ job, yard: { tags: [{ ...tag, expiresOn: '2027-04-03' }] } })).toEqual([]);
    expect(stopsOnTheDay({ job, yard: { tags: [{ ...tag, expiresOn: '2027-04-02' }] } })).toEqual([
      'staging',
    ]);
    expect(rulesOf('caution', { job })).toEqual(['staging']);
  });
});

describe('Crew and roll', () => {
  it('nobody works at the yard alone, and work waits for its least crew', () => {
    expect(stopsOnTheDay({ alongside: [] })).toEqual(['two-persons']);
    expect(stopsOnTheDay({ job: { crewMin: 5 } })).toEqual(['minimum-crew']);
    expect(rulesOf('stop', { job: { crewMin: 5 } })).toEqual([]);
  });

  it('somebody with a first-aid card is there', () => {
    const yard = { firstAidKinds: new Set(['aid']) };
    const aider = (expiresOn: string) =>
      person('Nuria Castleberg', { cards: [{ kindId: 'aid', expiresOn }] });
    expect(rulesOf('caution', { yard })).toEqual(['first-aider']);
    expect(stopsOnTheDay({ yard })).toEqual(['first-aider']);
    expect(stopsOnTheDay({ yard, alongside: [aider('2027-04-03')] })).toEqual([]);
    expect(stopsOnTheDay({ yard, alongside: [aider('2027-04-02')] })).toEqual(['first-aider']);
  });

  it('who has not signed in is not on work', () => {
    expect(stopsOnTheDay({ yard: { checkedIn: new Set() } })).toEqual(['check-in']);
    expect(stopsOnTheDay({ yard: { checkedIn: new Set(['Maud Sepulvida']) } })).toEqual([]);
  });

  it('a turnout ends with everybody accounted for, every watch over, and a later look taken or said to come', () => {
    const closing = (over: Partial<Closing>) =>
      mayClose({ now: nine, notAccountedFor: [], fires: [], ...over }).map(({ rule, weight }) => [
        rule,
        weight,
      ]);
    const fire = { title: 'Frame 12', staysUntil: nine, look: 'taken' as const };
    expect(closing({ fires: [fire] })).toEqual([]);
    expect(closing({ notAccountedFor: ['Dov Sandringer'] })).toEqual([['roll', 'stop']]);
    expect(closing({ fires: [{ ...fire, staysUntil: nine + 1 }] })).toEqual([['hot-work-last', 'stop']]);
    expect(closing({ fires: [{ ...fire, staysUntil: null }] })).toEqual([['watch-record', 'stop']]);
    expect(closing({ fires: [{ ...fire, look: null }] })).toEqual([['watch-record', 'stop']]);
    expect(closing({ fires: [{ ...fire, look: { toCome: 'Dov Sandringer at 16:00' } }] })).toEqual([
      ['watch-record', 'caution'],
    ]);
  });

  it('one learner each at a machine; by hand four new people or eight experienced', () => {
    const skill = { id: 'skill_saw', name: 'Sawing' };
    const saw = (name: string, level: number) => person(name, { levels: new Map([[skill.id, level]]) });
    const seat = { skill, level: 1, cards: [] };
    const job = { seatSkills: [skill], hazards: ['machine'] };
    const [anselm, ysolde] = [saw('Anselm Druitt', 3), saw('Ysolde Pankhart', 1)];
    const with2 = [
      { hand: anselm, seat: { ...seat, level: 2 } },
      { hand: saw('Amaya Fenwright', 1), seat },
    ];
    expect(rulesOf('stop', { job, hand: ysolde, seat, alongside: [anselm] })).toEqual([]);
    expect(rulesOf('stop', { job, hand: ysolde, seat, occasion: { alongside: with2 } })).toEqual([
      'supervisor',
    ]);
    const byHand = { seatSkills: [skill] };
    const crowd = (count: number, level: number) =>
      Array.from({ length: count }, (_, i) => person(`p${i}`, { levels: new Map([['other', level]]) }));
    expect(rulesOf('stop', { job: byHand, alongside: [anselm, ...crowd(3, 0)] })).toEqual([]);
    expect(rulesOf('stop', { job: byHand, alongside: [anselm, ...crowd(4, 0)] })).toEqual(['supervisor']);
    expect(rulesOf('stop', { job: byHand, alongside: [anselm, ...crowd(6, 2)] })).toEqual([]);
    expect(rulesOf('stop', { job: byHand, alongside: [anselm, ...crowd(7, 2)] })).toEqual(['supervisor']);
  });
});

describe('Weather', () => {
  const calm: DayWeather = {
    highFahrenheit: 65,
    lowFahrenheit: 55,
    windMilesAnHour: 5,
    airQualityIndex: 20,
    thunder: false,
    hold: null,
  };
  const rules = (weight: 'stop' | 'caution', over: Partial<DayWeather>, hazards: string[] = []) =>
    rulesOf(weight, { job: { hazards }, yard: { weather: { ...calm, ...over } } }).filter(
      (rule) => rule === 'weather',
    );

  it('a hot day is shorter by the rests that it asks for', () => {
    // WAC 296-62-09547: 10 minutes in 2 hours from 90 °F, 15 in each hour from 100 °F.
    const fiveHours = [null, 89, 90, 99, 100].map((high) => heatRest(high, 300));
    expect(fiveHours).toEqual([0, 0, 20, 20, 75]);
  });

  it('a mild day says nothing; heat asks for rest and stops nobody by itself', () => {
    expect(rules('caution', {})).toEqual([]);
    expect(rules('caution', { highFahrenheit: 91 })).toEqual(['weather']);
    expect(rules('stop', { highFahrenheit: 101 })).toEqual([]);
  });

  // National Weather Service, Wind Chill Chart of November 2001: °F, miles an hour, and what it feels like.
  it.each([
    [40, 5, 36],
    [40, 60, 25],
    [30, 20, 17],
    [25, 10, 15],
    [20, 15, 6],
    [10, 30, -12],
    [0, 15, -19],
    [-5, 40, -36],
    [-45, 60, -98],
  ])('%i °F in a wind of %i miles an hour feels like %i', (fahrenheit, wind, felt) => {
    expect(Math.round(windChill(fahrenheit, wind))).toBe(felt);
  });

  it('cold is felt with the wind', () => {
    expect([windChill(51, 20), windChill(20, 3)]).toEqual([51, 20]);
    expect(rules('caution', { lowFahrenheit: 34, windMilesAnHour: 15 })).toEqual(['weather']);
    expect(rules('stop', { lowFahrenheit: 10, windMilesAnHour: 18 })).toEqual(['weather']);
    expect(rules('caution', { lowFahrenheit: 45 }, ['chemical'])).toEqual(['weather']);
  });

  it('smoke is a caution, then a stop; wind and thunder keep people off staging and hoist', () => {
    expect(rules('caution', { airQualityIndex: 100 })).toEqual(['weather']);
    expect(rules('stop', { airQualityIndex: 151 })).toEqual(['weather']);
    expect(rules('stop', { thunder: true })).toEqual([]);
    expect(rules('stop', { thunder: true }, ['fall'])).toEqual(['weather']);
    expect(rules('caution', { windMilesAnHour: 22 }, ['crush'])).toEqual(['weather']);
    expect(rules('stop', { windMilesAnHour: 30 }, ['crush'])).toEqual(['weather']);
  });

  it('a named person’s hold stops the work that it names, or all', () => {
    const hold = { by: 'Odalys Brenn', reason: 'Frost on the boards.', hazards: ['fall'] };
    expect(rules('stop', { hold }, ['fall'])).toEqual(['weather']);
    expect(rules('stop', { hold })).toEqual([]);
    expect(rules('stop', { hold: { ...hold, hazards: [] } })).toEqual(['weather']);
  });
});
