// The test command: builds, finds or starts what the parts need, runs Jest, and says what ran and what was skipped.
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, chmodSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const requireAll = process.env.REQUIRE_ALL === '1';
const folder = mkdtempSync(join(tmpdir(), 'ribband-test-'));
chmodSync(folder, 0o755);
const undo = [() => rmSync(folder, { recursive: true, force: true })];
const parts = [];

function run(command, args, options = {}) {
  return spawnSync(command, args, { cwd: root, stdio: 'inherit', ...options }).status ?? 1;
}

function freePort() {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.on('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const { port } = server.address();
      server.close(() => resolve(port));
    });
  });
}

function onPath(name) {
  return (process.env.PATH ?? '')
    .split(':')
    .concat('/usr/sbin', '/usr/local/bin')
    .map((dir) => join(dir, name))
    .find((path) => existsSync(path));
}

async function until(check, seconds) {
  for (let tenth = 0; tenth < seconds * 10; tenth += 1) {
    if (check()) return true;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  return false;
}

async function startRedis() {
  if (process.env.TEST_REDIS_URL) return { url: process.env.TEST_REDIS_URL, how: 'given by TEST_REDIS_URL' };
  const program = onPath('redis-server');
  if (!program) return { why: 'no redis-server on this machine' };
  const port = await freePort();
  const server = spawn(
    program,
    ['--port', String(port), '--bind', '127.0.0.1', '--save', '', '--dir', folder],
    {
      stdio: 'ignore',
    },
  );
  undo.unshift(() => server.kill());
  const cli = onPath('redis-cli');
  const up = await until(() => spawnSync(cli ?? 'redis-cli', ['-p', String(port), 'ping']).status === 0, 10);
  if (!up) return { why: `${program} did not answer within 10 s` };
  return { url: `redis://127.0.0.1:${port}`, how: `started ${program}` };
}

/** PostgreSQL refuses to run as root; there its Debian user `postgres` runs it. */
function asDatabaseUser(command, args) {
  const isRoot = process.getuid?.() === 0;
  return isRoot
    ? spawnSync('runuser', ['-u', 'postgres', '--', command, ...args], { cwd: folder })
    : spawnSync(command, args, { cwd: folder });
}

async function startPostgres() {
  if (process.env.TEST_DATABASE_URL)
    return { url: process.env.TEST_DATABASE_URL, how: 'given by TEST_DATABASE_URL' };
  const debian = '/usr/lib/postgresql';
  const versions = existsSync(debian) ? readdirSync(debian).sort((a, b) => Number(b) - Number(a)) : [];
  const bin = versions.map((v) => join(debian, v, 'bin')).find((dir) => existsSync(join(dir, 'initdb')));
  const initdb = bin ? join(bin, 'initdb') : onPath('initdb');
  const control = bin ? join(bin, 'pg_ctl') : onPath('pg_ctl');
  if (!initdb || !control) return { why: 'no PostgreSQL server (initdb, pg_ctl) on this machine' };
  const cluster = join(folder, 'postgres');
  spawnSync('install', ['-d', ...(process.getuid?.() === 0 ? ['-o', 'postgres'] : []), cluster]);
  const made = asDatabaseUser(initdb, [
    '-D',
    cluster,
    '-U',
    'ribband',
    '--auth=trust',
    '--no-sync',
    '-E',
    'UTF8',
  ]);
  if (made.status !== 0) return { why: `initdb failed: ${String(made.stderr ?? made.error).trim()}` };
  const port = await freePort();
  const settings = `-p ${port} -h 127.0.0.1 -k ${cluster} -c fsync=off -c max_connections=200`;
  const begun = asDatabaseUser(control, [
    '-D',
    cluster,
    '-o',
    settings,
    '-l',
    join(cluster, 'log'),
    '-w',
    'start',
  ]);
  if (begun.status !== 0) return { why: `pg_ctl start failed: ${String(begun.stderr).trim()}` };
  undo.unshift(() => asDatabaseUser(control, ['-D', cluster, '-m', 'immediate', 'stop']));
  return { url: `postgres://ribband@127.0.0.1:${port}/postgres`, how: `started ${control}` };
}

function findChromium() {
  const given = process.env.TEST_CHROMIUM;
  if (given) return { url: given, how: 'given by TEST_CHROMIUM' };
  const program = ['chromium', 'chromium-browser', 'google-chrome'].map(onPath).find(Boolean);
  return program ? { url: program, how: `found ${program}` } : { why: 'no Chromium on this machine' };
}

async function main() {
  if (run('npm', ['run', '--silent', 'build']) !== 0) return 1;
  const env = { ...process.env };
  for (const [name, variable, found] of [
    ['PostgreSQL', 'TEST_DATABASE_URL', await startPostgres()],
    ['Redis', 'TEST_REDIS_URL', await startRedis()],
    ['Chromium', 'TEST_CHROMIUM', findChromium()],
  ]) {
    if (found.url) env[variable] = found.url;
    parts.push({ name, ran: Boolean(found.url), note: found.how ?? found.why });
  }
  // The tests' own defaults must hold whatever the caller's shell exports.
  for (const name of ['DATABASE_URL', 'REDIS_URL', 'DATA_DIR', 'PORT', 'HOST']) delete env[name];
  // As it is run: else GraphQL checks each value it writes for a second copy of itself, a quarter of the work.
  env.NODE_ENV = 'production';
  env.NODE_OPTIONS =
    `${env.NODE_OPTIONS ?? ''} --experimental-vm-modules --disable-warning=ExperimentalWarning`.trim();

  const results = join(folder, 'results.json');
  const jest = ['node_modules/jest/bin/jest.js', '-c', 'test/config/jest.config.js'];
  const status = run(
    process.execPath,
    [...jest, '--json', '--outputFile', results, ...process.argv.slice(2)],
    { env },
  );
  const skippedParts = parts.filter((part) => !part.ran);

  console.log('\nParts of this run:');
  console.log('  ran      SQLite, engine, API in process');
  for (const part of parts) console.log(`  ${part.ran ? 'ran    ' : 'skipped'}  ${part.name}: ${part.note}`);
  if (!existsSync(results)) return status || 1;
  const {
    numPassedTests: passed,
    numFailedTests: failed,
    numPendingTests: skipped,
  } = JSON.parse(readFileSync(results, 'utf8'));
  const refused = requireAll && (skippedParts.length > 0 || skipped > 0);
  if (refused) console.log('REQUIRE_ALL=1: a skipped part or test counts as a failure.');
  console.log(`${passed} passed, ${failed} failed, ${skipped} skipped`);
  return refused ? 1 : status;
}

try {
  process.exitCode = await main();
} finally {
  for (const step of undo) step();
}
