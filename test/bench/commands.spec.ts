import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { def, dzn, sm } from '../engine/classical.fixture.js';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'bench-'));
const good = join(folder, 'good');

function npm(...args: string[]): { status: number | null; lines: string[]; errors: string } {
  const { status, stdout, stderr } = spawnSync('npm', ['run', '--silent', ...args], {
    cwd: root,
    encoding: 'utf8',
  });
  return { status, lines: stdout.split('\n').filter((line) => line !== ''), errors: stderr };
}

function write(name: string, text: string): string {
  writeFileSync(join(folder, name), text);
  return join(folder, name);
}

describe('the commands of the bench', () => {
  beforeAll(() => {
    spawnSync('mkdir', [good]);
    write('good/a.sm', sm);
    write('good/b.dzn', dzn);
    write('good/c.def', def);
    write('good/known.csv', 'file,bound,makespan\na.sm,9,9\nb.dzn,4,5\n');
  });
  afterAll(() => {
    rmSync(folder, { recursive: true });
  });

  it('solve answers every file that can be read, and ends with 1 because of the one that can not', () => {
    const bad = write('bad.sm', sm.replace('  3      1     4  ', '  3      1    -4  '));
    const { status, lines } = npm(
      'solve',
      '--',
      '--schedules',
      '50',
      '--seed',
      '3',
      bad,
      join(good, 'b.dzn'),
    );
    expect(status).toBe(1);
    expect(lines.map((line) => JSON.parse(line) as unknown)).toEqual([
      { file: bad, error: 'line 18: duration must be a whole number, is "-4"' },
      {
        file: join(good, 'b.dzn'),
        makespan: 5,
        starts: expect.any(Array),
        assign: expect.any(Array),
        lowerBound: expect.any(Number),
        proved: expect.any(Boolean),
        schedules: expect.any(Number),
        seconds: expect.any(Number),
      },
    ]);
  }, 240_000);

  it('research tells each set apart, and every file when asked', () => {
    const { status, lines } = npm('bench', '--', 'research', '--set', good, '--schedules', '50', '--rows');
    expect(status).toBe(0);
    const rows = lines.slice(0, 3).map((line) => JSON.parse(line) as { makespan: number; faults: string[] });
    expect(rows.map(({ makespan }) => makespan)).toEqual([9, 5, 7]);
    expect(rows.flatMap(({ faults }) => faults)).toEqual([]);
    expect(lines.slice(4).map((line) => line.split(/ +/)[0])).toEqual(['good', 'mspsp', 'imopse']);
  }, 240_000);

  it('research on two cores measures the same', () => {
    const run = (cores: string) =>
      npm('bench', '--', 'research', '--set', good, '--schedules', '50', '--rows', '--cores', cores)
        .lines.slice(0, 3)
        .map((line) => (JSON.parse(line) as { makespan: number; schedules: number }).schedules);
    expect(run('2')).toEqual(run('1'));
  }, 240_000);

  it('research ends with 1 when a plan is better than what is proved', () => {
    write('good/known.csv', 'file,bound,makespan\na.sm,20,20\n');
    const { status, errors } = npm('bench', '--', 'research', '--set', good, '--schedules', '50');
    expect(status).toBe(1);
    expect(errors).toContain('makespan 9 below the known bound');
  }, 240_000);

  it('a general solver agrees with the engine on a small project', () => {
    write('good/known.csv', 'file,bound,makespan\n');
    const { status, lines } = npm('bench', '--', 'research', '--set', good, '--beside', '5');
    expect(status).toBe(0);
    expect(JSON.parse(lines[0])).toMatchObject({
      ours: { value: 9, proved: true },
      theirs: { value: 9, proved: true },
    });
  }, 240_000);

  it('a command that is not there ends with 2', () => {
    const { status, errors } = npm('bench', '--', 'reserach');
    expect(status).toBe(2);
    expect(errors).toContain('there is no "reserach"');
  }, 240_000);
});
