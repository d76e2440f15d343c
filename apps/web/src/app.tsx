import { useCallback, useEffect, useMemo, useState } from 'react';
import { Provider } from 'urql';
import { FirstPassword } from './entry/change-password.js';
import { SignIn } from './entry/sign-in.js';
import { graphql } from './gql/gql.js';
import { AnnouncerProvider } from './live/announcer.js';
import { useAsk } from './live/ask.js';
import { ownChest } from './live/chest.js';
import { openLine } from './live/client.js';
import { NewsProvider, useFresh } from './live/news.js';
import { KeptDeedsProvider } from './live/kept-deeds.js';
import { useLinks } from './live/route.js';
import { YardContext, type Yard } from './live/yard.js';
import { Asked } from './parts/asked.js';
import { Frame } from './frame.js';
import { Pages } from './pages.js';
import { dayOf } from './words/dates.js';

const YardQuestion = graphql(`
  query Yard {
    me {
      mustChangePassword
      account {
        id
        name
        email
      }
      role
      organisation {
        id
        name
        isDemo
        units
        yardNow
      }
      volunteer {
        id
        name
      }
    }
    safetyNotice
  }
`);

const HaulOutQuestion = graphql(`
  query HaulOut {
    haulOut {
      id
      hauledOutOn
      timeZone
      vessel {
        id
        name
        rig
        builtYear
      }
      gate {
        ...Slot
      }
      fallback {
        ...Slot
      }
    }
  }
  fragment Slot on LiftSlot {
    id
    kind
    on
    startTime
    endTime
    confirmBy
    extraCostCents
    note
    word {
      word
      givenOn
      givenBy
    }
  }
`);

export function App() {
  useLinks();
  // A new line for each session: nothing that one person saw is kept for the next.
  const [session, setSession] = useState(0);
  const [returned, setReturned] = useState(0);
  const changeSession = useCallback(() => {
    setSession((number) => number + 1);
  }, []);
  const line = useMemo(
    () =>
      openLine({
        returned: () => {
          setReturned((times) => times + 1);
        },
        sessionEnded: changeSession,
      }),
    [session, changeSession],
  );
  useEffect(() => line.close, [line]);
  return (
    <AnnouncerProvider>
      <Provider value={line.client}>
        <Door key={session} returned={returned} changeSession={changeSession} />
      </Provider>
    </AnnouncerProvider>
  );
}

function Door({ returned, changeSession }: { returned: number; changeSession: () => void }) {
  const [answer, again] = useAsk(YardQuestion, {});
  return (
    <Asked answer={answer} what="the yard" again={again}>
      {({ me }) => {
        if (!me) return <SignIn signedIn={changeSession} />;
        if (me.mustChangePassword) return <FirstPassword changed={changeSession} />;
        return (
          <NewsProvider staff={me.role !== 'VOLUNTEER'} returned={returned}>
            <KeptDeedsProvider accountId={me.account.id} returned={returned}>
              <Inside me={me} again={again} changeSession={changeSession} />
            </KeptDeedsProvider>
          </NewsProvider>
        );
      }}
    </Asked>
  );
}

function Inside({
  me,
  again,
  changeSession,
}: {
  me: Yard['me'];
  again: () => void;
  changeSession: () => void;
}) {
  const [answer, askHaulOut] = useAsk(HaulOutQuestion, {});
  const refresh = useCallback(() => {
    again();
    askHaulOut();
  }, [again, askHaulOut]);
  useFresh('plan', refresh);
  useEffect(() => {
    void ownChest(me.account.id).then((hasEmptied) => {
      if (hasEmptied) refresh();
    });
  }, [me.account.id, refresh]);
  return (
    <Asked answer={answer} what="the haul-out" again={refresh}>
      {({ haulOut }) => (
        <YardContext value={yardOf(me, haulOut ?? null)}>
          <Frame signedOut={changeSession} />
          <Pages refresh={refresh} />
        </YardContext>
      )}
    </Asked>
  );
}

function yardOf(me: Yard['me'], haulOut: Yard['haulOut']): Yard {
  const timeZone = haulOut?.timeZone ?? 'UTC';
  return { me, haulOut, timeZone, today: dayOf(me.organisation.yardNow, timeZone) };
}
