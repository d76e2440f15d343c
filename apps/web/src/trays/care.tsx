import { useEffect, useRef, useState } from 'react';
import { graphql } from '../gql/gql.js';
import type { CareLevelsQuery, FasteningCare } from '../gql/graphql.js';
import { useAsk } from '../live/ask.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Asked } from '../parts/asked.js';
import { Choice, Field } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { Section } from '../parts/page.js';
import { capital, count, figure } from '../words/amounts.js';
import { dayOf, sayShortDay } from '../words/dates.js';
import type { Kind } from './trays.question.js';

const CareLevelsQuestion = graphql(`
  query CareLevels {
    careLevels {
      fastening
      count
      choices {
        care
        personHours
        oldNailsKept
        toBuy
        newHolesInKept
      }
      odds {
        care
        isWaiting
        gateOdds
        words
      }
      chosen {
        care
        chosenBy
        reason
        yardAt
        tasksChanged
      }
    }
  }
`);

const ChooseCareDeed = graphql(`
  mutation ChooseCare($fastening: String!, $care: FasteningCare!, $reason: String!) {
    chooseCare(fastening: $fastening, care: $care, reason: $reason) {
      __typename
      ... on CarePayload {
        chosen {
          care
        }
      }
      ...Refused
    }
  }
`);

const AskCareOddsDeed = graphql(`
  mutation AskCareOdds {
    askCareOdds {
      __typename
      ... on CareOddsPayload {
        asked
      }
      ...Refused
    }
  }
`);

/** How often odds that are still being worked out are asked for. */
const everyMillis = 2_000;

const careWords: Record<FasteningCare, string> = {
  SAVE_ALL: 'save all',
  SAVE_SOUND: 'save the sound ones',
  RENEW: 'renew',
};

type Levels = CareLevelsQuery['careLevels'][number];

/** How much care, side by side: hours, odds of the gate, old material kept, what has to be bought. */
export function Care({ kinds, chosen }: { kinds: Kind[]; chosen: () => void }) {
  const [answer, again] = useAsk(CareLevelsQuestion, {}, 'plan');
  useOdds(answer.data?.careLevels ?? [], again);
  return (
    <Asked answer={answer} what="levels of care" again={again}>
      {({ careLevels }) =>
        careLevels
          .filter((levels) => levels.count > 0 || levels.chosen)
          .map((levels) => (
            <Section
              key={levels.fastening}
              title={`How much care: ${levels.fastening}`}
              id={`care-${levels.fastening.replaceAll(' ', '-')}`}
            >
              <SideBySide levels={levels} kind={kinds.find((kind) => kind.fastening === levels.fastening)} />
              <Choose
                levels={levels}
                done={() => {
                  again();
                  chosen();
                }}
              />
            </Section>
          ))
      }
    </Asked>
  );
}

/** Has the odds worked out for a plan that they are not known of yet, and looks until they are there. */
function useOdds(levels: Levels[], again: () => void) {
  const { run } = useDeed(AskCareOddsDeed);
  const isUnasked = levels.some(({ count: left, odds }) => left > 0 && odds.length === 0);
  const isWaiting = levels.some(({ odds }) => odds.some((one) => one.isWaiting));
  const ask = useRef(run);
  ask.current = run;
  useEffect(() => {
    if (isUnasked) void ask.current({}).finally(again);
  }, [isUnasked, again]);
  useEffect(() => {
    if (!isWaiting) return undefined;
    const timer = setInterval(again, everyMillis);
    return () => {
      clearInterval(timer);
    };
  }, [isWaiting, again]);
}

function SideBySide({ levels, kind }: { levels: Levels; kind: Kind | undefined }) {
  const { today, timeZone } = useYard();
  const { chosen } = levels;
  const plan = kind?.planned;
  const span = (from?: string | null, until?: string | null) =>
    from && until ? `${sayShortDay(from, today)} to ${sayShortDay(until, today)}` : null;
  const pulled = span(plan?.pulledFrom, plan?.pulledUntil);
  const driven = span(plan?.drivenFrom, plan?.drivenUntil);
  return (
    <>
      {chosen ? (
        <p>
          Chosen: <strong>{careWords[chosen.care]}</strong>, by {chosen.chosenBy} on{' '}
          {sayShortDay(dayOf(chosen.yardAt, timeZone), today)}. {chosen.reason}
        </p>
      ) : null}
      <p>
        For the {levels.count} that nobody has begun to draw
        {pulled ? `, planned from ${pulled}` : ''}
        {driven ? `, and driven from ${driven}` : ''}:
      </p>
      <div
        className="wide"
        role="region"
        aria-label={`Levels of care side by side: ${levels.fastening}`}
        tabIndex={0}
      >
        <table className="by-frame">
          <thead>
            <tr>
              <th scope="col">Care</th>
              <th scope="col">Person-hours</th>
              <th scope="col">Odds of the gate</th>
              <th scope="col">Old ones that go back</th>
              <th scope="col">To buy</th>
              <th scope="col">New holes in kept timber</th>
            </tr>
          </thead>
          <tbody>
            {levels.choices.map((choice) => (
              <tr key={choice.care}>
                <th scope="row">{capital(careWords[choice.care])}</th>
                <td>{figure(choice.personHours)}</td>
                <td>{oddsSaid(levels, choice.care)}</td>
                <td>{choice.oldNailsKept}</td>
                <td>{choice.toBuy}</td>
                <td>{choice.newHolesInKept}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p>
        The odds are worked out from the plan in force, with the pulling at that pace and all else the same.
        Nothing is chosen by looking.
      </p>
    </>
  );
}

/** A chance is only shown once it is known. */
function oddsSaid({ odds }: Levels, care: FasteningCare): string {
  const found = odds.find((one) => one.care === care);
  return found ? found.words : 'Not worked out yet';
}

function Choose({ levels, done }: { levels: Levels; done: () => void }) {
  const { me } = useYard();
  const { run, busy } = useDeed(ChooseCareDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  if (me.role !== 'SHIPWRIGHT') return <p>The shipwright chooses.</p>;
  const id = (name: string) => `${name}-${levels.fastening.replaceAll(' ', '-')}`;
  async function submit(filled: Filled) {
    const answer = await run({
      fastening: levels.fastening,
      care: filled.text('care') as FasteningCare,
      reason: filled.text('reason'),
    });
    setOutcome(answer);
    if (answer.kind === 'done') done();
  }
  return (
    <Form send={submit}>
      <Answer
        outcome={outcome}
        done={`Written down. The rate of ${count(levels.count, 'fastening')} not begun follows, and the plan is reckoned again.`}
        fields={{ reason: id('care-why') }}
      />
      <div className="side-by-side">
        <Choice
          id={id('care-level')}
          name="care"
          label="Care"
          defaultValue={levels.chosen?.care ?? 'SAVE_SOUND'}
        >
          {Object.entries(careWords).map(([value, said]) => (
            <option key={value} value={value}>
              {capital(said)}
            </option>
          ))}
        </Choice>
        <Field id={id('care-why')} name="reason" label="Why" maxLength={500} />
      </div>
      <button type="submit" className="quiet" disabled={busy}>
        Choose this care
      </button>
    </Form>
  );
}
