import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import type { HoursSheetQuery } from '../gql/graphql.js';
import { useAsk } from '../live/ask.js';
import { useDeed } from '../live/deed.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Asked } from '../parts/asked.js';
import { Choice, Field, Tick } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { addDays, sayDay } from '../words/dates.js';
import { sayHours } from './hours-words.js';
import { useOutcome } from './use-outcome.js';

const TurnoutsQuestion = graphql(`
  query TurnoutsForHours($from: LocalDate!, $to: LocalDate!) {
    turnouts(from: $from, to: $to) {
      id
      on
      startTime
      endTime
      cancelled
    }
  }
`);

const SheetQuestion = graphql(`
  query HoursSheet($turnoutId: ID!) {
    hoursSheet(turnoutId: $turnoutId) {
      volunteerId
      name
      taskId
      from
      to
      came
      hasHours
    }
    tasks(first: 200) {
      edges {
        node {
          id
          title
          position
        }
      }
    }
    volunteers(first: 200) {
      edges {
        node {
          id
          name
        }
      }
    }
  }
`);

const EnterHoursDeed = graphql(`
  mutation EnterHours($lines: [HoursLineInput!]!) {
    enterHours(lines: $lines) {
      __typename
      ... on HoursPayload {
        entries {
          id
          minutes
        }
      }
      ...Refused
    }
  }
`);

/** Paper of a turnout, entered in one go: who came is ticked already where it is known. */
export function Sheets({ changed }: { changed: (words: string) => void }) {
  const { today } = useYard();
  const [answer, again] = useAsk(TurnoutsQuestion, { from: addDays(today, -30), to: today }, 'roster');
  const [chosen, setChosen] = useState('');
  return (
    <Asked answer={answer} what="the turnouts" again={again}>
      {({ turnouts }) => {
        const held = turnouts.filter((turnout) => !turnout.cancelled).reverse();
        const turnout = held.find((one) => one.id === chosen);
        return held.length ? (
          <>
            <Choice
              id="sheet-turnout"
              label="Of which turnout"
              value={chosen}
              onChange={(event) => {
                setChosen(event.target.value);
              }}
            >
              <option value="">Choose a day</option>
              {held.map((one) => (
                <option key={one.id} value={one.id}>
                  {sayDay(one.on)}, {one.startTime} to {one.endTime}
                </option>
              ))}
            </Choice>
            {turnout ? (
              <>
                <p>
                  <a href={to('hours', 'list', turnout.id)}>The day’s crew list, for the insurer</a>
                </p>
                <Sheet key={turnout.id} turnout={turnout} changed={changed} />
              </>
            ) : null}
          </>
        ) : (
          <p>No turnout was held in the last thirty days.</p>
        );
      }}
    </Asked>
  );
}

type Line = HoursSheetQuery['hoursSheet'][number];
interface Turnout {
  id: string;
  on: string;
  startTime: string;
  endTime: string;
}

function Sheet({ turnout, changed }: { turnout: Turnout; changed: (words: string) => void }) {
  const [answer, again] = useAsk(SheetQuestion, { turnoutId: turnout.id });
  const [added, setAdded] = useState<string[]>([]);
  const { run, busy } = useDeed(EnterHoursDeed);
  const [fields, setFields] = useState<Record<string, string>>({});
  const { outcome, words, settle } = useOutcome(fields);

  async function send(filled: Filled) {
    const ids = filled.all('who');
    const lines = ids.map((volunteerId) => ({
      volunteerId,
      on: turnout.on,
      from: filled.text(`from-${volunteerId}`),
      to: filled.text(`to-${volunteerId}`),
      taskId: filled.textOrNull(`task-${volunteerId}`),
    }));
    setFields(
      Object.fromEntries(
        ids.flatMap((id, index) =>
          ['from', 'to', 'taskId'].map((field) => [
            `lines[${index}].${field}`,
            `${field.replace('Id', '')}-${id}`,
          ]),
        ),
      ),
    );
    const entered = await run({ lines });
    if (entered.kind === 'done') {
      const minutes = entered.done.entries.reduce((sum, entry) => sum + (entry.minutes ?? 0), 0);
      settle(entered, `${sayHours(minutes)} of ${lines.length} are entered.`);
      changed(`${sayHours(minutes)} are entered for ${sayDay(turnout.on)}.`);
      again();
    } else settle(entered, '');
  }

  return (
    <Asked answer={answer} what="the sheet" again={again}>
      {({ hoursSheet, tasks, volunteers }) => {
        const others = volunteers.edges
          .map((edge) => edge.node)
          .filter((one) => !hoursSheet.some((line) => line.volunteerId === one.id));
        const more = others
          .filter((one) => added.includes(one.id))
          .map((one): Line => ({
            volunteerId: one.id,
            name: one.name,
            taskId: null,
            from: turnout.startTime,
            to: turnout.endTime,
            came: true,
            hasHours: false,
          }));
        return (
          <Form send={send}>
            <Answer outcome={outcome?.kind === 'done' ? null : outcome} done={words} fields={fields} />
            {[...hoursSheet, ...more].map((line) => (
              <SheetLine
                key={`${line.volunteerId} ${String(line.hasHours)}`}
                line={line}
                tasks={tasks.edges.map((edge) => edge.node)}
              />
            ))}
            <Choice
              id="sheet-more"
              label="Somebody else came"
              value=""
              onChange={(event) => {
                const { value } = event.target;
                if (value) setAdded((before) => [...before, value]);
              }}
            >
              <option value="">Choose a name to add a line</option>
              {others
                .filter((one) => !added.includes(one.id))
                .map((one) => (
                  <option key={one.id} value={one.id}>
                    {one.name}
                  </option>
                ))}
            </Choice>
            <button type="submit" className="deed" disabled={busy}>
              Enter the ticked lines
            </button>
          </Form>
        );
      }}
    </Asked>
  );
}

interface SheetLineProps {
  line: Line;
  tasks: readonly { id: string; title: string; position?: string | null }[];
}

function SheetLine({ line, tasks }: SheetLineProps) {
  const { volunteerId: id, name } = line;
  return (
    <div className="sheet-line" role="group" aria-label={name}>
      <Tick
        id={`who-${id}`}
        name="who"
        value={id}
        label={name}
        hint={
          line.hasHours ? 'Has hours in the book for this turnout.' : line.came ? 'Came.' : 'Was expected.'
        }
        defaultChecked={line.came && !line.hasHours}
      />
      <div className="side-by-side">
        <Field id={`from-${id}`} name={`from-${id}`} type="time" label="From" defaultValue={line.from} />
        <Field id={`to-${id}`} name={`to-${id}`} type="time" label="To" defaultValue={line.to} />
        <Choice id={`task-${id}`} name={`task-${id}`} label="On" defaultValue={line.taskId ?? ''}>
          <option value="">no task</option>
          {tasks.map((task) => (
            <option key={task.id} value={task.id}>
              {task.position ? `${task.position}: ` : ''}
              {task.title}
            </option>
          ))}
        </Choice>
      </div>
    </div>
  );
}
