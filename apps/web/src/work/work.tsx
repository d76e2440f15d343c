import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Choice, Field } from '../parts/field.js';
import { Page } from '../parts/page.js';
import { count } from '../words/amounts.js';
import { sayStates, stateWords, type State } from '../words/tasks.js';
import { byPosition, matches, type Listed } from './by-position.js';
import { Strokes } from './strokes.js';
import './work.css';

const WorkQuestion = graphql(`
  query Work($after: String) {
    tasks(first: 200, after: $after) {
      edges {
        node {
          id
          title
          position
          state
          held
        }
      }
      pageInfo {
        hasNextPage
        endCursor
      }
    }
  }
`);

/** The whole work by place on the hull. Lists come 200 at a time, so that a further page is a further list. */
export function Work() {
  const [state, setState] = useState<State | ''>('');
  const [words, setWords] = useState('');
  return (
    <Page title="The work" lead={<p>By place on the hull. Open a piece of work to see all of it.</p>}>
      <search className="work-search">
        <Field
          id="work-words"
          label="Find"
          hint="frame 12, plugs, caulk…"
          value={words}
          onChange={(event) => {
            setWords(event.target.value);
          }}
        />
        <Choice
          id="work-state"
          label="That is"
          value={state}
          onChange={(event) => {
            setState(event.target.value as State | '');
          }}
        >
          <option value="">in any state</option>
          {Object.entries(stateWords).map(([value, said]) => (
            <option key={value} value={value}>
              {said}
            </option>
          ))}
        </Choice>
      </search>
      <Sheets after={null} before={[]} keep={(task) => matches(task, words, state)} />
    </Page>
  );
}

interface SheetsProps {
  after: string | null;
  /** What the earlier pages held. */
  before: Listed[];
  keep: (task: Listed) => boolean;
}

function Sheets({ after, before, keep }: SheetsProps) {
  const [answer, again] = useAsk(WorkQuestion, { after }, 'plan');
  return (
    <Asked answer={answer} what="the work" again={again}>
      {({ tasks }) => {
        const sofar = [...before, ...tasks.edges.map((edge) => edge.node)];
        return tasks.pageInfo.hasNextPage ? (
          <Sheets after={tasks.pageInfo.endCursor ?? null} before={sofar} keep={keep} />
        ) : (
          <TallyBoard tasks={sofar} keep={keep} />
        );
      }}
    </Asked>
  );
}

function TallyBoard({ tasks, keep }: { tasks: Listed[]; keep: (task: Listed) => boolean }) {
  const kept = tasks.filter(keep);
  if (!kept.length) {
    return (
      <Nothing>
        <p>{tasks.length ? 'No work answers to that.' : 'No work is written down yet.'}</p>
      </Nothing>
    );
  }
  const narrowed = kept.length < tasks.length;
  return (
    <>
      <p role="status">
        {narrowed
          ? `${count(kept.length, 'piece of work', 'pieces of work')} of ${tasks.length}`
          : count(tasks.length, 'piece of work', 'pieces of work')}
        : {sayStates(kept.map((task) => task.state))}.
      </p>
      <ul className="positions">
        {byPosition(kept).map(({ position, tasks: here }) => (
          <li key={position}>
            <details open={narrowed && kept.length <= 40}>
              <summary>
                <h2>{position}</h2>
                <span className="pencil">{sayStates(here.map((task) => task.state))}</span>
                <Strokes many={here.length} passed={here.filter((task) => task.state === 'PASSED').length} />
              </summary>
              <ul className="tasks">
                {here.map((task) => (
                  <li key={task.id}>
                    <a href={to('work', task.id)}>{task.title}</a>
                    <span className={`state state-${task.state.toLowerCase()}`}>
                      {task.held ? `held: ${task.held}` : stateWords[task.state]}
                    </span>
                  </li>
                ))}
              </ul>
            </details>
          </li>
        ))}
      </ul>
    </>
  );
}
