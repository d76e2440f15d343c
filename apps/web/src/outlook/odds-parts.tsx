import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Section } from '../parts/page.js';
import { sayDay, sayDistance, sayShortDay } from '../words/dates.js';
import type { Odds } from './odds.question.js';
import { TellYard } from './slots.js';

/** How the likely day has moved, in a sentence, with the marks under it for those who want them. */
export function TrendSection({ odds }: { odds: Odds }) {
  const { today } = useYard();
  const { trend } = odds;
  return (
    <Section title="How it has moved" id="trend">
      <p>{trend.sentence}</p>
      {trend.marks.length > 1 ? (
        <details>
          <summary>Each day’s forecast</summary>
          <ol className="plain-list">
            {trend.marks.toReversed().map((mark) => (
              <li key={mark.on}>
                {sayShortDay(mark.on, today)}:{' '}
                {mark.likelyOn ? `8 in 10 by ${sayShortDay(mark.likelyOn, today)}` : 'no likely day'}
                {mark.reasons.length ? <span className="pencil"> ({mark.reasons.join('; ')})</span> : null}
              </li>
            ))}
          </ol>
        </details>
      ) : null}
    </Section>
  );
}

/** What would help most, best first. */
export function NextHandSection({ odds }: { odds: Odds }) {
  return (
    <Section title="Next hand" id="next-hand">
      {odds.nextHand.length ? (
        <>
          <p>What would help most, each tried in the same futures:</p>
          <ol className="next-hand">
            {odds.nextHand.slice(0, 6).map(({ what, gains }) => (
              <li key={what}>
                <strong>{what}</strong>
                <span>{gains}</span>
              </li>
            ))}
          </ol>
        </>
      ) : (
        <p>What would help is still being reckoned.</p>
      )}
      <p>
        <a href={to('outlook', 'what-if')}>Try a change of your own</a>
      </p>
    </Section>
  );
}

/** So many are shown before the rest is unfolded. */
const shownDecisions = 6;

/** What has to be decided or told to somebody, soonest first. */
export function DecisionsSection({ odds }: { odds: Odds }) {
  const { decisions } = odds;
  return (
    <Section title="Decisions that are due" id="decisions">
      {decisions.length ? (
        <Dues dues={decisions.slice(0, shownDecisions)} />
      ) : (
        <p>Nothing is due in the coming weeks.</p>
      )}
      {decisions.length > shownDecisions ? (
        <details>
          <summary>{decisions.length - shownDecisions} more</summary>
          <Dues dues={decisions.slice(shownDecisions)} />
        </details>
      ) : null}
    </Section>
  );
}

function Dues({ dues }: { dues: Odds['decisions'] }) {
  const { today } = useYard();
  return (
    <ul className="decisions">
      {dues.map((due) => (
        <li key={due.on + due.words}>
          <strong>
            {sayDay(due.on)}, {sayDistance(due.on, today)}
            {due.isLate ? ': overdue' : ''}
          </strong>
          <span>{due.words}</span>
          {due.slot ? <TellYard slot={due.slot} at="decision" /> : null}
        </li>
      ))}
    </ul>
  );
}

/** The pages behind this one. */
export function Behind() {
  const { me } = useYard();
  return (
    <nav aria-label="Behind the outlook" className="behind">
      <a href={to('outlook', 'letter')}>The slot letter</a>
      <a href={to('outlook', 'report')}>The board’s report</a>
      <a href={to('outlook', 'what-if')}>What if</a>
      <a href={to('outlook', 'record')}>The record</a>
      {me.organisation.isDemo ? <a href={to('outlook', 'troubles')}>Troubles to play</a> : null}
    </nav>
  );
}
