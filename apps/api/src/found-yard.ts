import { Accounts, oneTimePassword, Organisations, Passwords } from '@ribband/access';
import { Config, ConfigError, Database, DatabaseInUseError, RefusalError } from '@ribband/platform';
import { buildServer } from './server.js';

/*
 * Founds a yard of one's own, with a director who signs in, chooses a password, and reads the yard's file in:
 *
 *   npm run found-yard -- "Name of the yard" director@example.org "Name of the director"
 */

/** @throws with words for whoever called it */
async function found([yard, email, name]: (string | undefined)[]): Promise<string> {
  if (!yard?.trim() || !email?.includes('@') || !name?.trim()) {
    throw new Error(
      'Say which yard and who directs it: npm run found-yard -- "Name of the yard" director@example.org "Name of the director"',
    );
  }
  const server = await buildServer(Config.read(process.env), 'ask');
  try {
    const organisations = server.app.get(Organisations);
    const password = oneTimePassword();
    const passwordHash = await server.app.get(Passwords).hash(password);
    await server.app.get(Database).write(async (manager) => {
      const wanted = { name: yard.trim(), units: 'imperial', crewOddsWish: 0.85, isDemo: false } as const;
      const { id } = await organisations.found(manager, wanted);
      const director = { email, name: name.trim(), role: 'director', volunteerId: null } as const;
      await server.app.get(Accounts).openWith(manager, id, director, passwordHash, true);
    });
    return password;
  } finally {
    await server.close();
  }
}

try {
  const password = await found(process.argv.slice(2));
  console.log(`The yard is founded. Sign in once with the password  ${password}  and choose your own.`);
} catch (error) {
  if (error instanceof DatabaseInUseError) console.error(`${error.message} Stop the server first.`);
  else if (error instanceof RefusalError) console.error(error.refusal.message);
  else if (error instanceof ConfigError || error instanceof Error) console.error(error.message);
  else console.error(error);
  process.exitCode = 1;
}
