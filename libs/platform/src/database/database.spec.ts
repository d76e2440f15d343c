import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { Entity, type MigrationInterface, type QueryRunner } from 'typeorm';
import { IdColumn, IntegerColumn } from './columns.js';
import { Database } from './database.js';
import { DatabaseInUseError } from './process-lock.js';
import { openScratchDatabase, type ScratchDatabase, scratchKinds, scratchPlace } from './scratch.js';
import { createTable, id, integer } from './tables.js';

@Entity('tray')
class Tray {
  @IdColumn()
  id!: string;

  @IntegerColumn()
  count!: number;
}

class Trays1764000000001 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(runner, 'tray', [id(), integer('count')]);
  }
  down(): Promise<void> {
    return Promise.reject(new Error('forward only'));
  }
}

const schema = { entities: [Tray], migrations: [Trays1764000000001] };
const crowd = Array.from({ length: 50 }, (_, index) => index);

describe.each(scratchKinds())('the records on %s', (kind) => {
  let scratch: ScratchDatabase;
  let database: Database;

  beforeEach(async () => {
    scratch = await openScratchDatabase(schema, kind);
    database = scratch.database;
  });
  afterEach(() => scratch.close());

  const countOf = async (tray: string): Promise<number | null> =>
    (await database.read.findOneBy(Tray, { id: tray }))?.count ?? null;

  it('keep all of fifty changes that people make at the same moment', async () => {
    await database.write((manager) => manager.insert(Tray, { id: 'bolts', count: 0 }));
    const outcomes = await Promise.allSettled(
      crowd.map((index) =>
        database.write(async (manager) => {
          const tray = await manager.findOneByOrFail(Tray, { id: 'bolts' });
          await manager.update(Tray, { id: 'bolts' }, { count: tray.count + 1 });
          await manager.insert(Tray, { id: `tray-${index}`, count: index });
        }),
      ),
    );
    expect(outcomes.filter((outcome) => outcome.status === 'rejected')).toEqual([]);
    expect(await countOf('bolts')).toBe(50);
    expect(await database.read.count(Tray)).toBe(51);
  });

  it('let a crowd of one turn in one by one, so that nobody is tried again', async () => {
    await database.write((manager) => manager.insert(Tray, { id: 'bolts', count: 0 }));
    let tries = 0;
    await Promise.all(
      crowd.map(() =>
        database.write(async (manager) => {
          tries += 1;
          const tray = await manager.findOneByOrFail(Tray, { id: 'bolts' });
          await manager.update(Tray, { id: 'bolts' }, { count: tray.count + 1 });
        }, 'bolts'),
      ),
    );
    expect(await countOf('bolts')).toBe(50);
    expect(tries).toBe(50);
    const refused = database.write(() => Promise.reject(new Error('refused')), 'bolts');
    await expect(refused).rejects.toThrow('refused');
    await database.write((manager) => manager.update(Tray, { id: 'bolts' }, { count: 1 }), 'bolts');
    expect(await countOf('bolts')).toBe(1);
  });

  it("never lose one person's change because another's was refused", async () => {
    const outcomes = await Promise.allSettled(
      crowd.map((index) =>
        database.write(async (manager) => {
          await manager.insert(Tray, { id: `tray-${index}`, count: index });
          await pause(index % 3);
          if (index % 2 === 1) throw new Error('refused');
        }),
      ),
    );
    expect(outcomes.map((outcome) => outcome.status)).toEqual(
      crowd.map((index) => (index % 2 === 1 ? 'rejected' : 'fulfilled')),
    );
    const kept = await database.read.find(Tray, { order: { count: 'ASC' } });
    expect(kept.map((tray) => tray.count)).toEqual(crowd.filter((index) => index % 2 === 0));
  });

  it("keep a single insert that comes while somebody else's change is being undone", async () => {
    let mayFail = (): void => undefined;
    const mayEnd = new Promise<void>((resolve) => (mayFail = resolve));
    const undone = database.write(async (manager) => {
      await manager.insert(Tray, { id: 'undone', count: 1 });
      await mayEnd;
      throw new Error('undone');
    });
    const single = database.write((manager) => manager.insert(Tray, { id: 'single', count: 1 }));
    await pause(30);
    mayFail();
    await expect(undone).rejects.toThrow('undone');
    await single;
    expect(await countOf('single')).toBe(1);
    expect(await countOf('undone')).toBeNull();
  });

  it('show nobody a row before it is settled', async () => {
    const seen: (number | null)[] = [];
    await database.write((manager) => manager.insert(Tray, { id: 'bolts', count: 1 }));
    let isUnderWay = (): void => undefined;
    let mayEnd = (): void => undefined;
    const underWay = new Promise<void>((resolve) => (isUnderWay = resolve));
    const change = database.write(async (manager) => {
      await manager.update(Tray, { id: 'bolts' }, { count: 2 });
      isUnderWay();
      await new Promise<void>((resolve) => (mayEnd = resolve));
    });
    await underWay;
    seen.push(await countOf('bolts'));
    mayEnd();
    await change;
    seen.push(await countOf('bolts'));
    expect(seen).toEqual([1, 2]);
  });

  it('show one state through the whole of a snapshot', async () => {
    await database.write((manager) => manager.insert(Tray, { id: 'bolts', count: 1 }));
    const counts = await database.snapshot(async (manager) => {
      const before = await manager.findOneByOrFail(Tray, { id: 'bolts' });
      await database.write((writer) => writer.update(Tray, { id: 'bolts' }, { count: 2 }));
      const after = await manager.findOneByOrFail(Tray, { id: 'bolts' });
      return [before.count, after.count];
    });
    expect(counts).toEqual([1, 1]);
    expect(await countOf('bolts')).toBe(2);
  });

  it('cannot be changed by a reader', async () => {
    await expect(database.read.insert(Tray, { id: 'sly', count: 1 })).rejects.toThrow(/read.?only/i);
    await expect(database.snapshot((m) => m.insert(Tray, { id: 'sly', count: 1 }))).rejects.toThrow(
      /read.?only/i,
    );
    expect(await database.read.count(Tray)).toBe(0);
  });

  it('refuse a write inside a write and a stale read inside one', async () => {
    await expect(database.write(() => database.write(() => Promise.resolve()))).rejects.toThrow(
      'A write inside a write',
    );
    await expect(database.write(() => database.read.count(Tray))).rejects.toThrow(
      'read through its own manager',
    );
  });

  it('tell the news of a change only when it is settled', async () => {
    const told: string[] = [];
    await database.write((manager) => {
      Database.afterCommit(manager, () => told.push('settled'));
      expect(told).toEqual([]);
      return Promise.resolve();
    });
    const refused = database.write((manager) => {
      Database.afterCommit(manager, () => told.push('refused'));
      return Promise.reject(new Error('no'));
    });
    await expect(refused).rejects.toThrow('no');
    expect(told).toEqual(['settled']);
  });

  it('undo the whole of a change when one of its parts fails while others are under way', async () => {
    const change = database.write(async (manager) => {
      await Promise.all([
        manager.insert(Tray, { id: 'a', count: 1 }),
        Promise.reject(new Error('a part fails')),
        manager.insert(Tray, { id: 'b', count: 1 }),
        pause(5).then(() => manager.insert(Tray, { id: 'late', count: 1 })),
      ]);
    });
    await expect(change).rejects.toThrow('a part fails');
    await database.write((manager) => manager.insert(Tray, { id: 'next', count: 1 }));
    await pause(20);
    expect((await database.read.find(Tray)).map((tray) => tray.id)).toEqual(['next']);
  });

  it('let nobody write with the manager of a change that is over', async () => {
    const kept = await database.write((manager) => Promise.resolve({ manager }));
    await expect(kept.manager.insert(Tray, { id: 'late', count: 1 })).rejects.toThrow();
    expect(await database.read.count(Tray)).toBe(0);
  });
});

describe('a yard in a SQLite file', () => {
  it('writes through to the disk, wipes what is deleted, and keeps references whole', async () => {
    const scratch = await openScratchDatabase(schema);
    const pragma = async (name: string): Promise<unknown> => {
      const rows: Record<string, unknown>[] = await scratch.database.write((m) => m.query(`PRAGMA ${name}`));
      return Object.values(rows[0] ?? {})[0];
    };
    expect(await pragma('journal_mode')).toBe('wal');
    expect(await pragma('synchronous')).toBe(2); // FULL
    expect(await pragma('secure_delete')).toBe(1);
    expect(await pragma('foreign_keys')).toBe(1);
    expect(await pragma('busy_timeout')).toBe(5000);
    await scratch.close();
  });

  it('is served by one process: a second one is told who holds it', async () => {
    const place = await scratchPlace('sqlite');
    const database = await Database.open(place, schema);
    await expect(Database.open(place, schema)).rejects.toThrow(DatabaseInUseError);
    await expect(Database.open(place, schema)).rejects.toThrow(`process ${process.pid}`);
    await database.close();
    const again = await Database.open(place, schema);
    await again.close();
    await place.remove();
  });

  it('can be opened again at once after its process was killed', async () => {
    const place = await scratchPlace('sqlite');
    const path = join(place.dataDir, 'ribband.sqlite');
    // Takes the lock in the way of process-lock.ts, in a process of its own.
    const holder = execFile(process.execPath, [
      '-e',
      `const s = require('sqlite3'); const d = new s.Database(${JSON.stringify(`${path}.lock`)}); d.serialize(() => {
         d.run('CREATE TABLE holder (pid INTEGER, since TEXT)');
         d.run("INSERT INTO holder VALUES (" + process.pid + ", 'now')");
         d.run('BEGIN IMMEDIATE', () => console.log('held'));
       }); setInterval(() => {}, 1000);`,
    ]);
    await new Promise((resolve) => holder.stdout?.once('data', resolve));
    await expect(Database.open(place, schema)).rejects.toThrow(`process ${holder.pid}`);
    const gone = new Promise((resolve) => holder.once('exit', resolve));
    holder.kill('SIGKILL');
    await gone;
    const database = await Database.open(place, schema);
    await database.close();
    await place.remove();
  });
});
