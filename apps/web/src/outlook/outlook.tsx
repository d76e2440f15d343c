import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import type { OutlookQuery } from '../gql/graphql.js';
import { useAsk } from '../live/ask.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useReckoning } from '../live/news.js';
import { to } from '../live/route.js';
import { useYard, type HaulOut } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Page, Section } from '../parts/page.js';
import { capital, count, sayDollars, saySpare } from '../words/amounts.js';
import { dayOf, sayDay, sayDistance, sayShortDay, timeOf } from '../words/dates.js';
import './outlook.css';
import { Rope } from './rope.js';
import { TideBoard, type TideMark } from './tide-board.js';

const OutlookQuestion = graphql(`
  query Outlook {
    plan {
      id
      madeAt
      readyAt
      readyOn
      daysToSpare
      sentence
      boundReadyAt
      boundSentence
      gapPercent
      proved
      isNewest
      schedules
      notices
      launchSlot {
        ...Slot
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

const AskForPlanDeed = graphql(`
  mutation AskForPlan {
    askForPlan {
      __typename
      ... on AskForPlanPayload {
        computing {
          id
          state
        }
      }
      ...Refused
    }
  }
`);

type Plan = NonNullable<OutlookQuery['plan']>;

export function Outlook() {
  const [answer, again] = useAsk(OutlookQuestion, {}, 'plan');
  const plan = answer.data?.plan ?? null;
  return (
    <Page
      title="Outlook"
      heading={plan ? plan.sentence : 'Outlook'}
      lead={plan ? <HowGood plan={plan} /> : null}
    >
      <Asked answer={answer} what="the plan" again={again}>
        {({ plan: found }) => (found ? <PlanInForce plan={found} /> : <NoPlanYet />)}
      </Asked>
    </Page>
  );
}

/** How good the plan is, measured against what no plan can beat. */
function HowGood({ plan }: { plan: Plan }) {
  const { timeZone } = useYard();
  return (
    <>
      {plan.boundSentence ? <p>{plan.boundSentence}</p> : null}
      <p className="pencil">
        {plan.proved ? '' : nearness(plan.gapPercent)}
        {count(plan.schedules, 'order', 'orders')} of the work tried,{' '}
        {sayShortDay(dayOf(plan.madeAt, timeZone))} at {timeOf(plan.madeAt, timeZone)}.
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

function PlanInForce({ plan }: { plan: Plan }) {
  const { haulOut, today } = useYard();
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
      <div className="outlook">
        {haulOut ? (
          <Section title="The gates" id="gates">
            <TideBoard hauledOutOn={haulOut.hauledOutOn} marks={marksFor(plan, haulOut, today)} />
          </Section>
        ) : null}
        <Section title="The launch chain" id="chain">
          <p>
            {plan.launchChain.length
              ? `What decides the day, from the first knot to the last: let one slip and, past what it has to spare, the launch slips with it. ${capital(saySpare(plan.launchChain[0]?.daysToSpare ?? 0))}.`
              : 'Nothing holds the launch any more.'}
          </p>
          <Rope knots={plan.launchChain} end={<RopeEnd plan={plan} />} />
        </Section>
      </div>
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

function marksFor(plan: Plan, haulOut: HaulOut, today: string): TideMark[] {
  const { gate, fallback } = haulOut;
  const marks: TideMark[] = [
    {
      key: 'today',
      on: today,
      cut: 'water',
      label: <span className="pencil">today, {sayShortDay(today)}</span>,
    },
    { key: 'gate', on: gate.on, cut: 'gate', label: <GateWords name="The Gate" slot={gate} /> },
  ];
  if (fallback) {
    marks.push({
      key: 'fallback',
      on: fallback.on,
      cut: 'gate',
      label: <GateWords name="Fallback Gate" slot={fallback} />,
    });
  }
  if (plan.readyOn) {
    marks.push({
      key: 'ready',
      on: plan.readyOn,
      cut: 'ready',
      label: (
        <>
          <strong>She is ready</strong>
          <span>
            {sayDay(plan.readyOn)}, {saySpare(plan.daysToSpare)}
          </span>
        </>
      ),
    });
  }
  if (today !== haulOut.hauledOutOn) {
    marks.push({
      key: 'hauled',
      on: haulOut.hauledOutOn,
      cut: 'plain',
      label: <span className="pencil">hauled out, {sayShortDay(haulOut.hauledOutOn)}</span>,
    });
  }
  return marks;
}

function GateWords({ name, slot }: { name: string; slot: HaulOut['gate'] }) {
  const { today } = useYard();
  return (
    <>
      <strong>{name}</strong>
      <span>
        {sayDay(slot.on)}, lift {slot.startTime} to {slot.endTime}
      </span>
      <span className="pencil">
        {slot.confirmBy
          ? `confirm by ${sayShortDay(slot.confirmBy)}, ${sayDistance(slot.confirmBy, today)}`
          : ''}
        {slot.extraCostCents
          ? `${slot.confirmBy ? '; ' : ''}costs ${sayDollars(slot.extraCostCents)} more`
          : ''}
      </span>
    </>
  );
}

function NoPlan({ wishes }: { wishes: Plan['noPlan'] }) {
  return (
    <Section title="Why there is no plan" id="no-plan">
      <p>These can’t all hold. Change one of them, and reckon again.</p>
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

function ReckonAgain() {
  const { run } = useDeed(AskForPlanDeed);
  const say = useSay();
  const reckoning = useReckoning();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const underWay = reckoning?.state === 'WAITING' || reckoning?.state === 'RUNNING';
  async function askForPlan() {
    if (underWay) return;
    setOutcome(null);
    const answer = await run({});
    if (answer.kind === 'done') say('Reckoning the plan again.');
    else setOutcome(answer);
  }
  return (
    <div className="reckon-again">
      <button type="button" className="deed" onClick={askForPlan} aria-disabled={underWay}>
        {underWay ? 'Reckoning…' : 'Reckon again'}
      </button>
      <Answer outcome={outcome} done="" />
    </div>
  );
}
