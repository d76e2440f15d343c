import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Client } from '../harness/client.js';
import { freePort, startProgram } from '../harness/process.js';

/** Milliseconds: each part starts processes. */
const patience = 120_000;

describe('a yard of one\u2019s own', () => {
  let dataDir: string;
  beforeEach(() => {
    dataDir = mkdtempSync(join(tmpdir(), 'ribband-'));
  });
  afterEach(() => {
    rmSync(dataDir, { recursive: true, force: true });
  });

  it(
    'is founded by one command; its director must choose a password before anything else, and meets no demo',
    async () => {
      const settings = { DATA_DIR: dataDir, PORT: String(await freePort()) };
      const words = ['Tansy Creek Hulls', 'una.brock@example.org', 'Una Brock'];
      const founding = startProgram('apps/api/dist/found-yard.js', words, settings);
      expect(await founding.end()).toBe(0);
      const password = /password {2}(\S+)/.exec(founding.said())?.[1];
      const server = startProgram('apps/api/dist/main.js', [], settings);
      try {
        await server.until(/Ribband is at/);
        expect(server.said()).not.toContain('demo');
        const director = new Client(`http://127.0.0.1:${settings.PORT}`);
        const signedIn = await director.query(
          `mutation ($email: String!, $password: String!) {
            signIn(email: $email, password: $password) { ... on SignInPayload { me { role organisation { name isDemo } } } }
          }`,
          { email: words[1], password },
        );
        expect(signedIn).toEqual({
          signIn: { me: { role: 'DIRECTOR', organisation: { name: words[0], isDemo: false } } },
        });
        const early = await director.send('{ accounts { email } }');
        expect(early.errors[0]?.extensions?.['code']).toBe('NOT_PERMITTED');
      } finally {
        await server.stop();
      }
    },
    patience,
  );

  it(
    'is not founded without a director to sign in as, and the words that are missing are told',
    async () => {
      const founding = startProgram('apps/api/dist/found-yard.js', ['Tansy Creek Hulls'], {
        DATA_DIR: dataDir,
      });
      expect(await founding.end()).toBe(1);
      expect(founding.complained()).toContain('Say which yard and who directs it');
    },
    patience,
  );
});
