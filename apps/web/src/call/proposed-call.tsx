import type { ReactNode } from 'react';
import { useYard } from '../live/yard.js';
import { CautionFold } from '../week/caution-fold.js';
import { list, lowerFirst } from '../words/amounts.js';
import { timeOf } from '../words/dates.js';
import type { Proposal, ProposedWork } from './proposal.js';

const sourceWords: Record<Proposal['source'], string> = {
  yard: 'Worked out now for exactly these people, every gate asked.',
  phone:
    'Worked out on this phone from the sheet that it keeps, by a plain rule: who is posted stays, gaps are filled, the rest falls away. The yard asks every gate again when this is sent.',
  paper: 'As it stands on the sheet from the wall. The yard asks every gate when this is sent.',
};

/** What can be done with who is here, and what falls away and why. */
export function ProposedCall({ proposal, children }: { proposal: Proposal; children: ReactNode }) {
  return (
    <>
      <p className="hint">{sourceWords[proposal.source]}</p>
      {proposal.work.length ? (
        <ol className="jobs">
          {proposal.work.map((work) => (
            <li key={work.taskId}>
              <CalledWork work={work} />
            </li>
          ))}
        </ol>
      ) : (
        <p className="gap">Nothing of what is posted can be done by those who are here.</p>
      )}
      {proposal.fallen.length ? (
        <>
          <h3>What falls away</h3>
          <ul className="plain">
            {proposal.fallen.map(({ taskId, title, why }) => (
              <li key={taskId}>
                <strong>{title}</strong> waits. {why}
              </li>
            ))}
          </ul>
        </>
      ) : null}
      {proposal.learners.map((words) => (
        <p key={words}>{words}</p>
      ))}
      {proposal.idle.length ? (
        <p className="unplaced">
          <strong>No work yet for</strong> {list(proposal.idle)}.
        </p>
      ) : null}
      {children}
    </>
  );
}

function CalledWork({ work }: { work: ProposedWork }) {
  const { timeZone } = useYard();
  const starts = work.crew.map(({ startsAt }) => startsAt).sort();
  const ends = work.crew.map(({ endsAt }) => endsAt).sort();
  return (
    <div className="job">
      <div>
        <h3>
          {work.title} <span className="place-on-hull">{work.position}</span>
        </h3>
        <p className="pencil">
          {timeOf(starts[0] ?? '', timeZone)} to {timeOf(ends.at(-1) ?? '', timeZone)}
        </p>
        {work.setAside.map((words) => (
          <p key={words} className="gap">
            {words}
          </p>
        ))}
        <CautionFold title={work.title} lines={work.cautions} />
      </div>
      <ul className="called-crew">
        {work.crew.map(({ volunteerId, name, how, skillName, role, startsAt }) => (
          <li key={`${volunteerId} ${startsAt}`}>
            <strong>{name}</strong>{' '}
            <span className="pencil">
              {role ?? (skillName === null ? 'a hand' : `for ${lowerFirst(skillName)}`)}
              {how === 'AS_POSTED' ? '' : how === 'MOVED' ? ', from other work' : ', walked in'}
            </span>
          </li>
        ))}
      </ul>
    </div>
  );
}
