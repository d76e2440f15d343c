import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import { useSay } from '../live/announcer.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { Section } from '../parts/page.js';
import { sayAttendance, sayException, type Exception, type Rule } from '../words/attendance.js';
import { capital } from '../words/amounts.js';
import { AddAway } from './add-away.js';
import { ImportFile } from './import-file.js';
import { AddRule } from './add-rule.js';
import type { Person } from './days.question.js';

const SetAvailabilityDeed = graphql(`
  mutation SetAvailability(
    $volunteerId: ID!
    $version: Int!
    $rules: [AvailabilityRuleInput!]!
    $exceptions: [AvailabilityExceptionInput!]!
  ) {
    setAvailability(volunteerId: $volunteerId, version: $version, rules: $rules, exceptions: $exceptions) {
      __typename
      ...Refused
    }
  }
`);

const fields = { rules: 'rule-rhythm', exceptions: 'away-from', toOn: 'away-to', untilOn: 'rule-until' };

/** Each change is saved at once: there is nothing to forget. */
export function EditDays({ person, saved }: { person: Person; saved: () => void }) {
  const { run, busy } = useDeed(SetAvailabilityDeed);
  const say = useSay();
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const rules = person.availability.rules.map(plainRule);
  const exceptions = person.availability.exceptions.map(plainException);

  async function save(nextRules: Rule[], nextExceptions: Exception[]): Promise<boolean> {
    const answer = await run({
      volunteerId: person.id,
      version: person.version,
      rules: nextRules,
      exceptions: nextExceptions,
    });
    setOutcome(answer);
    saved();
    if (answer.kind === 'done') say('Saved. The plan is being reckoned with it.');
    return answer.kind === 'done';
  }

  return (
    <>
      <Answer outcome={outcome} done="Saved. The plan is being reckoned with it." fields={fields} />
      <Section title="Days to come" id="days">
        <Kept
          items={rules.map((rule) => capital(sayAttendance(rule)))}
          none="No days are said yet: the plan does not count on you."
          busy={busy}
          take={(index) =>
            void save(
              rules.filter((_, at) => at !== index),
              exceptions,
            )
          }
        />
        <AddRule busy={busy} add={(rule) => save([...rules, rule], exceptions)} />
      </Section>
      <Section title="Away, or extra days" id="away">
        <Kept
          items={exceptions.map((exception) => capital(sayException(exception)))}
          none="None."
          busy={busy}
          take={(index) =>
            void save(
              rules,
              exceptions.filter((_, at) => at !== index),
            )
          }
        />
        <ImportFile
          volunteerId={person.id}
          busy={busy}
          add={(more) => save(rules, [...exceptions, ...more.map(plainException)])}
        />
        <AddAway busy={busy} add={(exception) => save(rules, [...exceptions, exception])} />
      </Section>
    </>
  );
}

interface KeptProps {
  items: string[];
  none: string;
  busy: boolean;
  take: (index: number) => void;
}

function Kept({ items, none, busy, take }: KeptProps) {
  if (!items.length) return <p>{none}</p>;
  return (
    <ul className="kept">
      {items.map((words, index) => (
        <li key={words}>
          <span>{words}</span>
          <button
            type="button"
            className="quiet"
            disabled={busy}
            onClick={() => {
              take(index);
            }}
          >
            Take away<span className="unseen">: {words}</span>
          </button>
        </li>
      ))}
    </ul>
  );
}

function plainRule({ rule, startsOn, untilOn, from, to }: Rule): Rule {
  return { rule, startsOn, untilOn: untilOn ?? null, from: from ?? null, to: to ?? null };
}

function plainException({ fromOn, toOn, canCome, from, to }: Exception): Exception {
  return { fromOn, toOn, canCome, from: from ?? null, to: to ?? null };
}
