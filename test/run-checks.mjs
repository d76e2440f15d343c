// The check command: style, types, fence between rooms, unused code, committed tables, links. Any finding fails.
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const checks = [
  ['build', 'npm', ['run', '--silent', 'build']],
  ['bench builds', 'npx', ['tsc', '-b', 'test/bench']],
  ['style (prettier)', 'npx', ['prettier', '--check', '--log-level', 'warn', '.']],
  ['types of the tests', 'npx', ['tsc', '-p', 'test/tsconfig.json']],
  ['lint', 'npx', ['eslint', '-c', 'test/config/eslint.config.js', '--max-warnings', '0', '.']],
  ['fence between rooms', 'npx', ['depcruise', '-c', 'test/config/dependency-cruiser.cjs', 'libs', 'apps']],
  ['nothing unused', 'npx', ['knip', '-c', 'test/config/knip.json']],
  ['schema and who-may table as committed', 'node', ['apps/api/dist/schema.js', '--check']],
  [
    'links in documents',
    'npx',
    ['remark', '--quiet', '--frail', '--use', 'remark-validate-links=repository:false', '.'],
  ],
];

const failed = [];
for (const [title, command, args] of checks) {
  const begun = Date.now();
  const run = spawnSync(command, args, { cwd: root, encoding: 'utf8', maxBuffer: 64 * 1024 * 1024 });
  const seconds = ((Date.now() - begun) / 1000).toFixed(1);
  console.log(`${run.status === 0 ? 'holds ' : 'FAILS '} ${title} (${seconds} s)`);
  if (run.status !== 0) {
    failed.push(title);
    console.log((run.stdout + run.stderr).trim());
  }
}
console.log(`${checks.length - failed.length} passed, ${failed.length} failed`);
process.exit(failed.length === 0 ? 0 : 1);
