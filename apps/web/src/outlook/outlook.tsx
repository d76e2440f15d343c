import { graphql } from '../gql/gql.js';
import type { OutlookQuery } from '../gql/graphql.js';
import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Page, Section } from '../parts/page.js';
import { count } from '../words/amounts.js';
import { sayDay } from '../words/dates.js';
import { ShellSection } from '../hull/shell-section.js';
import { Gates } from './gates.js';
import { OddsBoard } from './odds-board.js';
import { Behind, DecisionsSection, NextHandSection, TrendSection } from './odds-parts.js';
import { OddsQuestion, type Odds } from './odds.question.js';
import './outlook.css';
import { ReckonAgain } from './reckon-again.js';
import { Rope } from './rope.js';
import { SlotsSection } from './slots.js';

const OutlookQuestion = graphql(`
  query Outlook {
    plan {
      id
      readyAt
      readyOn
      daysToSpare
      sentence
      boundSentence
      bottleneckSentence
      gapPercent
      proved
      isNewest
      schedules
      postingsChanged
      notices
      launchSlot {
        on
        startTime
        endTime
      }
      launchChain {
        task {
          id
          title
          position
        }
        startsAt
        endsAt
        daysToSpare
        why
      }
      noPlan {
        sentence
        task {
          id
          title
          position
        }
      }
    }
  }
`);

type Plan = NonNullable<OutlookQuery['plan']>;

export function Outlook() {
  const [answer, again] = useAsk(OutlookQuestion, {}, 'plan');
  const [told] = useAsk(OddsQuestion, {}, 'plan');
  const plan = answer.data?.plan ?? null;
  const odds = told.data?.outlook ?? null;
  return (
    <Page
      title="Outlook"
      heading={odds?.sentence ?? plan?.sentence ?? 'Outlook'}
      lead={plan ? <HowGood plan={plan} odds={odds} /> : null}
    >
      <Asked answer={answer} what="the plan" again={again}>
        {({ plan: found }) => (found ? <PlanInForce plan={found} odds={odds} /> : <NoPlanYet />)}
      </Asked>
    </Page>
  );
}

/** How good the plan is, measured against what no plan can beat. */
function HowGood({ plan, odds }: { plan: Plan; odds: Odds | null }) {
  return (
    <>
      {odds?.lastMove ? <p>{odds.lastMove}</p> : null}
      {odds && !odds.isOfPlan ? (
        <p>Those odds are of the plan before; the odds of the newest are being reckoned.</p>
      ) : null}
      {odds || plan.noPlan.length ? null : <p>The odds are reckoned within a minute of each plan.</p>}
      {odds ? <p>{plan.sentence}</p> : null}
      {plan.noPlan.length ? <p>While no plan exists there are no odds, and nothing can be posted.</p> : null}
      {plan.boundSentence ? <p>{plan.boundSentence}</p> : null}
      {plan.bottleneckSentence ? <p>{plan.bottleneckSentence}</p> : null}
      <p className="pencil">
        {plan.proved ? '' : nearness(plan.gapPercent)}
        {changes(plan.postingsChanged)}
        {plan.schedules ? `${count(plan.schedules, 'order')} of the work tried.` : ''}
        {plan.isNewest ? '' : ' Something has changed since; a newer plan is on its way.'}
      </p>
    </>
  );
}

function nearness(gapPercent: number | null | undefined): string {
  if (gapPercent === null || gapPercent === undefined) return '';
  if (gapPercent < 0.5) return 'Within half a per cent of the best there can be. ';
  return `At most ${Math.round(gapPercent)} % longer than the best there can be. `;
}

/** What the plan does to places that were posted. */
function changes(many: number): string {
  if (many === 0) return '';
  return many === 1 ? '1 posted place changes. ' : `${many} posted places change. `;
}

function PlanInForce({ plan, odds }: { plan: Plan; odds: Odds | null }) {
  const { haulOut } = useYard();
  return (
    <>
      <ReckonAgain />
      {plan.notices.length ? (
        <ul className="notices" aria-label="What had to be set aside to find this plan">
          {plan.notices.map((notice) => (
            <li key={notice}>{notice}</li>
          ))}
        </ul>
      ) : null}
      {plan.noPlan.length ? <NoPlan wishes={plan.noPlan} /> : null}
      <Behind />
      <ShellSection />
      {odds ? (
        <div className="odds-parts">
          <Section title="The odds" id="odds">
            <OddsBoard odds={odds} />
          </Section>
          <div>
            <TrendSection odds={odds} />
            <DecisionsSection odds={odds} />
            <SlotsSection />
            <NextHandSection odds={odds} />
          </div>
        </div>
      ) : null}
      <div className="outlook">
        {haulOut ? (
          <Section title="The gates" id="gates">
            <Gates haulOut={haulOut} ready={plan} />
          </Section>
        ) : null}
        {plan.noPlan.length ? null : (
          <Section title="The launch chain" id="chain">
            <LaunchChain plan={plan} />
          </Section>
        )}
      </div>
    </>
  );
}

function LaunchChain({ plan }: { plan: Plan }) {
  const { launchChain } = plan;
  return (
    <>
      <p>
        {launchChain.length
          ? 'What decides the day, from the first knot to the last: let one slip by more than it has to spare, and she misses the gate.'
          : 'Nothing holds the launch any more.'}
      </p>
      <Rope knots={launchChain} end={<RopeEnd plan={plan} />} />
    </>
  );
}

function RopeEnd({ plan }: { plan: Plan }) {
  return (
    <div className="knot-words">
      <p>
        <strong>
          {plan.readyOn ? `She is ready on ${sayDay(plan.readyOn)}` : 'She is never ready in this plan'}
        </strong>
      </p>
      {plan.launchSlot ? (
        <p className="pencil">
          and lifts on {sayDay(plan.launchSlot.on)}, {plan.launchSlot.startTime} to {plan.launchSlot.endTime}
        </p>
      ) : (
        <p className="gap">No lift slot is left after that day.</p>
      )}
    </div>
  );
}

function NoPlan({ wishes }: { wishes: Plan['noPlan'] }) {
  return (
    <Section title="Why there is no plan" id="no-plan">
      <p>Each of these stands in the way. Change one thing in each, and reckon again.</p>
      <ul>
        {wishes.map((wish) => (
          <li key={wish.sentence}>
            {wish.task ? <a href={to('work', wish.task.id)}>{wish.sentence}</a> : wish.sentence}
          </li>
        ))}
      </ul>
    </Section>
  );
}

function NoPlanYet() {
  return (
    <Nothing>
      <p>No plan has been reckoned yet.</p>
      <ReckonAgain />
    </Nothing>
  );
}
