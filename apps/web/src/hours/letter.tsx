import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Asked } from '../parts/asked.js';
import { DaySpan } from '../parts/day-span.js';
import { Page } from '../parts/page.js';
import { PrintButton } from '../parts/print-button.js';
import { count, list } from '../words/amounts.js';
import { addDays, sayShortDay } from '../words/dates.js';
import { sayHours } from './hours-words.js';
import './hours.css';

const LetterQuestion = graphql(`
  query HoursLetter($from: LocalDate!, $to: LocalDate!, $volunteerId: ID) {
    hoursLetter(from: $from, to: $to, volunteerId: $volunteerId) {
      organisation
      name
      from
      to
      writtenOn
      minutes
      days
      kinds {
        name
        minutes
      }
      closed
    }
  }
`);

/** A letter with the hours that somebody gave, to print and sign. @param volunteerId null for one's own */
export function Letter({ volunteerId }: { volunteerId: string | null }) {
  const { today, haulOut } = useYard();
  const [from, setFrom] = useState(addDays(today, -365));
  const [until, setUntil] = useState(today);
  const [answer, again] = useAsk(LetterQuestion, { from, to: until, volunteerId });
  return (
    <Page title="A letter of hours">
      <div className="no-print">
        <p>
          <a href={volunteerId === null ? to('my-hours') : to('hours')}>Back to the hours</a>
        </p>
        <DaySpan id="letter" from={from} to={until} setFrom={setFrom} setTo={setUntil} />
        <PrintButton />
      </div>
      <Asked answer={answer} what="the hours" again={again}>
        {({ hoursLetter: letter }) => (
          <article className="letter">
            <p>{letter.organisation}</p>
            <p>
              {sayShortDay(letter.writtenOn)} {letter.writtenOn.slice(0, 4)}
            </p>
            <p>To whom it may concern</p>
            <p>
              From {sayShortDay(letter.from)} {letter.from.slice(0, 4)} to {sayShortDay(letter.to)}{' '}
              {letter.to.slice(0, 4)}, {letter.name} gave <strong>{sayHours(letter.minutes)}</strong> on{' '}
              {count(letter.days, 'day')}, unpaid, to the restoration of{' '}
              {haulOut?.vessel.name ?? 'our vessel'}
              {letter.kinds.length
                ? `: ${list(letter.kinds.map((kind) => `${kind.name.toLowerCase()} ${sayHours(kind.minutes)}`))}`
                : ''}
              .
            </p>
            {letter.closed.length ? (
              <p>
                Thank you, {letter.name}: your hours helped to finish {list(letter.closed)}.
              </p>
            ) : (
              <p>Thank you, {letter.name}: each of these hours brings her nearer to the water.</p>
            )}
            <p className="signature">Signed for {letter.organisation}: ______________________________</p>
          </article>
        )}
      </Asked>
    </Page>
  );
}
