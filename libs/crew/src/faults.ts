import { refuse, type RefusalCode } from '@ribband/platform';

/** Something in what was handed in that can't stand: which reason, where it is, and what would be right. */
export interface Fault {
  code: RefusalCode;
  /** Path of the input field, such as `rules[1].rule`. */
  path: string;
  message: string;
  wouldBeRight: string;
}

/** Refuses with the first fault and counts the others. Does nothing when there is none. */
export function refuseFaults(faults: readonly Fault[]): void {
  const first = faults.at(0);
  if (!first) return;
  refuse(first.code, `${first.message}.`, {
    field: first.path,
    remedy: `What would be right: ${first.wouldBeRight}.`,
    facts: faults.slice(1, 50).map((fault) => ({ name: fault.path, value: fault.message })),
  });
}
