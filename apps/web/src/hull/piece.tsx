import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import type { HullPieceQuery } from '../gql/graphql.js';
import { useAsk } from '../live/ask.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Asked } from '../parts/asked.js';
import { Field, Note } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { capital } from '../words/amounts.js';
import { dayOf, sayDay } from '../words/dates.js';
import { fateWords } from '../pieces/piece-words.js';
import { stateWords as taskWords } from '../words/tasks.js';
import { sayCourse } from './at-week.js';
import { Override } from './override.js';

const PieceQuestion = graphql(`
  query HullPiece($key: ID!) {
    hullPiece(key: $key) {
      key
      name
      seen
      whoDecides
      standing {
        ...Standing
      }
      work {
        id
        title
        state
        planned {
          startsAt
          endsAt
        }
        estimate {
          __typename
          ... on CountEstimate {
            unit
            count
            countDone
          }
        }
      }
      tags {
        id
        code
        name
        fate
        keptAt
      }
      waits {
        says
        remedy
      }
      supports {
        says
        stands
      }
      limits {
        id
        version
        name
        basis
        elements {
          id
          name
        }
        override {
          by
          reason
          untilOn
        }
      }
    }
  }
`);

const ReportDeed = graphql(`
  mutation ReportElement($element: ID!, $isOpen: Boolean!, $seenBy: String!, $note: String) {
    reportElement(element: $element, isOpen: $isOpen, seenBy: $seenBy, note: $note) {
      __typename
      ...Refused
    }
  }
`);

/** One piece: what it is, its work, why it must wait, and saying what was seen. */
export function HullPiece({ pieceKey, changed }: { pieceKey: string; changed: () => void }) {
  const { me, today, timeZone } = useYard();
  const [answer, again] = useAsk(PieceQuestion, { key: pieceKey }, 'plan');
  return (
    <section className="hull-piece" aria-labelledby="piece-name">
      <Asked answer={answer} what="this piece" again={again}>
        {({ hullPiece: piece }) => (
          <>
            <h3 id="piece-name">{capital(piece.name)}</h3>
            <p>{capital(sayCourse(piece.standing, today, timeZone))}.</p>
            {piece.seen ? <p className="pencil">{capital(piece.seen)}.</p> : null}
            {piece.waits.length ? (
              <>
                <h4>Why it must wait today</h4>
                <ul>
                  {piece.waits.map((wait) => (
                    <li key={wait.says} className="gap">
                      {wait.says} <span className="pencil">{wait.remedy}</span>
                    </li>
                  ))}
                </ul>
              </>
            ) : null}
            {piece.work.length ? (
              <>
                <h4>Work on it</h4>
                <ul>
                  {piece.work.map((task) => (
                    <li key={task.id}>
                      <a href={to('work', task.id)}>{task.title}</a>{' '}
                      <span className="pencil">{sayWorkOn(task, timeZone)}</span>
                    </li>
                  ))}
                </ul>
              </>
            ) : null}
            {piece.tags.length ? (
              <>
                <h4>Tags on it</h4>
                <ul>
                  {piece.tags.map((tag) => (
                    <li key={tag.id}>
                      <a href={to('pieces', tag.code)}>{tag.code}</a> {tag.name}{' '}
                      <span className="pencil">
                        {[fateWords[tag.fate], tag.keptAt ? `kept at ${tag.keptAt}` : '']
                          .filter(Boolean)
                          .join('; ')}
                      </span>
                    </li>
                  ))}
                </ul>
              </>
            ) : null}
            {piece.supports.length ? (
              <>
                <h4>What must stand before it is opened</h4>
                <ul>
                  {piece.supports.map((support) => (
                    <li key={support.says}>
                      {capital(support.says)}: <strong>{support.stands ? 'stands' : 'not on record'}</strong>
                    </li>
                  ))}
                </ul>
              </>
            ) : null}
            {piece.limits.length ? (
              <details>
                <summary>Limits that count it</summary>
                <ul>
                  {piece.limits.map((limit) => (
                    <li key={limit.id}>
                      {limit.name} <span className="pencil">{limit.basis}</span>
                      {limit.override ? (
                        <p>
                          Set aside by {limit.override.by}
                          {limit.override.untilOn ? ` until ${sayDay(limit.override.untilOn)}` : ''}:{' '}
                          {limit.override.reason}
                        </p>
                      ) : me.role === 'SHIPWRIGHT' ? (
                        <Override limit={limit} elements={limit.elements} changed={again} />
                      ) : null}
                    </li>
                  ))}
                </ul>
              </details>
            ) : null}
            <div className="cautions">
              <p>{piece.whoDecides}</p>
            </div>
            <Report
              key={piece.key}
              element={piece.key}
              changed={() => {
                again();
                changed();
              }}
            />
          </>
        )}
      </Asked>
    </section>
  );
}

type WorkOn = HullPieceQuery['hullPiece']['work'][number];

/** "under way; 14 of 36 nails; planned from Saturday 3 April to Sunday 4 April". */
function sayWorkOn({ state, estimate, planned }: WorkOn, timeZone: string): string {
  const counted =
    estimate?.__typename === 'CountEstimate' && state !== 'DROPPED'
      ? `${estimate.countDone.toLocaleString('en')} of ${estimate.count.toLocaleString('en')} ${estimate.unit}`
      : '';
  const span = planned && state !== 'PASSED' ? sayDays(planned, timeZone) : '';
  return [taskWords[state], counted, span].filter(Boolean).join('; ');
}

function sayDays({ startsAt, endsAt }: { startsAt: string; endsAt: string }, timeZone: string): string {
  const [first, last] = [dayOf(startsAt, timeZone), dayOf(endsAt, timeZone)];
  return first === last ? `planned on ${sayDay(first)}` : `planned from ${sayDay(first)} to ${sayDay(last)}`;
}

function Report({ element, changed }: { element: string; changed: () => void }) {
  const { me } = useYard();
  const { run, busy } = useDeed(ReportDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  async function send(filled: Filled) {
    const isOpen = filled.text('isOpen') !== 'shut';
    const answer = await run({
      element,
      isOpen,
      seenBy: filled.text('seenBy'),
      note: filled.textOrNull('note'),
    });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    say('It is written down.');
    changed();
  }
  return (
    <details>
      <summary>Say what you see at the yard</summary>
      <Answer
        outcome={outcome}
        done="It is written down; the plan is reckoned again with it."
        fields={{ seenBy: 'report-by', note: 'report-note' }}
      />
      <Form send={send}>
        {me.role === 'SHIPWRIGHT' ? (
          <fieldset>
            <legend>It is</legend>
            <label>
              <input type="radio" name="isOpen" value="open" defaultChecked /> open
            </label>{' '}
            <label>
              <input type="radio" name="isOpen" value="shut" /> shut
            </label>
          </fieldset>
        ) : (
          <p>It is open, whatever the map says. That it is shut again the shipwright says.</p>
        )}
        <Field id="report-by" name="seenBy" label="Who saw it" defaultValue={me.account.name} />
        <Note id="report-note" name="note" label="A remark" hint="Not needed." />
        <button type="submit" className="deed" disabled={busy}>
          Write it down
        </button>
      </Form>
    </details>
  );
}
