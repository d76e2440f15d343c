import { createContext, useContext } from 'react';
import type { HaulOutQuery, YardQuery } from '../gql/graphql.js';

export type Me = NonNullable<YardQuery['me']>;
export type HaulOut = NonNullable<HaulOutQuery['haulOut']>;

/** Who looks at the page and which yard it is; the haul-out is null before a yard was brought in. */
export interface Yard {
  me: Me;
  haulOut: HaulOut | null;
  /** The yard's zone; UTC before there is a haul-out. */
  timeZone: string;
  /** The yard's day; the demo yard's clock stands. */
  today: string;
}

export const YardContext = createContext<Yard | null>(null);

export function useYard(): Yard {
  const yard = useContext(YardContext);
  if (!yard) throw new Error('useYard is for pages inside a signed-in yard');
  return yard;
}
