import { useState } from 'react';
import { useAsk } from '../live/ask.js';
import { type KeptOutcome, useKeptDeed } from '../live/kept-deeds.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Choice, Field, Note } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { dayOf, timeOf } from '../words/dates.js';
import { type Fire, PeopleToWatchQuestion, WriteFireWatchDeed } from './fire-watch.question.js';

const done = 'The watch is written down.';

/** Who watches, the last spark, the later look. Pressed without a line it waits on the phone. */
export function WatchForm({ fire, changed }: { fire: Fire; changed: () => void }) {
  const { me, timeZone } = useYard();
  const { run, busy } = useKeptDeed(WriteFireWatchDeed);
  const [outcome, setOutcome] = useState<KeptOutcome<unknown> | null>(null);
  const { task, turnout } = fire;
  const [now] = fire.written;
  const id = (name: string) => `${task.id}-${name}`;
  const fields = {
    'input.watchId': id('watch'),
    'input.lastSpark': id('spark'),
    'input.looked': id('look-time'),
    'input.lookDue': id('look-time'),
    'input.lookBy': id('look-by'),
    'input.found': id('found'),
    'input.notLit': id('not-lit'),
    'input.reason': id('reason'),
  };
  const look = now?.lookedAt ?? now?.lookDueAt;

  async function send(filled: Filled) {
    const moment = (on: string, time: string) => (time === '' ? null : { on, time });
    const notLit = filled.textOrNull('not-lit');
    const found = filled.textOrNull('found');
    const lookAt = moment(filled.text('look-on'), filled.text('look-time'));
    const input = {
      turnoutId: turnout.id,
      taskId: task.id,
      version: now?.version ?? 0,
      watchId: notLit ? null : filled.textOrNull('watch'),
      notLit,
      lastSpark: moment(filled.text('spark-on') || turnout.on, filled.text('spark')),
      lookBy: filled.textOrNull('look-by'),
      lookDue: found ? null : lookAt,
      looked: found ? lookAt : null,
      found,
      reason: filled.textOrNull('reason'),
    };
    const answer = await run({ input }, { what: `Fire watch on ${task.title}`, done });
    setOutcome(answer);
    if (answer.kind === 'done') changed();
  }

  return (
    <>
      <Answer outcome={outcome} done={done} fields={fields} />
      <details className="fold" open={!now}>
        <summary>{now ? 'Write on' : 'Write the watch down'}</summary>
        <Form key={now?.version ?? 0} send={send}>
          <WhoWatches id={id('watch')} fire={fire} />
          <Field
            id={id('spark')}
            name="spark"
            type="time"
            label="Last spark"
            hint={`The watch stays ${fire.minutes} minutes after it.`}
            defaultValue={now?.lastSparkAt ? timeOf(now.lastSparkAt, timeZone) : ''}
          />
          <Field
            id={id('spark-on')}
            name="spark-on"
            type="date"
            label="Its day"
            defaultValue={now?.lastSparkAt ? dayOf(now.lastSparkAt, timeZone) : turnout.on}
          />
          <Field
            id={id('look-by')}
            name="look-by"
            label="Later look: who"
            defaultValue={now?.lookBy ?? (now?.lastSparkAt ? me.account.name : '')}
          />
          <Field
            id={id('look-on')}
            name="look-on"
            type="date"
            label="On"
            defaultValue={look ? dayOf(look, timeZone) : turnout.on}
          />
          <Field
            id={id('look-time')}
            name="look-time"
            type="time"
            label="At"
            defaultValue={look ? timeOf(look, timeZone) : ''}
          />
          <Note
            id={id('found')}
            name="found"
            label="What the later look found"
            hint="Leave it empty while the look is still to come."
            defaultValue={now?.found ?? ''}
          />
          <Field
            id={id('not-lit')}
            name="not-lit"
            label="Or: no hot work was done, because"
            defaultValue={now?.notLit ?? ''}
          />
          {now ? (
            <Field
              id={id('reason')}
              name="reason"
              label="Why it reads otherwise than before"
              hint="Only where something that was written is changed. What was written stays readable."
            />
          ) : null}
          <button type="submit" className="deed" disabled={busy}>
            {busy ? 'Writing…' : 'Write it down'}
          </button>
        </Form>
      </details>
    </>
  );
}

interface WhoProps {
  id: string;
  fire: Fire;
}

/** The lead names anybody, those with a card for the watch first; the watch names itself. */
function WhoWatches(props: WhoProps) {
  const { me } = useYard();
  if (me.role !== 'VOLUNTEER') return <AnybodyWatches {...props} />;
  const own = me.volunteer ? [{ volunteerId: me.volunteer.id, name: me.account.name }] : [];
  return <ChooseWatch {...props} people={own} chosen={own[0]?.volunteerId} />;
}

function AnybodyWatches(props: WhoProps) {
  const [answer] = useAsk(PeopleToWatchQuestion, {});
  const all = answer.data?.volunteers.edges.map(({ node }) => ({ volunteerId: node.id, name: node.name }));
  return <ChooseWatch {...props} people={[...props.fire.couldWatch, ...(all ?? [])]} chosen="" />;
}

function ChooseWatch({
  id,
  fire,
  people,
  chosen,
}: WhoProps & { people: Fire['couldWatch']; chosen: string | undefined }) {
  const named = fire.written[0]?.watch ?? null;
  const all = [...(named ? [named] : []), ...people];
  const each = [...new Map(all.map((one) => [one.volunteerId, one])).values()];
  return (
    <Choice
      key={each.length}
      id={id}
      name="watch"
      label="Who watches, with no other duty"
      defaultValue={named?.volunteerId ?? chosen ?? ''}
    >
      <option value="">Nobody yet</option>
      {each.map(({ volunteerId, name }) => (
        <option key={volunteerId} value={volunteerId}>
          {name}
          {fire.couldWatch.some((one) => one.volunteerId === volunteerId) ? ' (has the card)' : ''}
        </option>
      ))}
    </Choice>
  );
}
