import type { z } from 'zod';

/** The first fault of a value that has not the form asked for: its path, under a prefix, and what is wrong there. */
export function firstFault(error: z.ZodError, prefix: string): { path: string; message: string } {
  // A failed reading has at least one fault.
  const issue = error.issues[0]!;
  const path = issue.path.reduce<string>(
    (all, part) => (typeof part === 'number' ? `${all}[${part}]` : `${all}.${String(part)}`),
    prefix,
  );
  return { path, message: issue.message };
}
