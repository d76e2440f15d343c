import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { list } from '../words/amounts.js';
import { sayDay } from '../words/dates.js';

const UnclosedQuestion = graphql(`
  query Unclosed {
    roundsToDo {
      turnout {
        id
        on
      }
      items
      there {
        volunteerId
      }
    }
  }
`);

/** Turnouts that are over and that nobody closed, where the coordinator starts; nothing where there is none. */
export function Unclosed() {
  const { today } = useYard();
  const [answer] = useAsk(UnclosedQuestion, {}, 'roster');
  const over = answer.data?.roundsToDo.filter(({ turnout }) => turnout.on < today) ?? [];
  if (!over.length) return null;
  const unclosed = over.filter(({ items }) => items.length > 0);
  const left = over.reduce((sum, { there }) => sum + there.length, 0);
  return (
    <p className="gap" role="status">
      <a href={to('safety')}>
        {unclosed.length
          ? `No closing round: ${list(unclosed.map(({ turnout }) => sayDay(turnout.on)))}`
          : 'After a watch'}
      </a>
      .{left ? ` Nobody wrote down that ${left === 1 ? 'one person has' : `${left} people have`} left.` : ''}
    </p>
  );
}
