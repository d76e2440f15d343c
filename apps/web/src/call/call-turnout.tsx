import { useCallback, useMemo, useState } from 'react';
import { useClient } from 'urql';
import { graphql } from '../gql/gql.js';
import { FireWatchesOf } from '../fire-watch/fire-watches.js';
import { useAsk } from '../live/ask.js';
import { sayFault } from '../live/deed.js';
import { type KeptOutcome, useIsWaiting, useKeptDeed } from '../live/kept-deeds.js';
import { heardAt } from '../live/kept-fetch.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Asked } from '../parts/asked.js';
import { Page, Section } from '../parts/page.js';
import { count } from '../words/amounts.js';
import { sayDay, timeOf } from '../words/dates.js';
import { MorningQuestion, MorningSheetQuestion, type LastCall, type Sheet } from './call.question.js';
import { TurnoutLead } from '../parts/turnout-lead.js';
import { FromPaper } from './from-paper.js';
import { ofPaper, ofPhone, ofYard, type Proposal } from './proposal.js';
import { ProposedCall } from './proposed-call.js';
import { RosterSettings } from './roster-settings.js';
import { Scan } from './scan.js';
import { Tickers } from './tickers.js';
import { nobodyYet, tick, useWhoCame, type WhoCame } from './who-came.js';

const CallTurnoutDeed = graphql(`
  mutation CallTurnout($input: CallTurnoutInput!) {
    callTurnout(input: $input) {
      __typename
      ... on CallTurnoutPayload {
        call {
          version
          turnedAway
        }
      }
      ...Refused
    }
  }
`);

/** The morning: who is here, what can be done with them, and calling it. */
export function CallTurnout({ turnoutId }: { turnoutId: string }) {
  const [answer, again] = useAsk(MorningSheetQuestion, { turnoutId }, 'either');
  const turnout = answer.data?.morningSheet.turnout;
  return (
    <Page title="Call the turnout" lead={<TurnoutLead turnout={turnout} />}>
      <Asked answer={answer} what="the morning" again={again}>
        {({ morningSheet, turnoutCall, safetyNotice }) => (
          <>
            {morningSheet.turnout.cancelled ? (
              <p className="gap">Called off: {morningSheet.turnout.cancelReason}. Nobody need come.</p>
            ) : (
              <Calling sheet={morningSheet} last={turnoutCall ?? null} again={again} />
            )}
            <FireWatchesOf turnoutId={turnoutId} />
            {morningSheet.turnout.kind === 'WATCH' ? (
              <p>
                <a href={to('pumps', turnoutId)}>The pump log of this watch</a>
              </p>
            ) : null}
            <p className="notice">{safetyNotice}</p>
          </>
        )}
      </Asked>
      <p className="no-print">
        <a href={to('call', turnoutId, 'wall')}>The sheet for the wall</a>
        {' · '}
        <a href={to('week', 'stops', turnoutId)}>What stops people, and what is set aside</a>
        {' · '}
        <a href={to('call', 'badges')}>Badges to print</a>
      </p>
      <RosterSettings />
    </Page>
  );
}

function Calling({ sheet, last, again }: { sheet: Sheet; last: LastCall | null; again: () => void }) {
  const before = useMemo(() => (last ? whoCameAt(last) : null), [last]);
  const turnoutId = sheet.turnout.id;
  const [came, change] = useWhoCame(turnoutId, before);
  const [proposal, setProposal] = useState<Proposal | null>(null);
  const { work, busy, words } = useWorkOut(sheet, came, setProposal);
  const presentIds = Object.keys(came.present);
  const expected = sheet.people.filter((person) => person.expected);
  const here = expected.filter(({ hand }) => hand.volunteerId in came.present).length;
  const alter = useCallback(
    (how: (known: WhoCame) => WhoCame) => {
      change(how);
      setProposal(null);
    },
    [change],
  );
  return (
    <>
      {last ? <Before last={last} /> : null}
      <Section title="Who is here" id="here">
        <p role="status">
          {presentIds.length
            ? `${count(presentIds.length, 'person', 'people')} here. ${here} of ${expected.length} expected.`
            : `${count(expected.length, 'person is', 'people are')} expected. Tick who came.`}
          {presentIds.length &&
          !sheet.people.some((one) => one.isFirstAider && one.hand.volunteerId in came.present)
            ? ' Nobody here holds a first-aid card that counts today.'
            : ''}
        </p>
        <Tickers sheet={sheet} came={came} change={alter} />
        <Scan
          people={sheet.people}
          here={({ hand }) => {
            alter((known) => tick(known, hand.volunteerId, 'BADGE'));
          }}
        />
        <FromPaper
          sheet={sheet}
          entered={(how, onWork) => {
            change(how);
            const isOnWork = [...onWork.values()].some((ids) => ids.length > 0);
            setProposal(isOnWork ? ofPaper(sheet, onWork) : null);
          }}
        />
        <div className="buttons">
          <button
            type="button"
            className="deed"
            onClick={() => void work()}
            disabled={busy || presentIds.length === 0}
          >
            {busy ? 'Working it out…' : 'What can be done now?'}
          </button>
        </div>
        {words ? (
          <div className="answer answer-no" role="alert">
            <p>{words}</p>
          </div>
        ) : null}
      </Section>
      <Section title="The work" id="called">
        {proposal ? (
          <ProposedCall proposal={proposal}>{null}</ProposedCall>
        ) : (
          <p>Tick who is here, then ask what can be done with them. Nothing is changed before you call it.</p>
        )}
        <Confirm sheet={sheet} came={came} proposal={proposal} again={again} />
      </Section>
    </>
  );
}

/** Asks the yard; without a line this phone works it out from the sheet that it keeps, unless that is too old. */
function useWorkOut(sheet: Sheet, came: WhoCame, found: (proposal: Proposal) => void) {
  const client = useClient();
  const [busy, setBusy] = useState(false);
  const [words, setWords] = useState<string | null>(null);
  const work = useCallback(async () => {
    setBusy(true);
    setWords(null);
    const presentIds = Object.keys(came.present);
    try {
      const turnoutId = sheet.turnout.id;
      const result = await client
        .query(MorningQuestion, { turnoutId, presentIds }, { requestPolicy: 'network-only' })
        .toPromise();
      if (result.data) found(ofYard(result.data.morning));
      else if (result.error?.networkError) {
        const heard = await heardAt('MorningSheet', { turnoutId });
        const age = heard === null ? Infinity : (Date.now() - heard) / 3_600_000;
        if (age <= sheet.staleHours) found(ofPhone(sheet, presentIds));
        else
          setWords(
            `There is no line, and the sheet on this phone is older than ${sheet.staleHours} hours: too much may have changed to give work out by it. Go by the sheet on the wall, and enter it when the line is back.`,
          );
      } else if (result.error) setWords(sayFault(result.error));
    } finally {
      setBusy(false);
    }
  }, [client, sheet, came, found]);
  return { work, busy, words };
}

interface ConfirmProps {
  sheet: Sheet;
  came: WhoCame;
  proposal: Proposal | null;
  again: () => void;
}

function Confirm({ sheet, came, proposal, again }: ConfirmProps) {
  const { run, busy } = useKeptDeed(CallTurnoutDeed);
  const [outcome, setOutcome] = useState<KeptOutcome<unknown> | null>(null);
  const [turnedAway, setTurnedAway] = useState<string[]>([]);
  const { turnout, callVersion } = sheet;
  const isWaiting = useIsWaiting('turnoutId', turnout.id);
  const what = `the turnout of ${sayDay(turnout.on)}`;
  const done = `Called: ${what}. The called roster stands in the place of the posted one.`;

  async function call() {
    if (!proposal) return;
    const input = inputOf(sheet, came, proposal);
    const answer = await run({ input }, { what: `Call ${what}`, done });
    setOutcome(answer);
    setTurnedAway(answer.kind === 'done' ? answer.done.call.turnedAway : []);
    again();
  }
  return (
    <>
      <Answer outcome={outcome} done={done} fields={{}} />
      {turnedAway.length ? (
        <div className="answer answer-no">
          <p className="answer-what">A gate gave these no place:</p>
          <ul>
            {turnedAway.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
        </div>
      ) : null}
      {isWaiting ? (
        <p className="pencil">This turnout is called on this phone, and waits for the line.</p>
      ) : proposal ? (
        <div className="buttons">
          <button type="button" className="deed" onClick={() => void call()} disabled={busy}>
            {busy ? 'Calling…' : callVersion === 0 ? 'Call it so' : 'Call it again so'}
          </button>
        </div>
      ) : null}
    </>
  );
}

/** How it was called the last time. */
function Before({ last }: { last: LastCall }) {
  const { timeZone } = useYard();
  return (
    <div className="answer answer-yes">
      <p>
        Called at {timeOf(last.calledAt, timeZone)} by {last.calledBy}
        {sayTimes(last.version)}. Who comes late is ticked, and it is called again.
      </p>
      {last.fallen.map(({ task, why }) => (
        <p key={task.id}>
          {task.title} waits. {why}
        </p>
      ))}
    </div>
  );
}

/** ", for the second time"; nothing for the first. */
function sayTimes(version: number): string {
  if (version === 1) return '';
  const words = ['second', 'third', 'fourth', 'fifth', 'sixth'][version - 2];
  return words ? `, for the ${words} time` : `, ${version} times so far`;
}

function whoCameAt(last: LastCall): WhoCame {
  return {
    ...nobodyYet,
    present: Object.fromEntries(last.presentIds.map((id) => [id, 'TICKED' as const])),
    visitors: last.visitors,
  };
}

function inputOf(sheet: Sheet, came: WhoCame, proposal: Proposal) {
  return {
    turnoutId: sheet.turnout.id,
    version: sheet.callVersion,
    present: Object.entries(came.present).map(([volunteerId, how]) => ({ volunteerId, how })),
    absent: sheet.people
      .filter(({ expected, hand }) => expected && !(hand.volunteerId in came.present))
      .map(({ hand }) => ({
        volunteerId: hand.volunteerId,
        saidSo: came.saidSo.includes(hand.volunteerId),
      })),
    visitors: came.visitors,
    seats: proposal.work.flatMap(({ taskId, crew }) =>
      crew.map(({ volunteerId, skillId, level, startsAt, endsAt }) => {
        return { taskId, volunteerId, skillId, level, startsAt, endsAt };
      }),
    ),
    fallen: proposal.fallen.map(({ taskId, why }) => ({ taskId, why })),
  };
}
