import { makeFiles, outdatedFiles, writeFiles } from './committed.js';

/*
 * Writes apps/api/schema.graphql and apps/api/who-may.md from the server; with --check it compares them instead.
 */

const made = await makeFiles();
if (process.argv[2] !== '--check') {
  writeFiles(made);
} else {
  const outdated = outdatedFiles(made);
  for (const name of outdated) {
    console.error(
      `apps/api/${name} is not what the server has now: run "npm run schema" and look at the change.`,
    );
  }
  if (outdated.length > 0) process.exitCode = 1;
}
