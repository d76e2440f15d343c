import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import type { ClosedDaysQuery, ClosureInput, HolidaysInFileMutation } from '../gql/graphql.js';
import { useAsk } from '../live/ask.js';
import { useDeed, type Done, type Outcome } from '../live/deed.js';
import { to } from '../live/route.js';
import { Answer } from '../parts/answer.js';
import { Asked, Nothing } from '../parts/asked.js';
import { CalendarFile } from '../parts/calendar-file.js';
import { Field, Tick } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { Page, Section } from '../parts/page.js';
import { count, list } from '../words/amounts.js';
import { addDays, sayDay, sayShortDay } from '../words/dates.js';

const ClosedDaysQuestion = graphql(`
  query ClosedDays {
    closedDays {
      id
      on
      reason
    }
  }
`);

const CloseDaysDeed = graphql(`
  mutation CloseDays($closures: [ClosureInput!]!, $keepTurnouts: Boolean!) {
    closeDays(closures: $closures, keepTurnouts: $keepTurnouts) {
      __typename
      ... on ClosedDaysPayload {
        closedDays {
          id
        }
        turnouts {
          id
          on
          cancelled
        }
      }
      ...Refused
    }
  }
`);

const ReopenDaysDeed = graphql(`
  mutation ReopenDays($fromOn: LocalDate!, $toOn: LocalDate!) {
    reopenDays(fromOn: $fromOn, toOn: $toOn) {
      __typename
      ... on ClosedDaysPayload {
        closedDays {
          id
        }
      }
      ...Refused
    }
  }
`);

const HolidaysInFileDeed = graphql(`
  mutation HolidaysInFile($text: String!) {
    previewHolidays(text: $text) {
      __typename
      ... on HolidaysPreview {
        holidays {
          fromOn
          toOn
          name
        }
      }
      ...Refused
    }
  }
`);

type Holidays = Done<HolidaysInFileMutation>['holidays'];
type CloseDays = (closures: ClosureInput[], keepTurnouts: boolean) => Promise<boolean>;

/** The yard's holidays: closed by hand or from a calendar file, and opened again. */
export function ClosedDays() {
  const [answer, again] = useAsk(ClosedDaysQuestion, {}, 'roster');
  const closing = useDeed(CloseDaysDeed);
  const opening = useDeed(ReopenDaysDeed);
  const [settled, setSettled] = useState<{ outcome: Outcome<unknown>; words: string } | null>(null);

  const close: CloseDays = async (closures, keepTurnouts) => {
    const outcome = await closing.run({ closures, keepTurnouts });
    const words = outcome.kind === 'done' ? sayClosed(outcome.done) : '';
    setSettled({ outcome, words });
    again();
    return outcome.kind === 'done';
  };

  async function open({ fromOn, toOn }: Group) {
    const outcome = await opening.run({ fromOn, toOn });
    setSettled({ outcome, words: 'Opened again: turnouts follow the rules there once more.' });
    again();
  }

  return (
    <Page
      title="Closed days"
      lead={<p>No turnout is laid out on them, and nobody is counted on who has not said that they come.</p>}
    >
      <p>
        <a href={to('week')}>Back to the week</a>
      </p>
      <Answer
        outcome={settled?.outcome ?? null}
        done={settled?.words ?? ''}
        fields={{ name: 'closed-name', fromOn: 'closed-from', toOn: 'closed-to', text: 'closed-file' }}
      />
      <CloseForm close={close} busy={closing.busy} />
      <FromFile close={close} busy={closing.busy} />
      <Section title="The yard is closed" id="closed">
        <Asked answer={answer} what="the closed days" again={again}>
          {({ closedDays }) =>
            closedDays.length ? (
              <ul className="plain">
                {grouped(closedDays).map((group) => (
                  <li key={group.fromOn}>
                    {saySpan(group)}
                    {group.name ? `: ${group.name}` : ''}{' '}
                    <button
                      type="button"
                      className="quiet"
                      disabled={opening.busy}
                      onClick={() => void open(group)}
                    >
                      Open again<span className="unseen">, {saySpan(group)}</span>
                    </button>
                  </li>
                ))}
              </ul>
            ) : (
              <Nothing>
                <p>No day is closed.</p>
              </Nothing>
            )
          }
        </Asked>
      </Section>
    </Page>
  );
}

function CloseForm({ close, busy }: { close: CloseDays; busy: boolean }) {
  async function send(filled: Filled) {
    const fromOn = filled.text('from');
    const closure = {
      fromOn,
      toOn: filled.text('to') || fromOn,
      name: filled.textOrNull('name'),
      yearly: filled.ticked('yearly'),
    };
    if (await close([closure], filled.ticked('keep'))) filled.form.reset();
  }
  return (
    <details className="fold">
      <summary>Close the yard</summary>
      <Form send={send}>
        <Field id="closed-name" name="name" label="What it is called, or why" />
        <div className="row">
          <Field id="closed-from" name="from" type="date" label="From" />
          <Field id="closed-to" name="to" type="date" label="To" hint="Leave empty for one day." />
        </div>
        <Tick id="closed-yearly" name="yearly" label="Every year" hint="As far as turnouts are laid out." />
        <KeepTick id="closed-keep" />
        <button type="submit" className="deed" disabled={busy}>
          Close these days
        </button>
      </Form>
    </details>
  );
}

const KeepTick = ({ id }: { id: string }) => (
  <Tick
    id={id}
    name="keep"
    label="Hold turnouts all the same to which people are posted"
    hint="Without it they are called off, and their people are told."
  />
);

/** Holidays as a calendar file has them: looked at first, closed then. */
function FromFile({ close, busy }: { close: CloseDays; busy: boolean }) {
  const { run, busy: reading } = useDeed(HolidaysInFileDeed);
  const [found, setFound] = useState<Holidays | null>(null);

  async function look(text: string) {
    const answer = await run({ text });
    setFound(answer.kind === 'done' ? answer.done.holidays : null);
    return answer;
  }

  return (
    <CalendarFile
      id="closed-file"
      summary="Take holidays from a calendar file"
      hint="Its whole days count; what takes hours only is passed over."
      busy={reading}
      look={look}
    >
      {found ? (
        <Form
          send={async (filled) => {
            const ticked = new Set(filled.all('holiday'));
            const closures = found
              .filter((_, i) => ticked.has(String(i)))
              .map(({ fromOn, toOn, name }) => ({ fromOn, toOn, name: name || null, yearly: false }));
            if (await close(closures, filled.ticked('keep'))) setFound(null);
          }}
        >
          <p role="status">{count(found.length, 'holiday')} in it from today on.</p>
          {found.map((one, i) => (
            <Tick
              key={one.fromOn + one.name}
              id={`holiday-${i}`}
              name="holiday"
              value={String(i)}
              defaultChecked
              label={`${saySpan(one)}${one.name ? `: ${one.name}` : ''}`}
            />
          ))}
          {found.length ? (
            <>
              <KeepTick id="closed-file-keep" />
              <button type="submit" className="deed" disabled={busy}>
                Close the yard on them
              </button>
            </>
          ) : null}
        </Form>
      ) : null}
    </CalendarFile>
  );
}

interface Group {
  fromOn: string;
  toOn: string;
  name: string | null | undefined;
}

/** Days that follow one another under one name stand together. */
function grouped(days: ClosedDaysQuery['closedDays']): Group[] {
  const groups: Group[] = [];
  for (const { on, reason } of days) {
    const last = groups.at(-1);
    if (last && last.name === reason && addDays(last.toOn, 1) === on) last.toOn = on;
    else groups.push({ fromOn: on, toOn: on, name: reason });
  }
  return groups;
}

const saySpan = ({ fromOn, toOn }: Pick<Group, 'fromOn' | 'toOn'>): string =>
  fromOn === toOn
    ? `${sayDay(fromOn)} ${fromOn.slice(0, 4)}`
    : `${sayShortDay(fromOn)} to ${sayShortDay(toOn)} ${toOn.slice(0, 4)}`;

/** "3 days are closed. The turnout of Saturday 26 December is called off." */
function sayClosed({
  closedDays,
  turnouts,
}: {
  closedDays: readonly unknown[];
  turnouts: readonly { on: string; cancelled: boolean }[];
}): string {
  const closed = `${count(closedDays.length, 'day')} closed.`;
  const [first] = turnouts;
  if (!first) return `${closed} No turnout with people fell on them.`;
  const which = list(turnouts.map(({ on }) => sayDay(on)));
  return `${closed} ${count(turnouts.length, 'turnout')} fell on them and ${first.cancelled ? 'are called off' : 'are kept'}: ${which}.`;
}
