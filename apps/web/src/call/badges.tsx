import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Asked } from '../parts/asked.js';
import { Page } from '../parts/page.js';
import { PrintButton } from '../parts/print-button.js';
import { QrSquare } from '../pieces/qr-square.js';
import '../pieces/pieces.css';

const BadgesQuestion = graphql(`
  query Badges {
    badges {
      code
      square
      hand {
        volunteerId
        name
      }
    }
  }
`);

/** Badges to print, cut and pin on: scanned in the morning, or their code keyed. */
export function Badges() {
  const { haulOut } = useYard();
  const [answer, again] = useAsk(BadgesQuestion, {});
  return (
    <Page title="Badges to print" lead={<p>One for everybody in the crew. The code stays theirs.</p>}>
      <p className="no-print">
        <a href={to('call')}>Call the turnout</a>
      </p>
      <p className="no-print">
        <PrintButton />
      </p>
      <Asked answer={answer} what="the badges" again={again}>
        {({ badges }) => (
          <ul className="plain tag-sheet">
            {badges.map(({ hand, code, square }) => (
              <li key={hand.volunteerId} className="tag">
                <QrSquare rows={square} title={`Square of the badge of ${hand.name}`} />
                <div className="tag-words">
                  <p className="tag-code">{code}</p>
                  <p className="tag-name">{hand.name}</p>
                  <p className="tag-vessel">{haulOut?.vessel.name}</p>
                </div>
              </li>
            ))}
          </ul>
        )}
      </Asked>
    </Page>
  );
}
