import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import type { RatherNot } from '../gql/graphql.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { Answer } from '../parts/answer.js';
import { Choice, Tick } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { Section } from '../parts/page.js';
import type { Person, YardSkill } from './days.question.js';

const SetWishesDeed = graphql(`
  mutation SetWishes(
    $volunteerId: ID!
    $version: Int!
    $turnoutsAMonth: Int
    $ratherNots: [RatherNot!]!
    $wouldLearn: [ID!]
  ) {
    setWishes(
      volunteerId: $volunteerId
      version: $version
      turnoutsAMonth: $turnoutsAMonth
      ratherNots: $ratherNots
      wouldLearn: $wouldLearn
    ) {
      __typename
      ...Refused
    }
  }
`);

const ratherNots: [RatherNot, string][] = [
  ['LADDERS', 'No ladders, no staging'],
  ['KNEELING', 'No kneeling'],
  ['SEATED', 'Seated work'],
  ['LIFTING', 'No lifting'],
  ['NOISE', 'Nothing loud'],
  ['DUST', 'Nothing dusty'],
  ['PAINT', 'No paint or glue'],
  ['WET', 'Nothing wet or cold'],
  ['MACHINES', 'No machines'],
];

interface WishesProps {
  person: Person;
  skills: YardSkill[];
  saved: () => void;
}

/** How often in a month, what somebody would like to learn and rather not do: no reason is asked. */
export function WishesPart({ person, skills, saved }: WishesProps) {
  const { run, busy } = useDeed(SetWishesDeed);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const { wishes } = person;
  if (!wishes) return null;

  async function submit(filled: Filled) {
    setOutcome(
      await run({
        volunteerId: person.id,
        version: person.version,
        turnoutsAMonth: filled.text('cap') ? filled.number('cap') : null,
        ratherNots: filled.all('ratherNot') as RatherNot[],
        wouldLearn: filled.all('wouldLearn'),
      }),
    );
    saved();
  }

  return (
    <Section title="How often, what to learn, what not" id="wishes">
      <Form send={submit} key={person.version}>
        <Answer outcome={outcome} done="Kept." fields={{ turnoutsAMonth: 'wish-cap' }} />
        <Choice
          id="wish-cap"
          name="cap"
          label="Not more than"
          defaultValue={String(wishes.turnoutsAMonth ?? '')}
        >
          <option value="">as often as my days say</option>
          {[1, 2, 3, 4, 5, 6, 7, 8, 9, 10].map((times) => (
            <option key={times} value={times}>
              {times === 1 ? 'one turnout a month' : `${times} turnouts a month`}
            </option>
          ))}
        </Choice>
        {skills.length ? (
          <fieldset aria-describedby="would-learn-hint">
            <legend>I would like to learn</legend>
            <p id="would-learn-hint" className="hint">
              Only the coordinator and you see it. Once you are signed on as a learner, the week’s roster puts
              you beside somebody who teaches it where it can.
            </p>
            <div className="day-ticks">
              {skills.map(({ id, name }) => (
                <Tick
                  key={id}
                  id={`learn-${id}`}
                  name="wouldLearn"
                  value={id}
                  label={name}
                  defaultChecked={wishes.wouldLearn.some((skill) => skill.id === id)}
                />
              ))}
            </div>
          </fieldset>
        ) : null}
        <fieldset aria-describedby="rather-not-hint">
          <legend>Rather not</legend>
          <p id="rather-not-hint" className="hint">
            No reason is asked. Only the coordinator and you see it.
          </p>
          <div className="day-ticks">
            {ratherNots.map(([value, words]) => (
              <Tick
                key={value}
                id={`rather-${value}`}
                name="ratherNot"
                value={value}
                label={words}
                defaultChecked={wishes.ratherNots.includes(value)}
              />
            ))}
          </div>
        </fieldset>
        <button type="submit" className="deed" disabled={busy}>
          Keep this
        </button>
      </Form>
    </Section>
  );
}
