/** How a task is placed. */
export const Kind = {
  /** No length and nobody: stands where its links put it. */
  Mark: 0,
  /** Time that passes by itself. */
  Elapsed: 1,
  /** One uninterrupted segment of a set length. */
  Block: 2,
  /** One uninterrupted segment whose length the crew gives. */
  Bout: 3,
  /** A set length or a work that may stop and go on. */
  Split: 4,
  /** No length, but somebody has to be there. */
  SaySo: 5,
  Done: 6,
} as const;
