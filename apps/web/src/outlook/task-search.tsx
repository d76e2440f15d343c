import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { Field } from '../parts/field.js';

const TaskSearchQuestion = graphql(`
  query TaskSearch($words: String!) {
    tasks(first: 12, words: $words) {
      nodes {
        id
        title
        kind
        position
        seats {
          level
          skill {
            id
          }
        }
      }
      totalCount
    }
  }
`);

export interface Found {
  id: string;
  title: string;
  /** The skills that it asks for. */
  seats: { level: number; skill: { id: string } }[];
}

interface TaskSearchProps {
  id: string;
  /** Whether it is to be left out: a say-so is not, nor the launch. */
  leavesOut?: boolean;
  chosen: Pick<Found, 'id' | 'title'> | null;
  choose: (task: Found | null) => void;
}

/** One piece of work out of all of them, found by words of its title and place. */
export function TaskSearch({ id, leavesOut = false, chosen, choose }: TaskSearchProps) {
  const [words, setWords] = useState('');
  return (
    <fieldset className="task-search">
      <legend>Which work</legend>
      <Field
        id={id}
        type="search"
        label="Find it"
        hint="Words of its name and place: frame 12, caulk…"
        value={words}
        onChange={(event) => {
          setWords(event.target.value);
        }}
      />
      {chosen ? <p role="status">Chosen: {chosen.title}</p> : null}
      {words.trim() ? (
        <Matches words={words.trim()} leavesOut={leavesOut} chosen={chosen} choose={choose} />
      ) : null}
    </fieldset>
  );
}

function Matches({ words, leavesOut, chosen, choose }: { words: string } & Omit<TaskSearchProps, 'id'>) {
  const [answer] = useAsk(TaskSearchQuestion, { words });
  const tasks = answer.data?.tasks;
  if (!tasks) return null;
  const offered = tasks.nodes.filter(({ kind }) => !leavesOut || (kind !== 'HOLD' && kind !== 'LAUNCH'));
  if (tasks.nodes.length === 0) return <p>No work has such a name.</p>;
  const more = tasks.totalCount - tasks.nodes.length;
  return (
    <>
      {offered.map((task) => {
        const title = task.position ? `${task.title}, ${task.position}` : task.title;
        return (
          <label key={task.id} className="task-match">
            <input
              type="radio"
              name="task"
              value={task.id}
              checked={chosen?.id === task.id}
              onChange={() => {
                choose({ id: task.id, title, seats: task.seats });
              }}
            />
            {title}
          </label>
        );
      })}
      {offered.length < tasks.nodes.length ? (
        <p className="pencil">Say-sos and the launch are not left out to be sooner.</p>
      ) : null}
      {more > 0 ? <p className="pencil">and {more} more: add another word of its name.</p> : null}
    </>
  );
}
