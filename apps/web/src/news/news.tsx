import { useState } from 'react';
import { useSubscription } from 'urql';
import { graphql } from '../gql/gql.js';
import type { MessageKind, MessageWay } from '../gql/graphql.js';
import { useAsk } from '../live/ask.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Asked } from '../parts/asked.js';
import { Choice } from '../parts/field.js';
import { Page, Section } from '../parts/page.js';
import { dayOf, sayDay } from '../words/dates.js';
import { NewsCame, ToldQuestion, type ToldNews } from './news.question.js';
import { YardMail } from './yard-mail.js';
import './news.css';

const ReadDeed = graphql(`
  mutation ReadNews($ids: [ID!]) {
    readNews(ids: $ids) {
      __typename
      ...Refused
    }
  }
`);

const ChooseDeed = graphql(`
  mutation ChooseNews($kind: MessageKind!, $way: MessageWay!) {
    chooseNews(kind: $kind, way: $way) {
      __typename
      ...Refused
    }
  }
`);

/** What one has been told, and how one wants to be told. */
export function NewsPage() {
  const { me } = useYard();
  const [answer, again] = useAsk(ToldQuestion, {}, 'roster');
  useSubscription({ query: NewsCame }, (_before: unknown, came) => {
    again();
    return came;
  });
  const runsTheYard = me.role === 'DIRECTOR' || me.role === 'COORDINATOR';
  return (
    <Page title="News" lead={<p>What the yard has told you, the newest first.</p>}>
      <Asked answer={answer} what="your news" again={again}>
        {({ news }) => (
          <>
            <List news={news} read={again} />
            <Section title="How you want to be told" id="ways">
              <Ways news={news} changed={again} />
            </Section>
            {runsTheYard ? <YardMail /> : null}
          </>
        )}
      </Asked>
    </Page>
  );
}

function List({ news, read }: { news: ToldNews; read: () => void }) {
  const { timeZone } = useYard();
  const { run, busy } = useDeed(ReadDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);

  async function mark(ids: string[] | null) {
    setOutcome(await run({ ids }));
    read();
  }

  if (news.messages.length === 0) return <p>Nothing yet.</p>;
  return (
    <>
      <Answer outcome={outcome} done="Marked as read." />
      {news.unread > 0 ? (
        <button type="button" className="quiet" disabled={busy} onClick={() => void mark(null)}>
          Mark all {news.unread} as read
        </button>
      ) : null}
      <ul className="plain told">
        {news.messages.map((message) => (
          <li key={message.id}>
            <h2>
              {message.readAt ? null : <span className="told-new">New: </span>}
              {message.subject}
            </h2>
            <p className="pencil">{sayDay(dayOf(message.postedAt, timeZone))}</p>
            <p className="told-words">{message.words}</p>
            <p className="buttons">
              {message.path ? <a href={message.path}>Go there</a> : null}
              {message.readAt ? null : (
                <button
                  type="button"
                  className="quiet"
                  disabled={busy}
                  onClick={() => void mark([message.id])}
                >
                  I have read it<span className="unseen">: {message.subject}</span>
                </button>
              )}
            </p>
          </li>
        ))}
      </ul>
    </>
  );
}

function Ways({ news, changed }: { news: ToldNews; changed: () => void }) {
  const { run, busy } = useDeed(ChooseDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);

  async function choose(kind: MessageKind, way: MessageWay) {
    setOutcome(await run({ kind, way }));
    changed();
  }

  return (
    <details className="fold">
      <summary>Choose for each kind of news</summary>
      {news.isMailSetUp ? null : (
        <p>This server sends no e-mail yet: everything is told here. What you choose holds once it does.</p>
      )}
      <Answer outcome={outcome} done="Kept." />
      {news.choices.map(({ kind, about, way, maySwitchOff }) => (
        <Choice
          key={kind}
          id={`way-${kind}`}
          label={about}
          value={way}
          disabled={busy}
          onChange={(event) => void choose(kind, event.currentTarget.value as MessageWay)}
        >
          <option value="EMAIL">by e-mail, and here</option>
          <option value="PAGE">here only</option>
          {maySwitchOff ? <option value="OFF">not at all</option> : null}
        </Choice>
      ))}
    </details>
  );
}
