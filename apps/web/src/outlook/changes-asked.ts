import type { SupposedInput } from '../gql/graphql.js';

/** A change that is reckoned with others, with its words. */
export interface Listed {
  change: SupposedInput;
  words: string;
}

/**
 * What a question holds: the changes that are listed, and the one in the form unless it was put on the list as it
 * stands, be it there still or left out since. Without a list it is the one in the form.
 * @param added what was last put on the list; null where nothing was
 */
export function changesAsked(listed: readonly Listed[], filledIn: Listed, added: Listed | null): Listed[] {
  const isNew = JSON.stringify(filledIn.change) !== JSON.stringify(added?.change);
  return listed.length === 0 || isNew ? [...listed, filledIn] : [...listed];
}
