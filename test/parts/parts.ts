/**
 * Parts of the test run that need something which a machine may lack. `npm test` finds or starts the services and
 * says through the environment what is there; a spec asks here, so that a skip is the same everywhere.
 */
export type Part = 'PostgreSQL' | 'Redis' | 'Chromium';

const variable: Record<Part, string> = {
  PostgreSQL: 'TEST_DATABASE_URL',
  Redis: 'TEST_REDIS_URL',
  Chromium: 'TEST_CHROMIUM',
};

/** Address of the service, or path of the browser; undefined when the machine has none. */
export function partAt(part: Part): string | undefined {
  return process.env[variable[part]] || undefined;
}

/** A `describe` that runs when every named part is there and is shown as skipped otherwise. */
export function describeWith(parts: Part[], title: string, body: () => void): void {
  const missing = parts.filter((part) => !partAt(part));
  if (missing.length === 0) describe(title, body);
  else describe.skip(`${title} (needs ${missing.join(' and ')})`, body);
}
