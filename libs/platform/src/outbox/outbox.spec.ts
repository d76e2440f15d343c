import { createServer, type Server, type AddressInfo } from 'node:net';
import { Bus } from '../bus/bus.js';
import { RealClock } from '../clock/real-clock.js';
import { YardClock } from '../clock/yard-clock.js';
import { localToInstant } from '../calendar/zones.js';
import { Config } from '../config/config.js';
import { Database } from '../database/database.js';
import { scratchKinds, scratchPlace } from '../database/scratch.js';
import { newId } from '../ids/ids.js';
import { platformEntities, platformMigrations } from '../platform.schema.js';
import { Message, MessageChoice, QuietHours } from './message.entity.js';
import { Messages, type News } from './messages.js';
import { PostOffice } from './post-office.fixture.js';
import { Postman, waitAfter } from './postman.js';
import { afterQuietTime } from './quiet-time.js';
import { Recipients } from './recipients.js';

const zone = 'America/Los_Angeles';
const schema = { entities: platformEntities, migrations: platformMigrations };
const noon = localToInstant('2027-03-06', '12:00', zone);

class SetClock extends RealClock {
  at = noon;
  override now = (): number => this.at;
}

const answer = (responseCode: number, message: string): Error =>
  Object.assign(new Error(message), { responseCode });

describe.each(scratchKinds())('telling people things, on %s', (kind) => {
  const office = new PostOffice();
  const clock = new SetClock();
  let url: string;
  let place: Awaited<ReturnType<typeof scratchPlace>>;
  let database: Database;
  const more: Database[] = [];
  let organisationId: string;
  let anselm: string;

  const at = (
    base: Database,
    settings: Record<string, string> = { SMTP_URL: url, MAIL_FROM: 'Yard <yard@harbor.example>' },
  ) => {
    const config = Config.read({ ...settings, PUBLIC_URL: 'https://harbor.example' });
    const recipients = new Recipients();
    recipients.register('volunteer', (_manager, _organisation, id) =>
      Promise.resolve({
        name: 'Anselm Druitt',
        email: id === noAddress ? null : 'anselm@harbor.example',
        timeZone: zone,
      }),
    );
    const postman = new Postman(base, clock, config, recipients);
    return { postman, messages: new Messages(config, clock, new YardClock(base, clock), new Bus(), postman) };
  };
  const noAddress = newId('volunteer');
  const news = (over: Partial<News> = {}): News => ({
    organisationId,
    to: [anselm],
    kind: 'roster-posted',
    key: 'roster 1',
    subject: 'You are on the roster for Saturday 13 March',
    words: 'Saw table, from 09:00 to 14:00.',
    path: '/places',
    ...over,
  });
  const rows = () => database.read.findBy(Message, { organisationId });
  const post = (over: Partial<News> = {}) =>
    database.write((manager) => at(database).messages.post(manager, news(over)));

  beforeAll(async () => {
    url = await office.open();
    place = await scratchPlace(kind);
    database = await Database.open(place, schema);
  });
  afterAll(async () => {
    for (const one of [database, ...more]) await one.close();
    await place.remove();
    await office.close();
  });
  beforeEach(async () => {
    organisationId = newId('organisation');
    anselm = newId('volunteer');
    office.letters.length = 0;
    office.onRecipient = () => null;
    office.breaksOff = false;
    clock.at = noon;
    await database.write((manager) => manager.update(Message, { mail: 'waiting' }, { mail: 'none' }));
  });

  it('a letter goes out once, says what it is about and where to look', async () => {
    await post();
    expect(await at(database).postman.sendDue()).toEqual(['sent']);
    expect(await at(database).postman.sendDue()).toEqual([]);
    expect(office.letters).toHaveLength(1);
    const [letter] = office.letters;
    expect(letter.to).toBe('anselm@harbor.example');
    expect(letter.text).toContain('Subject: You are on the roster for Saturday 13 March');
    expect(letter.text).toContain('Saw table, from 09:00 to 14:00.');
    expect(letter.text).toContain('https://harbor.example/places');
    expect(letter.text).toContain('Auto-Submitted: auto-generated');
    expect(letter.text).toContain(`Message-ID: <${(await rows())[0]?.id}@harbor.example>`);
  });

  it('the same news is told once, however often it is posted; to somebody else it is new', async () => {
    const other = newId('volunteer');
    expect(await post()).toEqual([anselm]);
    expect(await post({ to: [anselm, other, other] })).toEqual([other]);
    expect(await rows()).toHaveLength(2);
  });

  it('a change that is not kept tells nobody', async () => {
    const work = database.write(async (manager) => {
      await at(database).messages.post(manager, news());
      throw new Error('the change is refused');
    });
    await expect(work).rejects.toThrow('refused');
    expect(await rows()).toEqual([]);
  });

  it('a subject with a line break in it adds no header', async () => {
    await post({ subject: 'Saturday\r\nBcc: all@harbor.example' });
    await at(database).postman.sendDue();
    expect(office.letters[0]?.text).not.toMatch(/^Bcc:/m);
    expect(office.letters[0]?.to).toBe('anselm@harbor.example');
  });

  it('without a mail server the page is where it is told', async () => {
    await database.write((manager) => at(database, {}).messages.post(manager, news()));
    expect(await rows()).toMatchObject([{ mail: 'none', isShown: true }]);
  });

  it('who has no address is not written to', async () => {
    await post({ to: [noAddress] });
    expect(await at(database).postman.sendDue()).toEqual(['none']);
    expect(office.letters).toEqual([]);
  });

  it('each chooses by kind: page only, or not at all, but never off where it is about safety', async () => {
    const choose = (recipientId: string, of: MessageChoice['kind'], way: MessageChoice['way']) =>
      database.write((manager) =>
        manager.insert(MessageChoice, { id: newId('choice'), organisationId, recipientId, kind: of, way }),
      );
    await choose(anselm, 'roster-posted', 'page');
    await choose(anselm, 'place-wanted', 'off');
    await choose(anselm, 'turnout-called-off', 'off');
    await post();
    await post({ kind: 'place-wanted', key: 'wanted 1' });
    await post({ kind: 'turnout-called-off', key: 'off 1' });
    const shown = Object.fromEntries((await rows()).map((row) => [row.kind, [row.isShown, row.mail]]));
    expect(shown).toEqual({
      'roster-posted': [true, 'none'],
      'place-wanted': [false, 'none'],
      'turnout-called-off': [true, 'none'],
    });
  });

  it('in the quiet hours a letter is held and sent after, unless tomorrow is too late', async () => {
    clock.at = localToInstant('2027-03-13', '23:30', zone);
    await post();
    await post({ kind: 'minor-came-and-left', key: 'left 1', evenAtNight: true });
    expect((await at(database).postman.sendDue()).sort()).toEqual(['held', 'sent']);
    // The clocks go forward in that night: seven in the morning is seven in the morning.
    clock.at = localToInstant('2027-03-14', '06:59', zone);
    expect(await at(database).postman.sendDue()).toEqual([]);
    clock.at = localToInstant('2027-03-14', '07:00', zone);
    expect(await at(database).postman.sendDue()).toEqual(['sent']);
  });

  it('a yard sets its own quiet hours, or none', async () => {
    clock.at = localToInstant('2027-03-06', '23:30', zone);
    await database.write((manager) =>
      manager.insert(QuietHours, { organisationId, fromTime: '00:00', toTime: '00:00' }),
    );
    await post();
    expect(await at(database).postman.sendDue()).toEqual(['sent']);
  });

  it('a server that is too busy is asked again, later each time, and given up after a day', async () => {
    office.onRecipient = () => answer(451, 'try again later');
    await post();
    const began = clock.at;
    for (let tries = 1; tries < 8; tries++) {
      expect(await at(database).postman.sendDue()).toEqual(['again']);
      const [row] = await rows();
      expect(row.dueAt).toBe(clock.at + waitAfter(tries));
      clock.at = afterQuietTime(row.dueAt, { fromTime: '21:00', toTime: '07:00' }, zone);
    }
    expect(await at(database).postman.sendDue()).toEqual(['dead']);
    expect((clock.at - began) / 3_600_000).toBeGreaterThan(12);
    expect((await rows())[0]).toMatchObject({ mail: 'dead', tries: 8, isShown: true });
    expect((await rows())[0]?.trouble).toContain('try again later');
  });

  it('an address that the server refuses for good is given up at once, and others still get theirs', async () => {
    office.onRecipient = () => (office.letters.length === 0 ? answer(550, 'no such mailbox') : null);
    await post();
    expect(await at(database).postman.sendDue()).toEqual(['dead']);
    office.onRecipient = () => null;
    await post({ key: 'roster 2' });
    expect(await at(database).postman.sendDue()).toEqual(['sent']);
  });

  it('a server that is not there loses nothing', async () => {
    const closed: Server = createServer();
    await new Promise<void>((resolve) => closed.listen(0, '127.0.0.1', resolve));
    const { port } = closed.address() as AddressInfo;
    await new Promise((resolve) => closed.close(resolve));
    await post();
    const away = at(database, { SMTP_URL: `smtp://127.0.0.1:${port}`, MAIL_FROM: 'yard@harbor.example' });
    expect(await away.postman.sendDue()).toEqual(['again']);
    clock.at += waitAfter(1);
    expect(await at(database).postman.sendDue()).toEqual(['sent']);
  });

  it('a line that breaks before the yes is tried again under the same Message-ID', async () => {
    office.breaksOff = true;
    await post();
    expect(await at(database).postman.sendDue()).toEqual(['again']);
    office.breaksOff = false;
    clock.at += waitAfter(1);
    expect(await at(database).postman.sendDue()).toEqual(['sent']);
    const ids = office.letters.map((letter) => /Message-ID: (.+)/.exec(letter.text)?.[1]);
    expect(ids).toHaveLength(2);
    expect(new Set(ids).size).toBe(1);
  });

  it('a process that dies between the yes and its note of it leaves a letter that goes again, known as the same', async () => {
    await post();
    let writes = 0;
    const dying = new Proxy(database, {
      get: (target, name) =>
        name === 'write'
          ? (work: Parameters<Database['write']>[0]) =>
              ++writes === 2 ? Promise.reject(new Error('killed')) : target.write(work)
          : (Reflect.get(target, name) as unknown),
    });
    await expect(at(dying).postman.sendDue()).rejects.toThrow('killed');
    // Nobody else touches it while it may still be in hand.
    expect(await at(database).postman.sendDue()).toEqual([]);
    clock.at += 5 * 60_000;
    expect(await at(database).postman.sendDue()).toEqual(['sent']);
    const ids = office.letters.map((letter) => /Message-ID: (.+)/.exec(letter.text)?.[1]);
    expect(ids).toHaveLength(2);
    expect(new Set(ids).size).toBe(1);
    expect((await rows())[0]).toMatchObject({ mail: 'sent', tries: 2 });
  });

  it('of two processes that look at once, one sends each letter', async () => {
    const second = kind === 'postgres' ? await Database.open(place, schema) : database;
    if (second !== database) more.push(second);
    for (let i = 0; i < 20; i++) await post({ key: `roster ${i}` });
    const came = await Promise.all(
      [database, second, database, second].map((base) => at(base).postman.sendDue()),
    );
    expect(came.flat().filter((one) => one === 'sent')).toHaveLength(20);
    expect(office.letters).toHaveLength(20);
    expect(new Set(office.letters.map((letter) => /Message-ID: (.+)/.exec(letter.text)?.[1])).size).toBe(20);
  });

  it('two who post the same news at once write it down once', async () => {
    const both = await Promise.allSettled([post(), post(), post()]);
    expect(both.map((one) => one.status)).toEqual(['fulfilled', 'fulfilled', 'fulfilled']);
    expect(await rows()).toHaveLength(1);
  });
});
