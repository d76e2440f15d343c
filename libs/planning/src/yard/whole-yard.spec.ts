import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { Organisations } from '@ribband/access';
import { Volunteer } from '@ribband/crew';
import { RefusalError, scratchKinds } from '@ribband/platform';
import { TurnoutEntity } from '@ribband/roster';
import { IsNull, Not } from 'typeorm';
import { cleanPicture } from '../../../repair/src/pictures/clean-picture.js';
import { pngOf } from '../../../repair/src/pictures/pictures.fixture.js';
import { TestHouse } from '../planning.fixture.js';
import { FireWatches } from '../../../roster/src/fire-watch/fire-watches.service.js';
import { HourClaimEntity } from '../../../roster/src/hours/grant-report.entity.js';
import { HourEntryEntity } from '../../../roster/src/hours/hour-entry.entity.js';
import { IncidentEntity } from '../../../roster/src/safety/incident.entity.js';
import { smallYard } from './small-yard.fixture.js';
import { YardBook } from './yard-book.service.js';
import type { YardDocument } from './yard-document.js';

/** What a yard's document does not carry, and why. */
const leftOut: Readonly<Record<string, string>> = {
  account: 'who signs in, with a hash of a password: secrets never leave',
  membership: 'what an account is at this yard; it finds its person again by the ref',
  login_session: 'a secret',
  audit_entry: 'the trail of this server, which a document could not prove',
  yard_clock: 'the demo’s clock, moved on the page',
  revision: 'counts changes for computing',
  compute_job: 'waits to be computed',
  message: 'news that were told already, or that are told by this server',
  message_choice: 'each person’s own choice; it follows the person through a new reading',
  place_deed: 'answers to presses of a button, kept for a day',
  tally_key: 'answers to presses of a button',
  calendar_feed: 'has a secret address',
  calendar_event: 'follows from the places at the next reading of the feed',
  plan_input: 'reckoned',
  plan: 'reckoned',
  plan_in_force: 'reckoned',
  forecast: 'reckoned',
  outlook_mark: 'reckoned, one a day; the trend begins anew',
  advice: 'reckoned',
  care_odds: 'reckoned',
  week_draft: 'a roster in the making, of a plan that is reckoned anew',
  what_if: 'a question that somebody asked, with what was reckoned',
  say_so: 'stands as the last day of its task, or as a smaller count',
  stock_hold: 'follows from the timber book',
};

const demo = (): YardDocument =>
  JSON.parse(
    readFileSync(new URL('../../../../fixtures/demo-yard.json', import.meta.url), 'utf8'),
  ) as YardDocument;

/** The small yard with a photograph and what it set for its timber, and with places that were taken and left. */
function smallWithAll(): YardDocument {
  const yard = smallYard();
  const picture = cleanPicture(pngOf(20, 10));
  if (!picture) throw new Error('no picture');
  const { bytes, type, width, height } = picture;
  yard.cameOff.pieces[0]?.pictures.push({
    hash: createHash('sha256').update(bytes).digest('hex'),
    ...{ type, width, height, byteCount: bytes.length, caption: 'from aft', by: 'Odalys Brenn' },
    base64: bytes.toString('base64'),
  });
  const [incident] = yard.turnoutBook?.incidents ?? [];
  Object.assign(incident, { picture: { type, base64: bytes.toString('base64') } });
  yard.timber.settings = {
    ...{ fahrenheit: 55, humidity: 0.7, plankingPercent: 15, framesPercent: null, usableShare: 0.6 },
    ...{ poundsACubicFoot: 32, sawMarginMillimetres: 6, grainRunOut: 0.1, leadDays: 60 },
    ...{ changedBy: 'Odalys Brenn', changedReason: 'as the shed reads' },
  };
  yard.singleTurnouts.push(
    { on: '2027-04-17', startTime: '22:00', endTime: '02:00', note: null, kind: 'watch' },
    { on: '2027-04-17', startTime: '07:00', endTime: '12:00', note: 'Lift day', kind: 'all-hands' },
  );
  const onWatch = { on: '2027-04-17', startTime: '22:00', task: 'saw-plank', from: '23:30', to: '01:00' };
  const open = { volunteer: null, skill: null, level: null, state: 'posted' as const, why: null };
  const launch = { on: '2027-04-17', startTime: '07:00', task: 'saw-plank', from: null, to: null };
  const aider = { role: 'first aider', card: 'first-aid' };
  yard.places.push({ ...onWatch, ...open }, { ...launch, ...open, ...aider });
  Object.assign(yard.places[0] ?? {}, { takenAt: '2027-03-01T18:00:00.000Z' });
  const teacher = { skill: 'puller', level: 1, teacher: 'marguerite-alkin' };
  const left = {
    state: 'left',
    volunteer: 'halcyon-reeves',
    leftAt: '2027-03-02T18:00:00.000Z',
    leftReason: 'a cold',
  };
  Object.assign(yard.places[1] ?? {}, { ...left, ...teacher });
  Object.assign(yard.volunteers[0] ?? {}, {
    turnoutsAMonth: 6,
    phone: '+1 360 555 0142',
    wouldLearn: ['puller'],
  });
  return yard;
}

describe.each(scratchKinds())('Everything that is kept, on %s', (kind) => {
  let house: TestHouse;
  let book: YardBook;
  beforeEach(async () => {
    house = await TestHouse.open(kind, 'ask');
    book = house.app.get(YardBook);
  });
  afterEach(() => house.close());

  const put = async (document: unknown) => {
    const read = await book.import(house.caller('coordinator'), document, true);
    if (Array.isArray(read)) throw new Error(JSON.stringify(read, null, 2));
  };
  const take = async () => JSON.stringify(await book.export(house.caller('coordinator')));
  const tables = () => house.database.read.connection.entityMetadatas;
  const counts = async (): Promise<Record<string, number>> => {
    const found: Record<string, number> = {};
    for (const { tableName, target } of tables())
      if (!(tableName in leftOut)) found[tableName] = await house.database.read.count(target);
    return found;
  };

  it('goes out and in with every row, byte for byte, or is left out for a reason that is written down', async () => {
    const most: Record<string, number> = {};
    for (const document of [demo(), smallWithAll()]) {
      await put(document);
      const first = await take();
      const before = await counts();
      await put(JSON.parse(first));
      expect(await take()).toBe(first);
      expect(await counts()).toEqual(before);
      for (const [table, rows] of Object.entries(before)) most[table] = Math.max(most[table] ?? 0, rows);
    }
    // Each of them has a row in one of the two yards, so that a table that nobody writes would be seen here.
    expect(Object.entries(most).filter(([, rows]) => rows === 0)).toEqual([]);
    const names = new Set(tables().map(({ tableName }) => tableName));
    expect(Object.keys(leftOut).filter((table) => !names.has(table))).toEqual([]);
  }, 240_000);

  it('goes into an empty house of its own and comes out the same', async () => {
    await put(smallWithAll());
    const first = await take();
    const other = await TestHouse.open(kind, 'ask');
    try {
      const there = other.app.get(YardBook);
      const read = await there.import(other.caller('director'), JSON.parse(first), false);
      expect(Array.isArray(read)).toBe(false);
      expect(JSON.stringify(await there.export(other.caller('coordinator')))).toBe(first);
    } finally {
      await other.close();
    }
  });

  it('goes into a second yard beside the first, whose entries get ids of their own, and out and in of that', async () => {
    await put(smallWithAll());
    const first = JSON.parse(await take()) as YardDocument;
    const beside = await house.database.write((manager) =>
      house.app
        .get(Organisations)
        .found(manager, { name: 'The Yard Beside', units: 'metric', crewOddsWish: 0.8, isDemo: true }),
    );
    const there = { ...house.caller('coordinator'), organisationId: beside.id };
    expect(Array.isArray(await book.import(there, first, false))).toBe(false);
    const copy = JSON.stringify(await book.export(there));
    expect(Array.isArray(await book.import(there, JSON.parse(copy), true))).toBe(false);
    expect(JSON.stringify(await book.export(there))).toBe(copy);
    const { hours } = JSON.parse(copy) as YardDocument;
    expect(hours?.reports[0]?.document).toEqual(first.hours?.reports[0]?.document);
    expect(hours?.reports[0]?.claims).toEqual([hours?.entries[0]?.id]);
    expect(hours?.entries[0]?.id).not.toBe(first.hours?.entries[0]?.id);
  });

  it('takes a report without claims by its lines, and says what is wrong with claims', async () => {
    const yard = smallYard();
    const report = yard.hours?.reports[0];
    if (!report) throw new Error('no report');
    delete report.claims;
    await put(yard);
    expect(await house.database.read.count(HourClaimEntity)).toBe(1);
    report.claims = [];
    const read = await book.import(house.caller('director'), yard, true);
    expect(Array.isArray(read) && read.map(({ path }) => path)).toEqual(['hours.reports[0].claims']);
    report.claims = ['hours_019c0000-0000-7000-8000-00000000000f'];
    const again = await book.import(house.caller('director'), yard, true);
    expect(Array.isArray(again) && again.map(({ path }) => path)).toEqual(['hours.reports[0].claims[0]']);
  });

  it('knows when a turnout was called off: the fires of one that went on until then are seen again', async () => {
    const firesOf = async () => {
      const { organisationId } = house;
      const held = { organisationId, heldOn: '2027-03-06', startTime: '09:00' };
      const { id } = await house.database.read.findOneByOrFail(TurnoutEntity, held);
      return (await house.app.get(FireWatches).list(house.caller('coordinator'), id)).length;
    };
    const off = { on: '2027-03-06', startTime: '09:00', reason: 'thunder' };
    const midway = { ...off, at: '2027-03-06T20:00:00.000Z' };
    for (const [calledOff, fires] of [
      [midway, 1],
      [off, 0],
      [{ ...off, at: '2027-03-01T20:00:00.000Z' }, 0],
    ] as const) {
      await put({ ...smallYard(), cancelledTurnouts: [calledOff] });
      expect(await firesOf()).toBe(fires);
      const out = JSON.parse(await take()) as YardDocument;
      expect(out.cancelledTurnouts).toEqual([calledOff]);
      await put(out);
      expect(await firesOf()).toBe(fires);
    }
  });

  it('has no hash of a password, no secret address and nothing of a session in it', async () => {
    await put(smallWithAll());
    expect(await take()).not.toMatch(/passwordHash|tokenHash|scrypt|argon|secret|session/i);
  });

  it('keeps the hours and what people decided when a document says nothing of them', async () => {
    await put(smallWithAll());
    const before = JSON.parse(await take()) as YardDocument;
    const { hours: _hours, turnoutBook: _book, planBook: _plans, safety: _safety, ...silent } = before;
    await put(silent);
    const after = JSON.parse(await take()) as YardDocument;
    expect(after.hours).toEqual(before.hours);
    expect(after.planBook).toEqual(before.planBook);
    expect(after.turnoutBook?.incidents).toEqual(before.turnoutBook?.incidents);
    expect(after.safety).toEqual(before.safety);
  });

  it('does not make a permit for one piece of work one for all when the work is there no more', async () => {
    await put(smallYard());
    const { safety: _safety, ...silent } = smallYard();
    silent.delegations = [];
    const renamed = JSON.stringify(silent).replaceAll('"pull-nails"', '"pull-old-nails"');
    await put(JSON.parse(renamed.replaceAll('"band-mill"', '"other-mill"')));
    const { safety } = JSON.parse(await take()) as YardDocument;
    expect(safety).toEqual({ ...smallYard().safety, permits: [], loudness: [] });
  });

  it('keeps photographs of incidents that a document has no room for', async () => {
    await put(smallWithAll());
    const big = { picture: 'A'.repeat(700_000), pictureType: 'image/png' };
    await house.database.write((manager) => manager.update(IncidentEntity, { picture: Not(IsNull()) }, big));
    const roomless = JSON.parse(await take()) as YardDocument;
    expect(roomless.turnoutBook?.incidents.map(({ picture }) => picture)).toContain(null);
    const { turnoutBook: _book, ...silent } = roomless;
    for (const document of [roomless, silent]) {
      await put(document);
      expect(await house.database.read.countBy(IncidentEntity, big)).toBe(1);
    }
  });

  it('does not let the hours of somebody go with the person, unless it is told to', async () => {
    await put(smallYard());
    const { hours: _hours, turnoutBook: _book, ...other } = smallYard();
    const one = (document: Omit<YardDocument, 'hours'>) => ({
      ...document,
      delegations: [],
      volunteers: document.volunteers.filter(({ ref }) => ref !== 'anselm-druitt'),
    });
    const refusal: unknown = await put(one(other)).catch((error: unknown) => error);
    expect(refusal instanceof RefusalError && refusal.refusal).toMatchObject({ code: 'STILL_IN_USE' });
    expect(await house.database.read.countBy(Volunteer, { ref: 'anselm-druitt' })).toBe(1);
    const none = { kinds: [], grants: [], rates: [], entries: [], periods: [], reports: [] };
    await put({ ...one(other), hours: none });
    expect(await house.database.read.count(HourEntryEntity)).toBe(0);
  });

  it('has nobody’s chance to come in it, and telephone numbers for the coordinator alone; neither is lost', async () => {
    const stated = smallWithAll();
    Object.assign(stated.volunteers[1] ?? {}, { showUpChance: 0.55 });
    await put(stated);
    expect(await take()).not.toMatch(/showUp|0\.55/);
    const told = await book.export(house.caller('director'));
    expect(JSON.stringify(told)).not.toMatch(/555 0142|wouldLearn/);
    const back = await book.import(house.caller('director'), told, true);
    expect(Array.isArray(back)).toBe(false);
    expect(await take()).toContain('555 0142');
    expect(await take()).toContain('"wouldLearn":["puller"]');
    expect(await house.database.read.findOneByOrFail(Volunteer, { ref: 'marguerite-alkin' })).toMatchObject({
      showUpChance: 0.55,
    });
  });

  it('says what is wrong with its books by the path, and writes nothing', async () => {
    const wrong = smallYard();
    const [entry, corrected] = wrong.hours?.entries ?? [];
    const report = wrong.hours?.reports[0];
    if (!report || !wrong.turnoutBook || !wrong.planBook) throw new Error('empty books');
    Object.assign(entry, { volunteer: 'nobody', kind: 'Sweeping', minutes: 90 });
    Object.assign(corrected, { task: 'no-such-task' });
    report.csv += 'one more line';
    wrong.turnoutBook.attendance[0].startTime = '10:00';
    wrong.turnoutBook.incidents[0].owner = 'nobody-either';
    wrong.planBook.baselines[0].tasks[0].task = 'gone';
    Object.assign(wrong.safety?.permits[0] ?? {}, { expiresAt: '2027-03-01T00:00:00.000Z' });
    const read = await book.import(house.caller('director'), wrong, false);
    expect(Array.isArray(read) && read.map(({ path }) => path)).toEqual([
      'safety.permits[0].expiresAt',
      'hours.entries[0].volunteer',
      'hours.entries[0].kind',
      'hours.entries[0].minutes',
      'hours.entries[1].task',
      'hours.entries[1].corrects',
      'hours.entries[2].adjusts',
      'hours.reports[0].hash',
      'turnoutBook.attendance[0].on',
      'turnoutBook.incidents[0].owner',
      'planBook.baselines[0].tasks[0].task',
    ]);
    expect(await house.database.read.count(HourEntryEntity)).toBe(0);
  });
});
