import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { useDeed } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Asked } from '../parts/asked.js';
import { Choice, Field, Note } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { addDays, dayOf, sayShortDay } from '../words/dates.js';
import { useOutcome } from '../hours/use-outcome.js';
import type { Incident } from './safety.question.js';

const AssignIncidentDeed = graphql(`
  mutation AssignIncident($id: ID!, $version: Int!, $ownerId: ID!, $followUp: String!, $dueOn: LocalDate!) {
    assignIncident(id: $id, version: $version, ownerId: $ownerId, followUp: $followUp, dueOn: $dueOn) {
      __typename
      ...Refused
    }
  }
`);

const CloseIncidentDeed = graphql(`
  mutation CloseIncident($id: ID!, $version: Int!, $outcome: String!) {
    closeIncident(id: $id, version: $version, outcome: $outcome) {
      __typename
      ...Refused
    }
  }
`);

const PeopleQuestion = graphql(`
  query PeopleForIncidents {
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

const kindWords = { NEAR_MISS: 'A near miss', HURT: 'Somebody was hurt', DAMAGE: 'Something was damaged' };

interface IncidentProps {
  incident: Incident;
  mayAssign: boolean;
  changed: (words: string) => void;
}

/** One report: what, where, whose it is, what was done. */
export function IncidentLine({ incident, mayAssign, changed }: IncidentProps) {
  const { me, timeZone, today } = useYard();
  const mayClose = mayAssign || incident.owner?.volunteerId === me.volunteer?.id;
  const late = !incident.closedAt && typeof incident.dueOn === 'string' && incident.dueOn < today;
  return (
    <article>
      <p>
        <span className="pencil">{sayShortDay(dayOf(incident.reportedAt, timeZone), today)}</span>{' '}
        <strong>{kindWords[incident.kind]}</strong>, {incident.place}. {incident.what}{' '}
        <span className="pencil">Reported by {incident.reportedBy}.</span>
      </p>
      {incident.who ? <p>Who: {incident.who}</p> : null}
      {incident.photograph ? (
        <img
          className="incident-picture"
          src={incident.photograph}
          alt={`Photograph with the report: ${incident.what}`}
        />
      ) : null}
      {incident.owner && incident.dueOn ? (
        <p className={late ? 'gap' : ''}>
          {incident.owner.name} sees to it by {sayShortDay(incident.dueOn, today)}: {incident.followUp}
        </p>
      ) : incident.closedAt ? null : (
        <p className="gap">Nobody sees to it yet.</p>
      )}
      {incident.closedAt ? (
        <p>
          Closed by {incident.closedBy}: {incident.outcome}
        </p>
      ) : (
        <>
          {mayAssign ? (
            <details className="fold">
              <summary>{incident.owner ? 'Give it to somebody else' : 'Give it to somebody'}</summary>
              <Assign incident={incident} changed={changed} />
            </details>
          ) : null}
          {mayClose ? (
            <details className="fold">
              <summary>Close it</summary>
              <CloseIt incident={incident} changed={changed} />
            </details>
          ) : null}
        </>
      )}
    </article>
  );
}

type Part = Pick<IncidentProps, 'incident' | 'changed'>;

function Assign({ incident, changed }: Part) {
  const { today } = useYard();
  const [answer, again] = useAsk(PeopleQuestion, {});
  const { run, busy } = useDeed(AssignIncidentDeed);
  const id = (name: string) => `${incident.id}-${name}`;
  const fields = { ownerId: id('owner'), followUp: id('todo'), dueOn: id('due') };
  const { outcome, words, wrong, settle } = useOutcome(fields);

  async function send(filled: Filled) {
    const given = await run({
      id: incident.id,
      version: incident.version,
      ownerId: filled.text('owner'),
      followUp: filled.text('todo'),
      dueOn: filled.text('due'),
    });
    if (settle(given, 'It is given.')) changed('It is given to somebody, who is told.');
  }

  return (
    <Asked answer={answer} what="the people" again={again}>
      {({ volunteers }) => (
        <Form send={send}>
          <Answer outcome={outcome?.kind === 'done' ? null : outcome} done={words} fields={fields} />
          <Choice id={id('owner')} name="owner" label="Who sees to it" wrong={wrong(id('owner'))}>
            {volunteers.edges.map(({ node }) => (
              <option key={node.id} value={node.id}>
                {node.name}
              </option>
            ))}
          </Choice>
          <Field id={id('todo')} name="todo" label="What is to be done" wrong={wrong(id('todo'))} />
          <Field
            id={id('due')}
            name="due"
            type="date"
            label="By when"
            defaultValue={addDays(today, 7)}
            wrong={wrong(id('due'))}
          />
          <button type="submit" className="deed" disabled={busy}>
            Give it
          </button>
        </Form>
      )}
    </Asked>
  );
}

function CloseIt({ incident, changed }: Part) {
  const { run, busy } = useDeed(CloseIncidentDeed);
  const control = `${incident.id}-outcome`;
  const fields = { outcome: control };
  const { outcome, words, wrong, settle } = useOutcome(fields);

  async function send(filled: Filled) {
    const { id, version } = incident;
    if (settle(await run({ id, version, outcome: filled.text('outcome') }), 'Closed.'))
      changed('It is closed, with what was done.');
  }

  return (
    <Form send={send}>
      <Answer outcome={outcome?.kind === 'done' ? null : outcome} done={words} fields={fields} />
      <Note id={control} name="outcome" label="What was done" wrong={wrong(control)} />
      <button type="submit" className="deed" disabled={busy}>
        Close it
      </button>
    </Form>
  );
}
