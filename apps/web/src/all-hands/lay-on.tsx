import { useState } from 'react';
import { useAsk } from '../live/ask.js';
import { useDeed } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { type Found, TaskSearch } from '../outlook/task-search.js';
import { Asked } from '../parts/asked.js';
import { Choice, Field } from '../parts/field.js';
import { FoldForm } from '../parts/fold-form.js';
import type { Filled } from '../parts/form.js';
import { AllHandsUsualQuestion, LayOnAllHandsDeed, type Usual } from './all-hands.question.js';
import { type DraftRole, fieldsOf, filledRole, newRole, RoleRow } from './role-row.js';
import '../outlook/outlook.css';

/** Laying an all-hands day on: which day, for which work, with which roles. */
export function LayOn({ changed }: { changed: () => void }) {
  const [answer, again] = useAsk(AllHandsUsualQuestion, {});
  return (
    <Asked answer={answer} what="the usual roles" again={again}>
      {(usual) => <LayOnForm usual={usual} changed={changed} />}
    </Asked>
  );
}

function LayOnForm({ usual, changed }: { usual: Usual; changed: () => void }) {
  const { run } = useDeed(LayOnAllHandsDeed);
  const { today } = useYard();
  const [which, setWhich] = useState(0);
  const [task, setTask] = useState<Found | null>(null);
  const [roles, setRoles] = useState(() => draftOf(usual, 0));
  const seat = task?.seats[0] ?? null;
  const title = usual.usualAllHands[which]?.title ?? '';

  const fields: Record<string, string> = {
    ...{ taskId: 'all-hands-taskId', title: 'all-hands-title', on: 'all-hands-on' },
    ...{ startTime: 'all-hands-startTime', endTime: 'all-hands-endTime', roles: 'all-hands-which' },
    ...fieldsOf(roles),
  };

  function send(filled: Filled) {
    return run({
      input: {
        taskId: task?.id ?? '',
        title: filled.text('title'),
        on: filled.text('on'),
        startTime: filled.text('startTime'),
        endTime: filled.text('endTime'),
        roles: roles.map(({ key }) => filledRole(filled, key)),
      },
    });
  }

  return (
    <FoldForm
      summary="Lay an all-hands day on"
      press="Lay this day on"
      done="The day is laid on, and its places stand open."
      fields={fields}
      changed={changed}
      send={send}
    >
      <Choice
        id="all-hands-which"
        label="What takes all hands"
        hint="Brings the roles that such a day usually has. Change them as your yard does it."
        value={which}
        onChange={(event) => {
          const chosen = Number(event.target.value);
          setWhich(chosen);
          setRoles(draftOf(usual, chosen));
        }}
      >
        {usual.usualAllHands.map((day, i) => (
          <option key={day.title} value={i}>
            {day.title}
          </option>
        ))}
      </Choice>
      <TaskSearch id="all-hands-taskId" chosen={task} choose={setTask} />
      <p className="hint">
        The cards, the age and the cautions of this work hold for everybody on the day. The plan does not know
        of it: work that the plan also gives to a turnout is asked for there too.
      </p>
      <Field key={title} id="all-hands-title" name="title" label="It is called" defaultValue={title} />
      <div className="row">
        <Field id="all-hands-on" name="on" type="date" label="On" defaultValue={today} />
        <Field id="all-hands-startTime" name="startTime" type="time" label="From" defaultValue="07:00" />
        <Field id="all-hands-endTime" name="endTime" type="time" label="To" defaultValue="11:00" />
      </div>
      {roles.map((role) => (
        <RoleRow
          key={`${role.key} ${seat?.skill.id ?? ''}`}
          draft={role}
          seat={seat && { skillId: seat.skill.id, level: seat.level }}
          usual={usual}
          leaveOut={() => {
            setRoles(roles.filter((other) => other !== role));
          }}
        />
      ))}
      <p>
        <button
          type="button"
          className="quiet"
          onClick={() => {
            setRoles([...roles, newRole(roles)]);
          }}
        >
          Another role
        </button>
      </p>
    </FoldForm>
  );
}

const draftOf = (usual: Usual, which: number): DraftRole[] =>
  (usual.usualAllHands[which]?.roles ?? []).map((role, i) => ({ ...role, key: `role-${which}-${i}` }));
