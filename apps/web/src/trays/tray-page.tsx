import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Cautions } from '../parts/cautions.js';
import { Page, Section } from '../parts/page.js';
import { capital, count } from '../words/amounts.js';
import { stateWords } from '../words/tasks.js';
import { sayBalance } from './balance-words.js';
import { EnterTray } from './enter-tray.js';
import { HoleBook } from './hole-book.js';
import { MoveFastenings } from './move-fastenings.js';
import { PlankRepair } from './plank-repair.js';
import { TrayEntries } from './tray-entries.js';
import { TrayQuestion, type Tray } from './trays.question.js';
import './trays.css';

/** One tray: what it holds, what happened, what is to be said next. */
export function TrayPage({ id }: { id: string }) {
  const [answer, again] = useAsk(TrayQuestion, { id }, 'plan');
  const tray = answer.data?.tray;
  return (
    <Page
      title={tray ? `Tray ${tray.name}` : 'A tray'}
      lead={
        tray ? (
          <p>
            {capital(tray.place)}: {count(tray.inPlace, 'fastening')}, {tray.fastening}.
          </p>
        ) : null
      }
    >
      <p>
        <a href={to('trays')}>All trays</a>
      </p>
      <Asked answer={answer} what="the tray" again={again}>
        {({ tray: found, lots, trays }) =>
          found ? (
            <>
              <Section title="What happened" id="enter">
                <EnterTray tray={found} lots={lots} entered={again} />
              </Section>
              <Standing tray={found} again={again} />
              {found.holes.length ? (
                <Section title="The hole book" id="holes">
                  <HoleBook tray={found} entered={again} />
                </Section>
              ) : null}
              <Section title="Entries" id="entries">
                <TrayEntries tray={found} changed={again} />
              </Section>
              <StaffOnly>
                <Section title="Mixed up with another tray?" id="move">
                  <MoveFastenings tray={found} trays={trays} moved={again} />
                </Section>
              </StaffOnly>
              {found.pullTask ? (
                <Cautions
                  cautions={found.pullTask.cautionLines}
                  notice={found.pullTask.safetyNotice}
                  level="h2"
                />
              ) : null}
            </>
          ) : (
            <Nothing>
              <p>There is no such tray any more.</p>
            </Nothing>
          )
        }
      </Asked>
    </Page>
  );
}

function StaffOnly({ children }: { children: React.ReactNode }) {
  return useYard().me.role === 'VOLUNTEER' ? null : children;
}

function Standing({ tray, again }: { tray: Tray; again: () => void }) {
  const { me } = useYard();
  const link = me.role === 'VOLUNTEER' ? 'tally' : 'work';
  const works = [tray.pullTask, tray.driveTask].flatMap((task) => (task ? [task] : []));
  return (
    <Section title="How it stands" id="standing">
      {tray.wanting.map((line) => (
        <p key={line} className="gap">
          {line}
        </p>
      ))}
      {tray.repairsWaiting && me.role === 'SHIPWRIGHT' ? <PlankRepair tray={tray} decided={again} /> : null}
      <ul className="plain">
        {sayBalance(tray.balance).map((line) => (
          <li key={line}>{line}</li>
        ))}
        {works.map((task) => (
          <li key={task.id}>
            <a href={to(link, task.id)}>{task.title}</a>: {stateWords[task.state]}.
          </li>
        ))}
      </ul>
      {tray.frames.some((one) => one.stillIn < one.inPlace) ? <ByFrame tray={tray} /> : null}
    </Section>
  );
}

function ByFrame({ tray }: { tray: Tray }) {
  return (
    <details className="fold">
      <summary>By frame, where it was said</summary>
      <div className="wide" role="region" aria-label="By frame" tabIndex={0}>
        <table className="by-frame">
          <thead>
            <tr>
              <th scope="col">Frame</th>
              <th scope="col">Still in</th>
              <th scope="col">Drawn</th>
              <th scope="col">Through</th>
              <th scope="col">Heads off</th>
            </tr>
          </thead>
          <tbody>
            {tray.frames.map((one) => (
              <tr key={one.frame}>
                <th scope="row">{one.frame}</th>
                <td>
                  {one.stillIn} of {one.inPlace}
                </td>
                <td>{one.drawn}</td>
                <td>{one.pulledThrough}</td>
                <td>{one.cut}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}
