import type { HullOutline } from '@ribband/hull';
import { refuse } from '@ribband/platform';
import { outlineShape } from './outline-shape.js';

/** An outline of the right shape. @throws RefusalError BAD_INPUT naming the first field that has another */
export function readOutline(value: unknown, prefix: string): HullOutline {
  const read = outlineShape.safeParse(value);
  if (read.success) return read.data;
  // A failed reading has at least one fault.
  const issue = read.error.issues[0]!;
  const path = issue.path.reduce<string>(
    (all, part) => (typeof part === 'number' ? `${all}[${part}]` : `${all}.${String(part)}`),
    prefix,
  );
  return refuse('BAD_INPUT', `The outline has no right value at ${path}: ${issue.message}.`, {
    field: path,
    remedy: 'Sizes in millimetres, heights in strakes from the rabbet, counts in whole numbers.',
  });
}
