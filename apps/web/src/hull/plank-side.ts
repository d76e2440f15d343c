import type { PlankingQuery, ProposedLayoutQuery } from '../gql/graphql.js';

/** One side as it is closed up, and a layout of butts for it with what the rules say. */
export type PlankSide = NonNullable<PlankingQuery['starboard']>;
export type Proposal = ProposedLayoutQuery['proposedLayout'];
