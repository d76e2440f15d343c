import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { roles } from '@ribband/access';
import type { Config } from '@ribband/platform';
import { z } from 'zod';

const person = z.object({ role: z.enum(roles), name: z.string(), email: z.string() });

const demoPeople = z.object({ password: z.string(), people: z.array(person) });

/** Who can sign in at the demo yard of this data folder. */
export type DemoPeople = z.infer<typeof demoPeople>;

function fileIn(config: Config): string {
  return join(config.dataDir, 'demo-sign-in.json');
}

/** What was noted when the demo yard was set up; null when this data folder has none. */
export function readDemoPeople(config: Config): DemoPeople | null {
  const file = fileIn(config);
  return existsSync(file) ? demoPeople.parse(JSON.parse(readFileSync(file, 'utf8'))) : null;
}

/** Notes them, for this account of the machine only. @returns the same */
export function noteDemoPeople(config: Config, people: DemoPeople): DemoPeople {
  mkdirSync(config.dataDir, { recursive: true, mode: 0o700 });
  const file = fileIn(config);
  // Renaming is all or nothing; a new file has the mode that it is given.
  writeFileSync(`${file}.new`, `${JSON.stringify(people, null, 2)}\n`, { mode: 0o600 });
  renameSync(`${file}.new`, file);
  return people;
}
