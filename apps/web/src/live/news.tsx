import { createContext, useContext, useEffect, useMemo, useRef, useState, type ReactNode } from 'react';
import { useQuery, useSubscription } from 'urql';
import { graphql } from '../gql/gql.js';
import type { ComputingNewsSubscription } from '../gql/graphql.js';
import { useSay } from './announcer.js';

const ComputingNow = graphql(`
  query ComputingNow {
    computing {
      ...Reckoning
    }
  }
`);

const ComputingNews = graphql(`
  subscription ComputingNews {
    computing {
      ...Reckoning
    }
  }
  fragment Reckoning on Computing {
    id
    state
    askedAt
    message
    progress {
      schedules
      bestReadyAt
      boundReadyAt
      fraction
    }
  }
`);

const PlanNews = graphql(`
  subscription PlanNews {
    planPublished {
      planId
      sentence
    }
  }
`);

const RosterNews = graphql(`
  subscription RosterNews {
    rosterChanged {
      __typename
    }
  }
`);

export type Reckoning = ComputingNewsSubscription['computing'];

interface News {
  reckoning: Reckoning | null;
  /** Each counts up when something of its kind has changed on the server. */
  planTurn: number;
  rosterTurn: number;
}

const NewsContext = createContext<News>({ reckoning: null, planTurn: 0, rosterTurn: 0 });

export function useReckoning(): Reckoning | null {
  return useContext(NewsContext).reckoning;
}

/** Asks again whenever the plan or the roster has changed elsewhere. */
export function useFresh(kind: 'plan' | 'roster' | 'either' | 'none', askAgain: () => void): void {
  const { planTurn, rosterTurn } = useContext(NewsContext);
  const ofPlan = kind === 'plan' || kind === 'either' ? planTurn : 0;
  const ofRoster = kind === 'roster' || kind === 'either' ? rosterTurn : 0;
  const turn = ofPlan + ofRoster;
  const seen = useRef(turn);
  useEffect(() => {
    if (seen.current === turn) return;
    seen.current = turn;
    askAgain();
  }, [turn, askAgain]);
}

/**
 * Listens for the whole page. `returned` counts how often a lost line came back: each time everything is asked
 * again, because news may have been missed. `staff` also hear of computing and plans.
 */
export function NewsProvider({
  staff,
  returned,
  children,
}: {
  staff: boolean;
  returned: number;
  children: ReactNode;
}) {
  const say = useSay();
  const [turns, setTurns] = useState({ plan: 0, roster: 0 });
  const [now, askNow] = useQuery({ query: ComputingNow, pause: !staff });
  const [computing] = useSubscription({ query: ComputingNews, pause: !staff });

  useSubscription({ query: PlanNews, pause: !staff }, (_before: unknown, news) => {
    setTurns((before) => ({ ...before, plan: before.plan + 1 }));
    say(`A new plan. ${news.planPublished.sentence}`);
    return news;
  });
  useSubscription({ query: RosterNews }, (_before: unknown, news) => {
    setTurns((before) => ({ ...before, roster: before.roster + 1 }));
    return news;
  });
  useEffect(() => {
    if (returned === 0) return;
    setTurns((before) => ({ plan: before.plan + 1, roster: before.roster + 1 }));
    askNow({ requestPolicy: 'network-only' });
  }, [returned, askNow]);

  const reckoning = newest(now.data?.computing ?? null, computing.data?.computing ?? null);
  const news = useMemo(
    () => ({ reckoning, planTurn: turns.plan, rosterTurn: turns.roster }),
    [reckoning, turns.plan, turns.roster],
  );
  return <NewsContext value={news}>{children}</NewsContext>;
}

/** The answer to a question and the latest news may cross on the way: the job asked for later wins, then the news. */
function newest(answer: Reckoning | null, heard: Reckoning | null): Reckoning | null {
  if (!answer || !heard) return heard ?? answer;
  return answer.askedAt > heard.askedAt ? answer : heard;
}
