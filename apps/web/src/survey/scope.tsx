import type { ScopeSeenFragment } from '../gql/graphql.js';
import { count } from '../words/amounts.js';

/** What is to be opened about what was found: counts, planks, joints, departures, and what is wanted first. */
export function ScopeWords({ scope }: { scope: ScopeSeenFragment }) {
  return (
    <>
      <dl className="scope-counts">
        {scope.counts.map(({ what, count: many }) => (
          <div key={what}>
            <dt>{what}</dt>
            <dd>{many}</dd>
          </div>
        ))}
      </dl>
      {scope.limitsInTheWay.length ? (
        <div className="answer answer-no">
          <p className="answer-what">
            No order of work keeps these limits. The shipwright’s written word is wanted:
          </p>
          <ul>
            {scope.limitsInTheWay.map(({ limit, frames }) => (
              <li key={limit}>
                {limit}: {frames.join(', ')}
              </li>
            ))}
          </ul>
        </div>
      ) : null}
      <Told title="Repairs that are temporary: their cause is not mended" list={scope.temporary} />
      <Told title="To be looked at again when open" list={scope.doubtful} />
      <Told title="Departures from how she was built" list={scope.departures} />
      <Told title="Rules that a sister frame breaks here" list={scope.sisterFaults} />
      <details>
        <summary>{count(scope.planksOff.length, 'plank')} come off, and why</summary>
        <p>
          {scope.planksOff.map(({ name, nails }) => `${name} (${nails} nails)`).join(', ')}. They come off so
          that these joints can be reached and every piece has a way out:
        </p>
        <ul className="plain">
          {scope.joints.map((joint) => (
            <li key={`${joint.piece} ${joint.at}`}>
              {joint.piece}, {joint.original ? 'the old joint' : 'a new joint'} at {joint.at} strakes, reached{' '}
              {joint.seenFrom}
            </li>
          ))}
        </ul>
      </details>
    </>
  );
}

function Told({ title, list }: { title: string; list: readonly string[] }) {
  if (list.length === 0) return null;
  return (
    <>
      <h3>{title}</h3>
      <ul className="plain">
        {list.map((one) => (
          <li key={one}>{one}</li>
        ))}
      </ul>
    </>
  );
}
