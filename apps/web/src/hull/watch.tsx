import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import type { WatchQuery } from '../gql/graphql.js';
import { useAsk } from '../live/ask.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Asked } from '../parts/asked.js';
import { Field, Note } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { Section } from '../parts/page.js';
import { list, lowerFirst } from '../words/amounts.js';
import { sayDay } from '../words/dates.js';

const WatchQuestion = graphql(`
  query Watch {
    brokenLimits {
      limit {
        id
        version
        name
        basis
        atMost
      }
      open {
        id
        name
      }
    }
    openingRules {
      rule
      says
      usual
      here
      changedBy
      reason
    }
    hullSupports {
      id
      kind
      side
      firstFrame
      lastFrame
      seenBy
      seenOn
      stands
    }
  }
`);

const OverrideDeed = graphql(`
  mutation OverrideOpeningLimit(
    $id: ID!
    $version: Int!
    $reason: String!
    $elementIds: [ID!]
    $untilOn: LocalDate
  ) {
    overrideOpeningLimit(
      id: $id
      version: $version
      reason: $reason
      elementIds: $elementIds
      untilOn: $untilOn
    ) {
      __typename
      ...Refused
    }
  }
`);

type Broken = WatchQuery['brokenLimits'][number];

/** Limits that are broken now by what is really open, the rules that count here, and what holds her. */
export function Watch() {
  const [answer, again] = useAsk(WatchQuestion, {}, 'plan');
  return (
    <Section title="Openings" id="openings">
      <Asked answer={answer} what="the openings" again={again}>
        {({ brokenLimits, openingRules, hullSupports }) => (
          <>
            {brokenLimits.length ? (
              <>
                <h3>Broken now, whatever the plan says</h3>
                <ul className="hull-list">
                  {brokenLimits.map((broken) => (
                    <BrokenLimit key={broken.limit.id} broken={broken} changed={again} />
                  ))}
                </ul>
              </>
            ) : (
              <p>No limit is broken by what is on record as open.</p>
            )}
            <details>
              <summary>The rules that count here</summary>
              <ul className="hull-list">
                {openingRules.map((rule) => (
                  <li key={rule.rule}>
                    <strong>{rule.here}</strong>{' '}
                    {rule.changedBy ? (
                      <>
                        in place of {rule.usual}, by {rule.changedBy}: {rule.reason}
                      </>
                    ) : (
                      <span className="pencil">{rule.says}</span>
                    )}
                  </li>
                ))}
              </ul>
            </details>
            <details>
              <summary>Shores, braces and ribbands</summary>
              {hullSupports.length ? (
                <ul>
                  {hullSupports.map((support) => (
                    <li key={support.id}>
                      {saySupport(support)}: <strong>{support.stands ? 'stands' : 'does not stand'}</strong>
                      {support.seenBy && support.seenOn
                        ? `, seen by ${support.seenBy} on ${sayDay(support.seenOn)}`
                        : ''}
                    </li>
                  ))}
                </ul>
              ) : (
                <p>None is on record: nothing that wants one is opened.</p>
              )}
            </details>
          </>
        )}
      </Asked>
    </Section>
  );
}

function saySupport(support: WatchQuery['hullSupports'][number]): string {
  const kind = { SHORE: 'Shores', BRACE: 'Braces and cross spalls', RIBBAND: 'Ribbands' }[support.kind];
  const where =
    support.firstFrame && support.lastFrame
      ? `frames ${support.firstFrame} to ${support.lastFrame}`
      : 'wherever she is opened';
  return `${kind} ${where}${support.side ? `, ${support.side.toLowerCase()}` : ''}`;
}

function BrokenLimit({ broken, changed }: { broken: Broken; changed: () => void }) {
  const { me } = useYard();
  const { run, busy } = useDeed(OverrideDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const { limit, open } = broken;
  const id = `override-${limit.id}`;
  async function send(filled: Filled) {
    const answer = await run({
      id: limit.id,
      version: limit.version,
      reason: filled.text('reason'),
      elementIds: open.map((element) => element.id),
      untilOn: filled.textOrNull('untilOn'),
    });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    say('The limit is set aside.');
    changed();
  }
  return (
    <li>
      <p className="gap">
        {limit.name}: {list(open.map((element) => lowerFirst(element.name)))}{' '}
        {open.length === 1 ? 'is' : 'are'} open.
      </p>
      <p className="pencil">{limit.basis}</p>
      {me.role === 'SHIPWRIGHT' ? (
        <details>
          <summary>Set it aside for these, in my name</summary>
          <Answer
            outcome={outcome}
            done="It is set aside and on the record."
            fields={{ reason: `${id}-reason`, untilOn: `${id}-until` }}
          />
          <Form send={send}>
            <Note id={`${id}-reason`} name="reason" label="What holds her instead" />
            <Field
              id={`${id}-until`}
              name="untilOn"
              type="date"
              label="Until"
              hint="Empty: until it is taken back."
            />
            <button type="submit" className="deed" disabled={busy}>
              Set it aside
            </button>
          </Form>
        </details>
      ) : null}
    </li>
  );
}
