import { useMutation } from 'urql';
import { graphql } from './gql/gql.js';
import { emptyChest } from './live/chest.js';
import { go, to, useRoute } from './live/route.js';
import { useYard } from './live/yard.js';
import { focusOn } from './parts/focus.js';
import { LineWords } from './parts/line-words.js';
import { Reckoner } from './outlook/reckoner.js';
import { Unread } from './news/unread.js';
import { sayDay } from './words/dates.js';
import { pagesFor } from './pages.js';

const SignOutDeed = graphql(`
  mutation SignOut {
    signOut
  }
`);

/** The head of every page: the vessel, the yard's day, where one can go, who one is. */
export function Frame({ signedOut }: { signedOut: () => void }) {
  const { me, haulOut, today } = useYard();
  const [here] = useRoute();
  const [, signOut] = useMutation(SignOutDeed);
  const pages = pagesFor(me.role);
  const current = pages.find((page) => page.path === here)?.path ?? (here ? undefined : pages[0]?.path);

  async function leave() {
    await signOut({});
    await emptyChest();
    go('/');
    signedOut();
  }

  return (
    <header className="frame">
      <button
        type="button"
        className="skip"
        onClick={() => {
          focusOn('#main h1');
        }}
      >
        Skip to the page
      </button>
      <div className="scale" aria-hidden="true" />
      <div className="frame-top">
        <p className="vessel">
          <span className="vessel-name">{haulOut?.vessel.name ?? me.organisation.name}</span>
          {haulOut ? (
            <span className="pencil">
              {haulOut.vessel.rig}
              {haulOut.vessel.builtYear ? `, ${haulOut.vessel.builtYear}` : ''}
            </span>
          ) : null}
        </p>
        <p className="who">
          <a href={to('account')}>{me.account.name}</a>
          <button type="button" className="quiet" onClick={() => void leave()}>
            Sign out
          </button>
        </p>
      </div>
      <div className="frame-bar">
        <nav aria-label="Pages">
          <ul>
            {pages.map((page) => (
              <li key={page.path}>
                <a href={to(page.path)} aria-current={page.path === current ? 'page' : undefined}>
                  {page.name}
                  {page.path === 'news' ? <Unread /> : null}
                </a>
              </li>
            ))}
          </ul>
        </nav>
        <p className="pencil yard-day">
          {me.organisation.isDemo ? 'Demo yard, its clock at ' : 'Today is '}
          {sayDay(today)}
        </p>
      </div>
      {me.role === 'VOLUNTEER' ? null : <Reckoner />}
      <LineWords />
    </header>
  );
}
