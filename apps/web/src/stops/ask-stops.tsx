import { useState } from 'react';
import { useAsk } from '../live/ask.js';
import { useDeed } from '../live/deed.js';
import { Asked } from '../parts/asked.js';
import { Choice, Note } from '../parts/field.js';
import { FoldForm } from '../parts/fold-form.js';
import { Section } from '../parts/page.js';
import { OverrideStopDeed, StopsQuestion, type FoundStop, type StopTurnout } from './stops.question.js';

interface AskStopsProps {
  turnout: StopTurnout;
  people: { id: string; name: string }[];
  changed: () => void;
}

/** Who on what: then what stops them there, and setting it aside where one may. */
export function AskStops({ turnout, people, changed }: AskStopsProps) {
  const tasks = [...new Map(turnout.places.map(({ task }) => [task.id, task])).values()];
  const [taskId, setTask] = useState('');
  const [volunteerId, setPerson] = useState('');
  return (
    <Section title="What stops somebody" id="ask-stops">
      {tasks.length ? (
        <>
          <Choice
            id="stops-task"
            label="On which work"
            value={taskId}
            onChange={(event) => {
              setTask(event.target.value);
            }}
          >
            <option value="">Choose the work</option>
            {tasks.map(({ id, title }) => (
              <option key={id} value={id}>
                {title}
              </option>
            ))}
          </Choice>
          <Choice
            id="stops-person"
            label="Whom"
            value={volunteerId}
            onChange={(event) => {
              setPerson(event.target.value);
            }}
          >
            <option value="">Choose the person</option>
            {[...people]
              .sort((a, b) => a.name.localeCompare(b.name))
              .map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
          </Choice>
          {taskId && volunteerId ? (
            <Stops at={{ turnoutId: turnout.id, taskId, volunteerId }} changed={changed} />
          ) : null}
        </>
      ) : (
        <p>Nothing is posted at this turnout yet.</p>
      )}
    </Section>
  );
}

interface At {
  turnoutId: string;
  taskId: string;
  volunteerId: string;
}

function Stops({ at, changed }: { at: At; changed: () => void }) {
  const [answer, again] = useAsk(StopsQuestion, at, 'either');
  return (
    <Asked answer={answer} what="what stops them" again={again}>
      {({ stopsFor }) =>
        stopsFor.length ? (
          <ul className="plain">
            {stopsFor.map((stop) => (
              <li key={stop.rule}>
                <p className="gap">{stop.words}</p>
                {stop.remedy ? <p>{stop.remedy}</p> : null}
                {stop.mayOverride ? (
                  <SetAside
                    at={at}
                    stop={stop}
                    changed={() => {
                      again();
                      changed();
                    }}
                  />
                ) : (
                  <p className="pencil">Set aside by {stop.setAsideBy}.</p>
                )}
              </li>
            ))}
          </ul>
        ) : (
          <p role="status">
            Nothing on record stops them there. That does not say that the work is harmless.
          </p>
        )
      }
    </Asked>
  );
}

function SetAside({ at, stop, changed }: { at: At; stop: FoundStop; changed: () => void }) {
  const { run } = useDeed(OverrideStopDeed);
  const id = `set-aside-${stop.rule}`;
  return (
    <FoldForm
      summary="Set it aside for them here, in my name"
      press="Set it aside"
      done="It is set aside and on the record."
      fields={{ reason: id }}
      changed={changed}
      send={(filled) => run({ input: { ...at, rule: stop.rule, reason: filled.text('reason') } })}
    >
      <Note
        id={id}
        name="reason"
        label="Why it may be, and what is done instead"
        hint="The person reads it, and so does everybody who runs the yard."
      />
    </FoldForm>
  );
}
