import { readFileSync } from 'node:fs';
import { RefusalError, scratchKinds } from '@ribband/platform';
import { Task } from '@ribband/repair';
import { TestHouse } from '../planning.fixture.js';
import { smallYard } from './small-yard.fixture.js';
import { YardBook } from './yard-book.service.js';
import type { YardDocument } from './yard-document.js';

describe.each(scratchKinds())('a whole yard on %s', (kind) => {
  let house: TestHouse;
  let book: YardBook;
  beforeEach(async () => {
    house = await TestHouse.open(kind, 'ask');
    book = house.app.get(YardBook);
  });
  afterEach(() => house.close());

  const put = (document: unknown, replace = false) =>
    book.import(house.caller('coordinator'), document, replace);
  const take = () => book.export(house.caller('coordinator'));

  it('comes out equal to what went in', async () => {
    await put(smallYard());
    expect(await take()).toEqual(smallYard());
  });

  it('comes out equal also when it is the demo yard', async () => {
    const file = new URL('../../../../fixtures/demo-yard.json', import.meta.url);
    const demo = JSON.parse(readFileSync(file, 'utf8')) as YardDocument;
    await put(demo);
    // What is believed of how people come goes in and never out.
    for (const volunteer of demo.volunteers) delete volunteer.showUpChance;
    expect(await take()).toEqual(demo);
  });

  it('goes in whole or not at all', async () => {
    const faulty = smallYard();
    faulty.tasks[1].seats[0].skill = 'sawing';
    faulty.links.push({ ...faulty.links[0], before: 'launch', after: 'pull-nails' });
    expect(await put(faulty)).toEqual([
      expect.objectContaining({ path: 'tasks[1].seats[0].skill' }),
      expect.objectContaining({ path: 'links[6]', message: expect.stringContaining('closes a circle') }),
    ]);
    expect(await house.database.read.count(Task)).toBe(0);
  });

  it('takes the place of another only when that is asked for', async () => {
    await put(smallYard());
    const refusal = await put(smallYard()).catch((error: unknown) => error);
    expect(refusal instanceof RefusalError && refusal.refusal.code).toBe('YARD_NOT_EMPTY');
    const other = smallYard();
    other.tasks = other.tasks.filter((task) => task.ref !== 'bungs-set');
    other.links = other.links.filter((link) => ![link.before, link.after].includes('bungs-set'));
    await put(other, true);
    expect(await take()).toEqual(other);
  });

  it('is read in by those who run the yard and by nobody else', async () => {
    const refusal = await book
      .import(house.caller('volunteer'), smallYard(), false)
      .catch((error: unknown) => error);
    expect(refusal instanceof RefusalError && refusal.refusal.code).toBe('NOT_PERMITTED');
  });
});
