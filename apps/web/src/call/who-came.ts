import { useCallback, useEffect, useState } from 'react';
import { keep, kept } from '../live/chest.js';
import type { CameBy } from '../gql/graphql.js';

/** Who is here, as far as it was ticked, read or entered on this phone. */
export interface WhoCame {
  present: Record<string, CameBy>;
  /** Of those who are not here, who sent word. */
  saidSo: string[];
  visitors: string[];
}

export const nobodyYet: WhoCame = { present: {}, saidSo: [], visitors: [] };

/** Kept on the phone as it is ticked: a page that is closed in a pocket forgets nothing. */
export function useWhoCame(
  turnoutId: string,
  before: WhoCame | null,
): [WhoCame, (change: (came: WhoCame) => WhoCame) => void] {
  const [came, setCame] = useState<WhoCame | null>(null);
  const key = `who came ${turnoutId}`;
  useEffect(() => {
    let here = true;
    void kept('answers', key).then((value) => {
      if (here && value !== undefined) setCame((known) => known ?? (value as WhoCame));
    });
    return () => {
      here = false;
    };
  }, [key]);
  const now = came ?? before ?? nobodyYet;
  const change = useCallback(
    (alter: (known: WhoCame) => WhoCame) => {
      setCame((known) => {
        const next = alter(known ?? before ?? nobodyYet);
        void keep('answers', key, next);
        return next;
      });
    },
    [key, before],
  );
  return [now, change];
}

export function tick(came: WhoCame, id: string, how: CameBy | null): WhoCame {
  const { [id]: _gone, ...others } = came.present;
  return { ...came, present: how === null ? others : { ...others, [id]: came.present[id] ?? how } };
}
