import { graphql } from '../gql/gql.js';
import type { CardsOfQuery } from '../gql/graphql.js';
import { useAsk } from '../live/ask.js';
import { useDeed } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Asked } from '../parts/asked.js';
import { Choice, Field } from '../parts/field.js';
import { FoldForm } from '../parts/fold-form.js';
import { Section } from '../parts/page.js';
import { capital } from '../words/amounts.js';
import { addDays, sayDay } from '../words/dates.js';

const CardsQuestion = graphql(`
  query CardsOf($id: ID!) {
    volunteer(id: $id) {
      id
      skills {
        level
        levelWords
        signedOffBy
        skill {
          id
          name
        }
      }
      cards {
        id
        issuer
        expiresOn
        countsToday
        kind {
          id
          name
        }
      }
    }
    skills {
      id
      name
    }
    cardKinds {
      id
      name
    }
  }
`);

const AddCardDeed = graphql(`
  mutation AddCard($volunteerId: ID!, $kindId: ID!, $issuer: String!, $expiresOn: LocalDate) {
    addCard(volunteerId: $volunteerId, kindId: $kindId, issuer: $issuer, expiresOn: $expiresOn) {
      __typename
      ...Refused
    }
  }
`);

const LevelDeed = graphql(`
  mutation SetSkillLevel($volunteerId: ID!, $skillId: ID!, $level: Int!) {
    setSkillLevel(volunteerId: $volunteerId, skillId: $skillId, level: $level) {
      __typename
      ...Refused
    }
  }
`);

const levels = ['none', 'learning', 'works alone', 'teaches', 'may say so'];

type Card = NonNullable<CardsOfQuery['volunteer']>['cards'][number];

/** What somebody is signed off for and which cards they have shown, in words; those who run the yard add to it. */
export function CardsOf({ id }: { id: string }) {
  const { me } = useYard();
  const [answer, again] = useAsk(CardsQuestion, { id });
  const mayAdd = me.role === 'COORDINATOR' || me.role === 'SHIPWRIGHT';
  return (
    <Section title="Skills and cards" id="skills">
      <Asked answer={answer} what="skills and cards" again={again}>
        {({ volunteer, skills, cardKinds }) =>
          volunteer ? (
            <>
              {volunteer.skills.length ? (
                <ul className="plain">
                  {volunteer.skills.map((held) => (
                    <li key={held.skill.id}>
                      {held.skill.name}: {held.levelWords}
                      {held.signedOffBy ? `, signed off by ${held.signedOffBy}` : ''}.
                    </li>
                  ))}
                </ul>
              ) : (
                <p>Signed off for nothing yet: takes places as a hand.</p>
              )}
              {volunteer.cards.length ? (
                <ul className="plain">
                  {volunteer.cards.map((card) => (
                    <CardLine key={card.id} card={card} />
                  ))}
                </ul>
              ) : (
                <p>No card is on record.</p>
              )}
              {mayAdd ? (
                <>
                  <AddCard id={id} kinds={cardKinds} changed={again} />
                  <SignOff id={id} skills={skills} changed={again} />
                </>
              ) : (
                <p className="pencil">Show a new card to the coordinator, who writes it down.</p>
              )}
            </>
          ) : null
        }
      </Asked>
    </Section>
  );
}

function CardLine({ card }: { card: Card }) {
  const { today } = useYard();
  const { expiresOn } = card;
  const isSoon = card.countsToday && expiresOn !== null && expiresOn <= addDays(today, 30);
  const until = expiresOn
    ? card.countsToday
      ? `counts until ${sayDay(expiresOn)} ${expiresOn.slice(0, 4)}${isSoon ? ': renew it soon' : ''}`
      : `lapsed on ${sayDay(expiresOn)} ${expiresOn.slice(0, 4)}: it counts for no turnout after that day`
    : 'does not lapse';
  return (
    <li className={isSoon || !card.countsToday ? 'gap' : undefined}>
      {card.kind.name}, from {card.issuer}: {until}.
    </li>
  );
}

interface Adding {
  id: string;
  changed: () => void;
}

interface Named {
  id: string;
  name: string;
}

function AddCard({ id, kinds, changed }: Adding & { kinds: Named[] }) {
  const { run } = useDeed(AddCardDeed);
  return (
    <FoldForm
      summary="Add or renew a card"
      press="Write the card down"
      done="The card is written down."
      fields={{ kindId: 'card-kind', issuer: 'card-issuer', expiresOn: 'card-until' }}
      changed={changed}
      send={(filled) =>
        run({
          volunteerId: id,
          kindId: filled.text('kind'),
          issuer: filled.text('issuer'),
          expiresOn: filled.textOrNull('until'),
        })
      }
    >
      <Choice id="card-kind" name="kind" label="Which card">
        {kinds.map((kind) => (
          <option key={kind.id} value={kind.id}>
            {kind.name}
          </option>
        ))}
      </Choice>
      <Field id="card-issuer" name="issuer" label="Who issued it" />
      <Field
        id="card-until"
        name="until"
        type="date"
        label="Last day on which it counts"
        hint="Leave it empty where it does not lapse."
      />
    </FoldForm>
  );
}

function SignOff({ id, skills, changed }: Adding & { skills: Named[] }) {
  const { run } = useDeed(LevelDeed);
  return (
    <FoldForm
      summary="Sign them off in a skill"
      press="Sign off in my name"
      done="It is signed off in your name."
      fields={{ skillId: 'level-skill', level: 'level-level' }}
      changed={changed}
      send={(filled) =>
        run({ volunteerId: id, skillId: filled.text('skill'), level: Math.trunc(filled.number('level')) })
      }
    >
      <Choice id="level-skill" name="skill" label="Which skill">
        {skills.map((skill) => (
          <option key={skill.id} value={skill.id}>
            {skill.name}
          </option>
        ))}
      </Choice>
      <Choice id="level-level" name="level" label="How far they have come" defaultValue="1">
        {levels.map((words, level) => (
          <option key={words} value={level}>
            {capital(words)}
          </option>
        ))}
      </Choice>
    </FoldForm>
  );
}
