import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import type { HoldPointsQuery } from '../gql/graphql.js';
import { useAsk } from '../live/ask.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Asked } from '../parts/asked.js';
import { Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { Section } from '../parts/page.js';
import { capital } from '../words/amounts.js';
import { sayDay } from '../words/dates.js';
import { BindEyes, eyesWords } from './bind-eyes.js';

const HoldPointsQuestion = graphql(`
  query HoldPoints {
    holdPoints {
      task {
        id
        title
      }
      eyes
      noticeDays
      noticeOn
      noticeBy
      noticeGoesOutBy
      noticeIsLate
      seenOn
      seenBy
      plannedOn
      passed
    }
  }
`);

const NoticeDeed = graphql(`
  mutation GiveNotice($taskIds: [ID!]!, $on: LocalDate!, $by: String!) {
    giveNotice(taskIds: $taskIds, on: $on, by: $by) {
      __typename
      ...Refused
    }
  }
`);

const SeenDeed = graphql(`
  mutation SeenAtHoldPoint($taskIds: [ID!]!, $on: LocalDate!, $by: String!) {
    seenAtHoldPoint(taskIds: $taskIds, on: $on, by: $by) {
      __typename
      ...Refused
    }
  }
`);

type Point = HoldPointsQuery['holdPoints'][number];

/** Eyes that must see the work before it is closed over or cut free, with the day by which notice has to go out. */
export function HoldPoints() {
  const [answer, again] = useAsk(HoldPointsQuestion, {}, 'plan');
  return (
    <Section title="To be seen first" id="hold-points">
      <Asked answer={answer} what="what has to be seen" again={again}>
        {({ holdPoints }) => {
          const open = holdPoints.filter((point) => !point.passed);
          const slings = open.filter((point) => point.eyes === 'SLING');
          const outside = open.filter((point) => point.eyes !== 'SLING');
          return open.length ? (
            <>
              <Points points={outside} changed={again} />
              {slings.length ? (
                <details>
                  <summary>
                    Slings and cleared zones, before a last fastening is cut: {slings.length} to be seen
                  </summary>
                  <Points points={slings} changed={again} />
                </details>
              ) : null}
            </>
          ) : (
            <p>Nothing waits to be seen.</p>
          );
        }}
      </Asked>
    </Section>
  );
}

function Points({ points, changed }: { points: Point[]; changed: () => void }) {
  return (
    <ul className="hull-list">
      {points.map((point) => (
        <OnePoint key={point.task.id} point={point} changed={changed} />
      ))}
    </ul>
  );
}

function OnePoint({ point, changed }: { point: Point; changed: () => void }) {
  const { me } = useYard();
  return (
    <li>
      <p>
        <a href={to('work', point.task.id)}>{point.task.title}</a>
        {point.plannedOn ? `, by the plan on ${sayDay(point.plannedOn)}` : ''}.
      </p>
      {point.noticeDays > 0 ? (
        <p className={point.noticeIsLate ? 'gap' : 'pencil'}>{sayNotice(point)}</p>
      ) : null}
      <p className="pencil">
        {point.seenBy && point.seenOn
          ? `Seen by ${point.seenBy} on ${sayDay(point.seenOn)}.`
          : `Not seen yet: ${eyesWords[point.eyes]} looks first.`}
      </p>
      {point.noticeDays > 0 && !point.noticeOn && me.role !== 'VOLUNTEER' ? (
        <Written point={point} what="notice" changed={changed} />
      ) : null}
      {!point.seenBy && me.role === 'SHIPWRIGHT' ? (
        <Written point={point} what="seen" changed={changed} />
      ) : null}
      {!point.seenBy && (me.role === 'SHIPWRIGHT' || me.role === 'DIRECTOR') ? (
        <BindEyes taskId={point.task.id} now={point} changed={changed} />
      ) : null}
    </li>
  );
}

function sayNotice(point: Point): string {
  if (point.noticeOn) return `Notice given on ${sayDay(point.noticeOn)} by ${point.noticeBy ?? ''}.`;
  const by = point.noticeGoesOutBy;
  const goesOut = by ? `: it must go out by ${sayDay(by)}${point.noticeIsLate ? ', which is past' : ''}` : '';
  return `${capital(eyesWords[point.eyes])} wants ${point.noticeDays} days’ notice${goesOut}.`;
}

function Written({ point, what, changed }: { point: Point; what: 'notice' | 'seen'; changed: () => void }) {
  const { me, today } = useYard();
  const notice = useDeed(NoticeDeed);
  const seen = useDeed(SeenDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const id = `${what}-${point.task.id}`;
  async function send(filled: Filled) {
    const variables = { taskIds: [point.task.id], on: filled.text('on'), by: filled.text('by') };
    const answer = what === 'notice' ? await notice.run(variables) : await seen.run(variables);
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    say('It is written down.');
    changed();
  }
  return (
    <details>
      <summary>{what === 'notice' ? 'They were told' : 'It was seen'}</summary>
      <Answer outcome={outcome} done="It is written down." fields={{ on: `${id}-on`, by: `${id}-by` }} />
      <Form send={send} className="row">
        <Field id={`${id}-on`} name="on" type="date" label="On" defaultValue={today} />
        <Field
          id={`${id}-by`}
          name="by"
          label={what === 'notice' ? 'Who told them' : 'Who saw it'}
          defaultValue={what === 'notice' ? me.account.name : ''}
        />
        <button type="submit" className="deed" disabled={notice.busy || seen.busy}>
          Write it down
        </button>
      </Form>
    </details>
  );
}
