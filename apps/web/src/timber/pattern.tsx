import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Asked } from '../parts/asked.js';
import { Page } from '../parts/page.js';
import { capital } from '../words/amounts.js';
import { sayFeet, sayInches } from '../words/lengths.js';
import { boxOf } from './flitch-drawing.js';
import './timber.css';

const PatternQuestion = graphql(`
  query Pattern($piece: ID!) {
    pattern(piece: $piece) {
      __typename
      ... on PatternPayload {
        pattern {
          piece
          name
          sided
          chord
          sweep
          points
          farEdge
          bevels {
            along
            degrees
          }
        }
      }
      ...Refused
    }
  }
`);

/** One futtock's full-size pattern: its outline to scale and the bevels along its outer edge. */
export function PatternPage({ piece }: { piece: string }) {
  const { units } = useYard().me.organisation;
  const [answer, again] = useAsk(PatternQuestion, { piece });
  return (
    <Page title="Pattern" lead={<a href={to('timber')}>Back to the timber</a>}>
      <Asked answer={answer} what="the pattern" again={again}>
        {({ pattern: found }) => {
          if (found.__typename !== 'PatternPayload')
            return (
              <p className="gap">
                {found.message} {found.remedy}
              </p>
            );
          const { pattern } = found;
          const box = boxOf(pattern.points);
          return (
            <>
              <h2>{capital(pattern.name)}</h2>
              <p>
                {sayFeet(pattern.chord, units)} from heel to head, {sayInches(pattern.sided, units)} sided,
                bends {sayInches(pattern.sweep, units)} along its outer edge. Full size; the sheet shows it to
                scale.
              </p>
              <svg
                className="pattern-drawing"
                role="img"
                aria-label={`Pattern of the ${pattern.name}, heel to the left`}
                viewBox={`${box.left - 60} ${-box.high - 60} ${box.right - box.left + 120} ${box.high - box.low + 120}`}
              >
                <g transform="scale(1 -1)">
                  <polygon className="laid" points={pattern.points} />
                  <polyline className="far-edge" points={pattern.farEdge} />
                </g>
              </svg>
              <table className="log-table">
                <caption>Bevels along the outer edge, from the heel</caption>
                <thead>
                  <tr>
                    <th scope="col">From the heel</th>
                    <th scope="col">Degrees off square</th>
                  </tr>
                </thead>
                <tbody>
                  {pattern.bevels.map(({ along, degrees }) => (
                    <tr key={along}>
                      <td>{sayFeet(along, units)}</td>
                      <td>
                        {Math.abs(degrees).toFixed(1)}{' '}
                        {degrees > 0.05 ? 'open' : degrees < -0.05 ? 'closed' : 'square'}
                      </td>
                    </tr>
                  ))}
                </tbody>
              </table>
            </>
          );
        }}
      </Asked>
    </Page>
  );
}
