import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Asked } from '../parts/asked.js';
import { Section } from '../parts/page.js';
import { dayOf, sayShortDay } from '../words/dates.js';

const CalendarQuestion = graphql(`
  query MyCalendar {
    calendarFeed {
      isThere
      madeAt
      readAt
    }
  }
`);

const MakeDeed = graphql(`
  mutation MakeCalendarAddress {
    makeCalendarAddress {
      __typename
      ... on MakeCalendarAddressPayload {
        address
      }
      ...Refused
    }
  }
`);

const RevokeDeed = graphql(`
  mutation RevokeCalendarAddress {
    revokeCalendarAddress {
      __typename
      ...Refused
    }
  }
`);

/** The address at which one's own calendar program reads one's places. It is shown once. */
export function MyCalendar() {
  const { timeZone, today } = useYard();
  const say = useSay();
  const [answer, again] = useAsk(CalendarQuestion, {});
  const making = useDeed(MakeDeed);
  const revoking = useDeed(RevokeDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const [address, setAddress] = useState<string | null>(null);
  const busy = making.busy || revoking.busy;

  async function make() {
    const made = await making.run({});
    setOutcome(made.kind === 'done' ? null : made);
    if (made.kind === 'done') setAddress(new URL(made.done.address, window.location.origin).href);
    again();
  }

  async function revoke() {
    setOutcome(await revoking.run({}));
    setAddress(null);
    again();
  }

  async function copy(text: string) {
    await navigator.clipboard.writeText(text);
    say('Copied.');
  }

  return (
    <Section title="My calendar" id="calendar">
      <p>Your phone’s own calendar can show your places, and learns of each change by itself.</p>
      <Answer outcome={outcome} done="Revoked: the address answers nobody any more." />
      {address ? (
        <>
          <label htmlFor="calendar-address">
            Your secret address, shown only now. Whoever has it sees when you are at the yard.
          </label>
          <input
            id="calendar-address"
            className="calendar-address"
            readOnly
            value={address}
            onFocus={(event) => {
              event.currentTarget.select();
            }}
          />
          <p className="buttons">
            <button type="button" className="deed" onClick={() => void copy(address)}>
              Copy it
            </button>
            <a href={address.replace(/^https?:/, 'webcal:')} target="_blank" rel="noreferrer">
              Open it in my calendar
            </a>
          </p>
        </>
      ) : null}
      <Asked answer={answer} what="your calendar" again={again}>
        {({ calendarFeed: feed }) => (
          <>
            {feed.isThere && feed.madeAt ? (
              <p>
                There is an address, made on {sayShortDay(dayOf(feed.madeAt, timeZone), today)}.{' '}
                {feed.readAt
                  ? `A program last looked on ${sayShortDay(dayOf(feed.readAt, timeZone), today)}.`
                  : 'No program has looked yet.'}
              </p>
            ) : null}
            <p className="buttons">
              <button type="button" className="quiet" disabled={busy} onClick={() => void make()}>
                {feed.isThere ? 'Make a new address; the old one ends' : 'Make an address'}
              </button>
              {feed.isThere ? (
                <button type="button" className="quiet" disabled={busy} onClick={() => void revoke()}>
                  Revoke it
                </button>
              ) : null}
            </p>
          </>
        )}
      </Asked>
    </Section>
  );
}
