/** What a crew got done in one turnout. */
export interface Tally {
  /** Pieces. */
  count: number;
  /** Person-hours, above 0. */
  hours: number;
}
