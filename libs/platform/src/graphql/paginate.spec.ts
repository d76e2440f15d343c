import fc from 'fast-check';
import { Entity, type MigrationInterface, type QueryRunner } from 'typeorm';
import { IdColumn, IntegerColumn } from '../database/columns.js';
import { openScratchDatabase, type ScratchDatabase, scratchKinds } from '../database/scratch.js';
import { createTable, id, integer } from '../database/tables.js';
import type { ConnectionOf } from './connection.js';
import { pageOf, paginate } from './paginate.js';

@Entity('plank')
class Plank {
  @IdColumn()
  id!: string;

  @IntegerColumn()
  strake!: number;
}

class Planks1764000000001 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(runner, 'plank', [id(), integer('strake')]);
  }
  down(): Promise<void> {
    return Promise.reject(new Error('forward only'));
  }
}

const planks: Plank[] = Array.from({ length: 23 }, (_, i) => ({
  id: `plank_${String(i).padStart(2, '0')}`,
  strake: i % 4,
}));
const byStrake = [...planks].sort((a, b) => a.strake - b.strake || (a.id < b.id ? -1 : 1));

async function leafThrough(
  read: (after: string | null, first: number) => Promise<ConnectionOf<Plank>> | ConnectionOf<Plank>,
  first: number,
): Promise<string[]> {
  const seen: string[] = [];
  for (let after: string | null = null; ;) {
    const page: ConnectionOf<Plank> = await read(after, first);
    expect(page.totalCount).toBe(planks.length);
    expect(page.nodes.length).toBeLessThanOrEqual(first);
    expect(page.pageInfo.hasPreviousPage).toBe(after !== null);
    seen.push(...page.nodes.map((plank) => plank.id));
    if (!page.pageInfo.hasNextPage) return seen;
    after = page.pageInfo.endCursor;
  }
}

describe.each(scratchKinds())('pages of a list kept on %s', (kind) => {
  let scratch: ScratchDatabase;
  beforeAll(async () => {
    scratch = await openScratchDatabase({ entities: [Plank], migrations: [Planks1764000000001] }, kind);
    await scratch.database.write((manager) => manager.insert(Plank, planks));
  });
  afterAll(() => scratch.close());

  const read = (after: string | null, first: number): Promise<ConnectionOf<Plank>> =>
    paginate(scratch.database.read.createQueryBuilder(Plank, 'plank'), { first, after }, ['strake', 'id']);

  it('show every entry once, in order, whatever the size of the page', async () => {
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 1, max: 30 }), async (first) => {
        expect(await leafThrough(read, first)).toEqual(byStrake.map((plank) => plank.id));
      }),
      { numRuns: 10 },
    );
  });

  it('are refused in sizes out of bounds, and for cursors of another list', async () => {
    await expect(read(null, 0)).rejects.toMatchObject({ refusal: { code: 'BAD_INPUT', field: 'first' } });
    await expect(read(null, 201)).rejects.toMatchObject({ refusal: { code: 'BAD_INPUT', field: 'first' } });
    for (const cursor of [
      'nonsense',
      Buffer.from('["a"]').toString('base64url'),
      Buffer.from('[{},1]').toString('base64url'),
    ]) {
      await expect(read(cursor, 5)).rejects.toMatchObject({ refusal: { code: 'BAD_INPUT', field: 'after' } });
    }
  });
});

describe('pages of a list in memory', () => {
  it('show every entry once, in order', async () => {
    for (const first of [1, 4, 23, 24]) {
      const seen = await leafThrough((after, size) => pageOf(planks, { first: size, after }), first);
      expect(seen).toEqual(planks.map((plank) => plank.id));
    }
    expect(() =>
      pageOf(planks, { first: 5, after: Buffer.from('["plank_99"]').toString('base64url') }),
    ).toThrow();
  });
});
