import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import type { SupposedInput, SupposedKind, WhatIfsQuery } from '../gql/graphql.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Choice, Field } from '../parts/field.js';
import { Filled, Form } from '../parts/form.js';
import { addDays, sayDay } from '../words/dates.js';
import { changesAsked, type Listed } from './changes-asked.js';
import { TaskSearch } from './task-search.js';

const AskWhatIfDeed = graphql(`
  mutation AskWhatIf($name: String!, $changes: [SupposedInput!]!) {
    askWhatIf(name: $name, changes: $changes) {
      __typename
      ... on WhatIfPayload {
        whatIf {
          id
        }
      }
      ...Refused
    }
  }
`);

type Known = Pick<WhatIfsQuery, 'skills' | 'tools' | 'volunteers'>;

const kinds: Record<SupposedKind, string> = {
  RECRUIT: 'One more person, asked or hired',
  TRAIN: 'Somebody teaches somebody else',
  TURNOUTS: 'A further turnout each week',
  TOOL: 'More of a tool',
  DROP: 'Work left out',
  SOONER: 'What work waits for comes sooner',
  LATE: 'What work waits for comes late',
};

const weekdays = ['Mondays', 'Tuesdays', 'Wednesdays', 'Thursdays', 'Fridays', 'Saturdays', 'Sundays'];

/** The most that one question may hold. */
const mostChanges = 10;

/** One change or several: each is added to the list, and all are reckoned together. */
export function Try({ data, asked }: { data: Known; asked: () => void }) {
  const { run, busy } = useDeed(AskWhatIfDeed);
  const [kind, setKind] = useState<SupposedKind>('RECRUIT');
  const [listed, setListed] = useState<Listed[]>([]);
  const [added, setAdded] = useState<Listed | null>(null);
  const [work, setWork] = useState<{ id: string; title: string } | null>(null);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const ofForm = (filled: Filled): Listed => ({
    change: changeOf(kind, filled, work?.id ?? null),
    words: wordsOf(kind, filled, data, work?.title ?? null),
  });
  async function submit(filled: Filled) {
    const changes = changesAsked(listed, ofForm(filled), added);
    const answer = await run({
      name: filled.text('name'),
      changes: changes.map(({ change }) => change),
    });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    setListed([]);
    setAdded(null);
    asked();
  }
  return (
    <Form send={submit}>
      <Answer
        outcome={outcome}
        done="It is being reckoned; the answer appears below within a minute."
        fields={fieldsOf(listed.length + 1)}
      />
      <Choice
        id="if-kind"
        name="kind"
        label="What would be different"
        value={kind}
        onChange={(event) => {
          setKind(event.target.value as SupposedKind);
        }}
      >
        {Object.entries(kinds).map(([value, words]) => (
          <option key={value} value={value}>
            {words}
          </option>
        ))}
      </Choice>
      {kind === 'DROP' || kind === 'LATE' || kind === 'SOONER' ? (
        <TaskSearch id="if-task" leavesOut={kind === 'DROP'} chosen={work} choose={setWork} />
      ) : null}
      <Particulars kind={kind} data={data} />
      {listed.length ? (
        <ol aria-label="Changes that are reckoned together">
          {listed.map(({ words }, index) => (
            <li key={`${index} ${words}`}>
              {words}{' '}
              <button
                type="button"
                className="quiet"
                aria-label={`Leave out of the question: ${words}`}
                onClick={() => {
                  setListed(listed.filter((_, at) => at !== index));
                }}
              >
                Leave out
              </button>
            </li>
          ))}
        </ol>
      ) : null}
      <p>
        <button
          type="button"
          className="quiet"
          disabled={listed.length >= mostChanges}
          onClick={(event) => {
            const { form } = event.currentTarget;
            if (!form) return;
            const one = ofForm(new Filled(form));
            setListed([...listed, one]);
            setAdded(one);
          }}
        >
          Add it, and another change
        </button>
      </p>
      <Field id="if-name" name="name" label="Call it" maxLength={120} hint="A few words to find it by." />
      <button type="submit" className="deed" disabled={busy}>
        {listed.length > 0 ? 'Reckon all of it together' : 'Reckon it'}
      </button>
    </Form>
  );
}

/** Fields of the API by the ids of the controls, whichever change is wrong. */
function fieldsOf(many: number): Record<string, string> {
  const own = {
    taskIds: 'if-task',
    days: 'if-days',
    untilOn: 'if-until',
    skillId: 'if-skill',
    weekdays: 'if-weekday',
    toolId: 'if-tool',
    more: 'if-more',
    volunteerId: 'if-learner',
    trainerId: 'if-trainer',
    level: 'if-level',
  };
  const all = Array.from({ length: many }, (_, at) =>
    Object.entries(own).map(([field, id]) => [`changes.${at}.${field}`, id] as const),
  ).flat();
  return Object.fromEntries([...all, ['name', 'if-name'] as const]);
}

function Particulars({ kind, data }: { kind: SupposedKind; data: Known }) {
  const { today, haulOut } = useYard();
  switch (kind) {
    case 'DROP':
      return null;
    case 'LATE':
    case 'SOONER':
      return (
        <Field
          id="if-days"
          name="days"
          type="number"
          min={1}
          label={kind === 'LATE' ? 'Days late' : 'Days sooner'}
          defaultValue={kind === 'LATE' ? 28 : 14}
        />
      );
    case 'TOOL':
      return (
        <div className="side-by-side">
          <Choice id="if-tool" name="tool" label="Which tool">
            {data.tools.map((tool) => (
              <option key={tool.id} value={tool.id}>
                {tool.name}
              </option>
            ))}
          </Choice>
          <Field id="if-more" name="more" type="number" min={1} label="How many more" defaultValue={1} />
        </div>
      );
    case 'TRAIN':
      return (
        <>
          <SkillAndLevel data={data} label="What is taught" />
          <div className="side-by-side">
            <People id="if-learner" name="learner" label="Who learns" data={data} />
            <People id="if-trainer" name="trainer" label="Who teaches" data={data} />
          </div>
        </>
      );
    case 'TURNOUTS':
    case 'RECRUIT':
      return (
        <>
          <Choice id="if-weekday" name="weekday" label="On" defaultValue={6}>
            {weekdays.map((name, index) => (
              <option key={name} value={index + 1}>
                {name}
              </option>
            ))}
          </Choice>
          <div className="side-by-side">
            <Field id="if-from" name="from" type="date" label="From" defaultValue={today} />
            <Field
              id="if-until"
              name="until"
              type="date"
              label="Until"
              defaultValue={haulOut?.gate.on ?? addDays(today, 90)}
            />
          </div>
          {kind === 'RECRUIT' ? <SkillAndLevel data={data} label="Who can do" /> : null}
        </>
      );
  }
}

function SkillAndLevel({ data, label }: { data: Known; label: string }) {
  return (
    <div className="side-by-side">
      <Choice id="if-skill" name="skill" label={label}>
        {data.skills.map((skill) => (
          <option key={skill.id} value={skill.id}>
            {skill.name}
          </option>
        ))}
      </Choice>
      <Choice id="if-level" name="level" label="How well" defaultValue={2}>
        <option value={1}>learning</option>
        <option value={2}>works alone</option>
        <option value={3}>teaches</option>
        <option value={4}>may say so</option>
      </Choice>
    </div>
  );
}

function People({ data, ...control }: { data: Known; id: string; name: string; label: string }) {
  return (
    <Choice {...control}>
      {data.volunteers.nodes.map((one) => (
        <option key={one.id} value={one.id}>
          {one.name}
        </option>
      ))}
    </Choice>
  );
}

function changeOf(kind: SupposedKind, filled: Filled, taskId: string | null): SupposedInput {
  const span = () => ({
    weekdays: [filled.number('weekday')],
    fromOn: filled.textOrNull('from'),
    untilOn: filled.textOrNull('until'),
  });
  const taskIds = taskId === null ? [] : [taskId];
  switch (kind) {
    case 'DROP':
      return { kind, taskIds };
    case 'LATE':
    case 'SOONER':
      return { kind, taskIds, days: filled.number('days') };
    case 'TOOL':
      return { kind, toolId: filled.textOrNull('tool'), more: filled.number('more') };
    case 'TRAIN':
      return {
        kind,
        skillId: filled.textOrNull('skill'),
        level: filled.number('level'),
        volunteerId: filled.textOrNull('learner'),
        trainerId: filled.textOrNull('trainer'),
      };
    case 'TURNOUTS':
      return { kind, ...span() };
    case 'RECRUIT':
      return { kind, ...span(), skillId: filled.textOrNull('skill'), level: filled.number('level') };
  }
}

/** What was put on the list, to be told from the others there. */
function wordsOf(kind: SupposedKind, filled: Filled, data: Known, work: string | null): string {
  const named = (list: { id: string; name: string }[], control: string) =>
    list.find(({ id }) => id === filled.text(control))?.name ?? '';
  const day = (control: string) => (filled.text(control) ? sayDay(filled.text(control)) : '…');
  const when = () =>
    `${weekdays[filled.number('weekday') - 1] ?? ''} from ${day('from')} until ${day('until')}`;
  switch (kind) {
    case 'DROP':
      return `${kinds[kind]}: ${work ?? 'none chosen'}`;
    case 'LATE':
    case 'SOONER':
      return `${kinds[kind]}: ${work ?? 'none chosen'}, ${filled.text('days')} days`;
    case 'TOOL':
      return `${filled.text('more')} more ${named(data.tools, 'tool')}`;
    case 'TRAIN':
      return `${named(data.volunteers.nodes, 'trainer')} teaches ${named(data.volunteers.nodes, 'learner')}: ${named(data.skills, 'skill')}`;
    case 'TURNOUTS':
      return `${kinds[kind]}: ${when()}`;
    case 'RECRUIT':
      return `${kinds[kind]}: ${named(data.skills, 'skill')}, ${when()}`;
  }
}
