import { useSubscription } from 'urql';
import { useAsk } from '../live/ask.js';
import { NewsCame, UnreadQuestion } from './news.question.js';

/** How many news are new, beside the page's name; nothing when there are none. */
export function Unread() {
  const [answer, again] = useAsk(UnreadQuestion, {}, 'roster');
  useSubscription({ query: NewsCame }, (_before: unknown, came) => {
    again();
    return came;
  });
  const unread = answer.data?.news.unread ?? 0;
  return unread > 0 ? (
    <span className="unread">
      {' '}
      {unread}
      <span className="unseen"> new</span>
    </span>
  ) : null;
}
