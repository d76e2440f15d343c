import { ageOn, reachesAgeOn } from './age.js';
import type { Case, Hand, Job, Occasion, SeatOnJob } from './gate.types.js';
import { mayDo, mayDoOnTheDay } from './may-do.js';
import { bareYard } from './yard-facts.js';

const sawyer = { id: 'skill_sawyer', name: 'sawyer' };
const firstAid = { id: 'card_aid', name: 'first aid' };

const hand = (over: Partial<Hand> = {}): Hand => ({
  id: 'v1',
  name: 'Ysolde Pankhart',
  bornOn: '1993-02-01',
  levels: new Map(),
  cards: [],
  ...over,
});
const anselm = hand({ id: 'v2', name: 'Anselm Druitt', levels: new Map([[sawyer.id, 3]]) });
const maud = hand({ id: 'v3', name: 'Maud Sepulvida' });

const job = (over: Partial<Job> = {}): Job => ({
  id: 'task_saw',
  crewMin: 1,
  noiseDba: null,
  lift: null,
  title: 'Frame 12: saw futtocks to bevel',
  hazards: [],
  cards: [],
  leastAge: null,
  seatSkills: [sawyer],
  dismantles: false,
  ...over,
});
const asHand: SeatOnJob = { skill: null, level: 0, cards: [] };
const asSawyer = (level: number): SeatOnJob => ({ skill: sawyer, level, cards: [] });

interface Company {
  on: string;
  alongside: Hand[];
  atTurnout: Hand[];
}
const nine = Date.UTC(2027, 3, 3, 16);
const occasion = ({
  on = '2027-04-03',
  alongside = [],
  atTurnout = alongside,
}: Partial<Company>): Occasion => ({
  on,
  alongside: alongside.map((one) => ({ hand: one, seat: asHand })),
  atTurnout,
  startsAt: nine,
  endsAt: nine + 3 * 3_600_000,
  turnoutEndsAt: nine + 5 * 3_600_000,
  asked: 'ahead',
  shifts: [],
  yard: bareYard,
  setAside: [],
});
const given = (over: Partial<Omit<Case, 'occasion'>> & Partial<Company> = {}): Case => ({
  hand: over.hand ?? hand(),
  job: over.job ?? job(),
  seat: over.seat ?? asHand,
  occasion: occasion(over),
});
const stops = (over: Parameters<typeof given>[0]) =>
  mayDo(given(over)).findings.flatMap((finding) => (finding.weight === 'stop' ? [finding.rule] : []));

describe('Who may take a place', () => {
  it('a plain hand is asked for no skill', () => {
    expect(mayDo(given())).toEqual({ may: true, findings: [] });
  });

  it('a sawyer’s seat takes a sawyer of the level asked for, and says in words what is missing', () => {
    expect(stops({ hand: anselm, seat: asSawyer(2) })).toEqual([]);
    const refused = mayDo(given({ seat: asSawyer(2) }));
    expect(refused.may).toBe(false);
    expect(refused.findings[0]?.words).toBe('This place asks for sawyer, works alone; the record says none.');
  });

  it('a card counts through its last day and not on the morning after', () => {
    const withCard = hand({ cards: [{ kindId: firstAid.id, expiresOn: '2027-04-03' }] });
    const work = job({ cards: [firstAid] });
    expect(stops({ hand: withCard, job: work, on: '2027-04-03' })).toEqual([]);
    expect(stops({ hand: withCard, job: work, on: '2027-04-04' })).toEqual(['card']);
    expect(stops({ job: work })).toEqual(['card']);
  });

  it('a card that lapses within the month is a caution and no stop', () => {
    const withCard = hand({ cards: [{ kindId: firstAid.id, expiresOn: '2027-04-20' }] });
    const told = mayDo(given({ hand: withCard, job: job({ cards: [firstAid] }) }));
    expect(told.may).toBe(true);
    expect(told.findings.map((finding) => finding.rule)).toEqual(['card-lapses-soon']);
  });

  it('a card renewed beside a lapsed one counts', () => {
    const cards = [
      { kindId: firstAid.id, expiresOn: '2027-01-01' },
      { kindId: firstAid.id, expiresOn: null },
    ];
    expect(mayDo(given({ hand: hand({ cards }), job: job({ cards: [firstAid] }) })).findings).toEqual([]);
  });

  it('a 17-year-old is refused the band saw, and may from the eighteenth birthday on', () => {
    const cass = hand({ name: 'Cass Underhay', bornOn: '2009-06-12' });
    const company = { alongside: [anselm, maud] };
    const work = job({ hazards: ['machine'] });
    expect(stops({ hand: cass, job: work, on: '2027-06-11', ...company })).toEqual(['age-for-hazard']);
    expect(stops({ hand: cass, job: work, on: '2027-06-12', ...company })).toEqual([]);
  });

  it('taking a part of the vessel down is closed below 18 whatever else is written', () => {
    const cass = hand({ bornOn: '2009-06-12' });
    expect(stops({ hand: cass, job: job({ dismantles: true }), alongside: [anselm, maud] })).toEqual([
      'teardown',
    ]);
  });

  it('the age that the shipwright wrote holds', () => {
    expect(
      stops({ hand: hand({ bornOn: '2008-06-12' }), job: job({ leastAge: 21 }), on: '2027-07-01' }),
    ).toEqual(['least-age']);
  });

  it('where an age is asked and no day of birth is on record the place stays shut', () => {
    expect(stops({ hand: hand({ bornOn: null }), job: job({ hazards: ['lead'] }) })).toEqual(['age-unknown']);
    expect(stops({ hand: hand({ bornOn: null }) })).toEqual([]);
  });

  it('below 14 one visits', () => {
    expect(stops({ hand: hand({ bornOn: '2014-01-01' }), alongside: [anselm, maud] })).toEqual([
      'visits-only',
    ]);
  });

  it('a minor works beside an adult, with two adults at the yard', () => {
    const noor = hand({ name: 'Noor Tamblyn', bornOn: '2010-10-01' });
    expect(stops({ hand: noor })).toEqual(['adult-alongside', 'two-adults']);
    expect(stops({ hand: noor, alongside: [anselm] })).toEqual(['two-adults']);
    expect(stops({ hand: noor, alongside: [], atTurnout: [anselm, maud] })).toEqual(['adult-alongside']);
    expect(stops({ hand: noor, alongside: [anselm], atTurnout: [anselm, maud] })).toEqual([]);
  });

  it('another minor is no adult, and neither is somebody whose age nobody knows', () => {
    const noor = hand({ bornOn: '2010-10-01' });
    const cass = hand({ id: 'v9', bornOn: '2009-12-01' });
    const unknown = hand({ id: 'v8', bornOn: null });
    expect(stops({ hand: noor, alongside: [cass, unknown] })).toEqual(['adult-alongside', 'two-adults']);
  });

  it('a learner waits for somebody who works alone in the skill', () => {
    const ysolde = hand({ levels: new Map([[sawyer.id, 1]]) });
    expect(stops({ hand: ysolde, seat: asSawyer(1) })).toEqual(['learner-alone']);
    expect(stops({ hand: ysolde, seat: asSawyer(1), alongside: [anselm] })).toEqual([]);
  });

  it('a planner that has not chosen the others yet sees the gates of the person and the day only', () => {
    const noor = hand({ bornOn: '2010-10-01' });
    expect(mayDoOnTheDay({ hand: noor, job: job(), seat: asHand, on: '2027-04-03' }).may).toBe(true);
    expect(
      mayDoOnTheDay({ hand: noor, job: job({ hazards: ['lead'] }), seat: asHand, on: '2027-04-03' }).may,
    ).toBe(false);
  });

  it('every finding says where it comes from', () => {
    const noor = hand({ bornOn: '2014-10-01', levels: new Map([[sawyer.id, 1]]) });
    const work = job({ hazards: ['machine', 'lead'], cards: [firstAid], leastAge: 18, dismantles: true });
    const { findings } = mayDo(given({ hand: noor, job: work, seat: asSawyer(2) }));
    expect(findings.length).toBeGreaterThan(6);
    for (const finding of findings)
      expect(finding.basis).toMatch(/29 CFR (570|19\d\d)\.\d\d|common practice/);
  });
});

describe('Age', () => {
  it('turns on the birthday, and for 29 February on 1 March of a common year', () => {
    expect(ageOn('2009-06-12', '2027-06-11')).toBe(17);
    expect(ageOn('2009-06-12', '2027-06-12')).toBe(18);
    expect(ageOn('2008-02-29', '2026-02-28')).toBe(17);
    expect(ageOn('2008-02-29', '2026-03-01')).toBe(18);
    expect(reachesAgeOn('2008-02-29', 18)).toBe('2026-03-01');
    expect(reachesAgeOn('2008-02-29', 20)).toBe('2028-02-29');
    expect(reachesAgeOn('2009-06-12', 18)).toBe('2027-06-12');
  });
});
