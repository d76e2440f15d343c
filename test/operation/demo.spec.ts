import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Client } from '../harness/client.js';
import { freePort, type Program, startProgram } from '../harness/process.js';

/** Milliseconds: each part starts processes. */
const patience = 120_000;

const roles = ['director', 'coordinator', 'shipwright', 'volunteer'];

describe('the demo yard', () => {
  let dataDir: string;
  let settings: Record<string, string>;
  let url: string;
  let server: Program;

  const start = async (): Promise<Program> => {
    const program = startProgram('apps/api/dist/main.js', [], settings);
    await program.until(/each with the password/);
    return program;
  };
  const demoSignIn = async (role: string, more: Record<string, string> = {}): Promise<Program> => {
    const program = startProgram('apps/api/dist/demo-sign-in.js', [role], { ...settings, ...more });
    await program.end();
    return program;
  };

  beforeAll(async () => {
    dataDir = mkdtempSync(join(tmpdir(), 'ribband-'));
    const port = await freePort();
    settings = { DATA_DIR: dataDir, PORT: String(port), PLAN_SECONDS: '0.1' };
    url = `http://127.0.0.1:${port}`;
    server = await start();
  }, patience);
  afterAll(async () => {
    await server.stop();
    rmSync(dataDir, { recursive: true, force: true });
  }, patience);

  it(
    'is there at the first start, and the four people are told how to sign in',
    () => {
      const lines = server.said().split('\n');
      for (const role of roles) expect(lines.some((line) => line.endsWith(`, ${role}`))).toBe(true);
      expect(server.said()).toMatch(/each with the password {2}\w{5}-\w{5}-\w{5}/);
    },
    patience,
  );

  it(
    'keeps its password in a file that only this account of the machine can read',
    () => {
      expect(statSync(join(dataDir, 'demo-sign-in.json')).mode & 0o077).toBe(0);
    },
    patience,
  );

  it(
    'gives scripts a cookie for each of the four',
    async () => {
      for (const role of roles) {
        const program = await demoSignIn(role);
        const client = new Client(url);
        client.cookie = program.said().trim();
        expect(client.cookie).toMatch(/^ribband_session=[\w-]+$/);
        expect(await client.query('{ me { role organisation { isDemo } } }')).toEqual({
          me: { role: role.toUpperCase(), organisation: { isDemo: true } },
        });
      }
    },
    patience,
  );

  it(
    'gives none for other yards, unknown people or a server that is away',
    async () => {
      const elsewhere = mkdtempSync(join(tmpdir(), 'ribband-'));
      const refused = [
        [await demoSignIn('director', { DATA_DIR: elsewhere }), 'for the demo only'],
        [await demoSignIn('owner'), 'director, coordinator, shipwright, volunteer'],
        [await demoSignIn('director', { PORT: String(await freePort()) }), 'No server answers'],
      ] as const;
      rmSync(elsewhere, { recursive: true });
      for (const [program, words] of refused) {
        expect(program.child.exitCode).toBe(1);
        expect(program.said()).toBe('');
        expect(program.complained()).toContain(words);
      }
    },
    patience,
  );

  it(
    'is the same yard after a restart, also when the first start died before it had noted the people',
    async () => {
      await server.stop();
      const file = join(dataDir, 'demo-sign-in.json');
      const noted = JSON.parse(readFileSync(file, 'utf8')) as { people: { role: string; email: string }[] };
      writeFileSync(file, JSON.stringify({ ...noted, people: [] }));
      server = await start();
      const again = JSON.parse(readFileSync(file, 'utf8')) as typeof noted;
      const emails = (people: typeof noted.people): string[] =>
        people.map((one) => `${one.role} ${one.email}`).sort();
      expect(emails(again.people)).toEqual(emails(noted.people));
      expect((await demoSignIn('volunteer')).said()).toMatch(/^ribband_session=/);
    },
    patience,
  );
});
