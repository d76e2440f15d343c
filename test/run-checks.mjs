// The check command: style, types, fence between rooms, unused code, committed tables, links. Any finding fails.
import { spawn } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const checks = [
  ['build', 'npm', ['run', '--silent', 'build']],
  ['lint', 'npx', ['eslint', '-c', 'test/config/eslint.config.js', '--max-warnings', '0', '.']],
  ['bench builds', 'npx', ['tsc', '-b', 'test/bench']],
  ['style (prettier)', 'npx', ['prettier', '--check', '--log-level', 'warn', '.']],
  ['types of the tests', 'npx', ['tsc', '-p', 'test/tsconfig.json']],
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

function check([title, command, args]) {
  const begun = Date.now();
  const child = spawn(command, args, { cwd: root, stdio: ['ignore', 'pipe', 'pipe'] });
  let said = '';
  for (const pipe of [child.stdout, child.stderr])
    pipe.setEncoding('utf8').on('data', (text) => (said += text));
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code) => {
      const seconds = ((Date.now() - begun) / 1000).toFixed(1);
      console.log(`${code === 0 ? 'holds ' : 'FAILS '} ${title} (${seconds} s)`);
      if (code !== 0) {
        failed.push(title);
        console.log(said.trim());
      }
      resolve();
    });
  });
}

// The others read what the build makes. They go side by side, the longest first.
const [build, ...others] = checks;
await check(build);
const waiting = [...others];
const takeOneAfterTheOther = async () => {
  for (let next = waiting.shift(); next; next = waiting.shift()) await check(next);
};
await Promise.all(Array.from({ length: Math.min(2, availableParallelism()) }, takeOneAfterTheOther));

console.log(`${checks.length - failed.length} passed, ${failed.length} failed`);
process.exit(failed.length === 0 ? 0 : 1);
