import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';

/** A small house under the real rules, so that a planted violation never touches the real one. */
function cruise(files: Record<string, string>): { status: number | null; text: string } {
  const house = mkdtempSync(join(tmpdir(), 'ribband-fence-'));
  try {
    for (const name of ['dependency-cruiser.cjs', 'tsconfig.cruise.json', 'tsconfig.base.json']) {
      cpSync(resolve('test/config', name), join(house, 'test/config', name));
    }
    cpSync(resolve('package.json'), join(house, 'package.json'));
    symlinkSync(resolve('node_modules'), join(house, 'node_modules'));
    for (const room of ['engine', 'hull', 'platform', 'access', 'crew', 'repair', 'roster', 'planning']) {
      files[`libs/${room}/src/index.ts`] ??= `export const ${room} = 1;\n`;
    }
    for (const [path, text] of Object.entries(files)) {
      mkdirSync(dirname(join(house, path)), { recursive: true });
      writeFileSync(join(house, path), text);
    }
    const run = spawnSync(
      process.execPath,
      [
        resolve('node_modules/dependency-cruiser/bin/dependency-cruise.mjs'),
        '-c',
        'test/config/dependency-cruiser.cjs',
        'libs',
      ],
      { cwd: house, encoding: 'utf8', env: { ...process.env, NODE_OPTIONS: '' } },
    );
    return { status: run.status, text: run.stdout + run.stderr };
  } finally {
    rmSync(house, { recursive: true, force: true });
  }
}

describe('the fence between rooms', () => {
  it('lets a clean house pass', () => {
    const { status, text } = cruise({
      'libs/roster/src/place.ts': "import { crew } from '@ribband/crew';\nexport const place = crew;\n",
    });
    expect(text).toContain('no dependency violations');
    expect(status).toBe(0);
  });

  it.each([
    [
      'a pure room that takes a framework',
      'pure-rooms',
      { 'libs/engine/src/x.ts': "import '@nestjs/common';\n" },
    ],
    ['a pure room that takes a Node module', 'pure-rooms', { 'libs/hull/src/x.ts': "import 'node:fs';\n" }],
    ['an import upward', 'down-only-crew', { 'libs/crew/src/x.ts': "import '@ribband/planning';\n" }],
    [
      'a way in that is not the index',
      'enter-by-the-index',
      {
        'libs/roster/src/x.ts': "import '../../crew/src/inside.js';\n",
        'libs/crew/src/inside.ts': 'export {};\n',
      },
    ],
    ["a room's own index used inside it", 'no-own-index', { 'libs/crew/src/x.ts': "import './index.js';\n" }],
    [
      'a circle',
      'no-circles',
      { 'libs/crew/src/a.ts': "import './b.js';\n", 'libs/crew/src/b.ts': "import './a.js';\n" },
    ],
  ])('stops %s', (_what, rule, files) => {
    const { status, text } = cruise({ ...files });
    expect(text).toContain(rule);
    expect(status).not.toBe(0);
  });
});
