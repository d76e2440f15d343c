import { graphql } from '../gql/gql.js';
import type { SupportKind, WatchQuery } from '../gql/graphql.js';
import { useState } from 'react';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Choice, Field } from '../parts/field.js';
import { FoldForm } from '../parts/fold-form.js';
import { sayDay } from '../words/dates.js';

const StandsDeed = graphql(`
  mutation SupportStands(
    $kind: SupportKind!
    $side: Side!
    $firstFrame: Int!
    $lastFrame: Int!
    $seenBy: String!
  ) {
    supportStands(kind: $kind, side: $side, firstFrame: $firstFrame, lastFrame: $lastFrame, seenBy: $seenBy) {
      __typename
      ...Refused
    }
  }
`);

const StrikeDeed = graphql(`
  mutation StrikeSupport($id: ID!, $version: Int!) {
    strikeSupport(id: $id, version: $version) {
      __typename
      ...Refused
    }
  }
`);

type Support = WatchQuery['hullSupports'][number];

const kinds: Record<SupportKind, string> = {
  SHORE: 'Shores',
  BRACE: 'Braces and cross spalls',
  RIBBAND: 'Ribbands',
};

/** What holds her shape: what stands, what was struck, and saying so. */
export function Supports({ supports, changed }: { supports: Support[]; changed: () => void }) {
  const { me } = useYard();
  const standing = supports.filter((support) => !support.struckOn);
  const struck = supports.filter((support) => support.struckOn);
  const mayStrike = me.role === 'SHIPWRIGHT';
  return (
    <details>
      <summary>Shores, braces and ribbands</summary>
      {standing.length ? (
        <ul className="hull-list">
          {standing.map((support) => (
            <li key={support.id}>
              {saySupport(support)}:{' '}
              <strong>{support.stands ? 'stands' : 'does not stand yet: its work is not done'}</strong>
              {support.seenBy && support.seenOn
                ? `, seen by ${support.seenBy} on ${sayDay(support.seenOn)}`
                : ''}
              {mayStrike && support.stands ? <Strike support={support} changed={changed} /> : null}
            </li>
          ))}
        </ul>
      ) : (
        <p>None is on record: nothing that wants one is opened.</p>
      )}
      {struck.length ? (
        <ul className="hull-list">
          {struck.map((support) => (
            <li key={support.id} className="pencil">
              {saySupport(support)}: struck on {support.struckOn ? sayDay(support.struckOn) : ''}
            </li>
          ))}
        </ul>
      ) : null}
      {mayStrike ? <Fitted changed={changed} /> : null}
    </details>
  );
}

function Fitted({ changed }: { changed: () => void }) {
  const { me } = useYard();
  const { run } = useDeed(StandsDeed);
  return (
    <FoldForm
      summary="One more was fitted"
      press="It stands"
      done="It is on record as standing."
      className="row"
      fields={{ firstFrame: 'support-first', lastFrame: 'support-last', seenBy: 'support-by' }}
      changed={changed}
      send={(filled) =>
        run({
          kind: filled.text('kind') as SupportKind,
          side: filled.text('side') as 'PORT' | 'STARBOARD',
          firstFrame: Math.trunc(filled.number('first')),
          lastFrame: Math.trunc(filled.number(filled.text('last') ? 'last' : 'first')),
          seenBy: filled.text('seenBy'),
        })
      }
    >
      <Choice id="support-kind" name="kind" label="What" defaultValue="SHORE">
        {Object.entries(kinds).map(([kind, words]) => (
          <option key={kind} value={kind}>
            {words}
          </option>
        ))}
      </Choice>
      <Choice id="support-side" name="side" label="Side" defaultValue="STARBOARD">
        <option value="STARBOARD">starboard</option>
        <option value="PORT">port</option>
      </Choice>
      <Field id="support-first" name="first" label="From frame" inputMode="numeric" />
      <Field id="support-last" name="last" label="To frame" inputMode="numeric" hint="Empty for one frame." />
      <Field id="support-by" name="seenBy" label="Who saw it stand" defaultValue={me.account.name} />
    </FoldForm>
  );
}

function Strike({ support, changed }: { support: Support; changed: () => void }) {
  const { run, busy } = useDeed(StrikeDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  async function strike() {
    const answer = await run({ id: support.id, version: support.version });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    say('It is on record as struck.');
    changed();
  }
  return (
    <>
      <Answer outcome={outcome} done="It is on record as struck." />
      <button
        type="button"
        className="quiet"
        disabled={busy}
        aria-label={`It was struck: ${saySupport(support)}`}
        onClick={() => void strike()}
      >
        It was struck
      </button>
    </>
  );
}

function saySupport({ kind, side, firstFrame, lastFrame }: Support): string {
  const where =
    firstFrame && lastFrame
      ? firstFrame === lastFrame
        ? `at frame ${firstFrame}`
        : `frames ${firstFrame} to ${lastFrame}`
      : 'wherever she is opened';
  return `${kinds[kind]} ${where}${side ? `, ${side.toLowerCase()}` : ''}`;
}
