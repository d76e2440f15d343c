import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import type { CardPurpose, SkillPurpose } from '../gql/graphql.js';
import { useAsk } from '../live/ask.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Asked } from '../parts/asked.js';
import { Choice, Field } from '../parts/field.js';
import { FoldForm } from '../parts/fold-form.js';
import { Section } from '../parts/page.js';

const PurposesQuestion = graphql(`
  query Purposes {
    cardKinds {
      id
      name
      purpose
    }
    skills {
      id
      name
      purpose
    }
  }
`);

const CardPurposeDeed = graphql(`
  mutation SetCardPurpose($kindId: ID!, $purpose: CardPurpose, $reason: String!) {
    setCardPurpose(kindId: $kindId, purpose: $purpose, reason: $reason) {
      __typename
      ...Refused
    }
  }
`);

const SkillPurposeDeed = graphql(`
  mutation SetSkillPurpose($skillId: ID!, $purpose: SkillPurpose, $reason: String!) {
    setSkillPurpose(skillId: $skillId, purpose: $purpose, reason: $reason) {
      __typename
      ...Refused
    }
  }
`);

const cardWords: Record<CardPurpose, string> = {
  FIRST_AID: 'first aid at a turnout',
  HOT_WORK_WATCH: 'the watch over hot work',
  WAIVER: 'the waiver',
};
const skillWords: Record<SkillPurpose, string> = { HOT_WORK_WATCH: 'the watch’s seat over hot work' };

/** What the gates take the yard's cards and skills for: by what is said here, not by what they are called. */
export function PurposesPart() {
  const [answer, again] = useAsk(PurposesQuestion, {});
  const card = useDeed(CardPurposeDeed);
  const skill = useDeed(SkillPurposeDeed);
  return (
    <Section title="What cards and skills are taken for" id="purposes">
      <Asked answer={answer} what="the kinds of cards" again={again}>
        {({ cardKinds, skills }) => (
          <>
            <TakenFor
              id="card-purpose"
              what="kind of card"
              kinds={cardKinds}
              words={cardWords}
              changed={again}
              send={(kindId, purpose, reason) => card.run({ kindId, purpose, reason })}
            />
            <TakenFor
              id="skill-purpose"
              what="skill"
              kinds={skills}
              words={skillWords}
              changed={again}
              send={(skillId, purpose, reason) => skill.run({ skillId, purpose, reason })}
            />
          </>
        )}
      </Asked>
    </Section>
  );
}

interface Kind {
  id: string;
  name: string;
  purpose?: string | null;
}

interface TakenForProps<Purpose extends string> {
  id: string;
  /** What a kind is called. */
  what: string;
  kinds: readonly Kind[];
  words: Record<Purpose, string>;
  changed: () => void;
  send: (id: string, purpose: Purpose | null, reason: string) => Promise<Outcome<unknown>>;
}

/** What is taken for which purpose, and for the director a form to change it. */
function TakenFor<Purpose extends string>(props: TakenForProps<Purpose>) {
  const { me } = useYard();
  const { id, what, kinds, words, changed, send } = props;
  const purposes = Object.entries<string>(words);
  const [chosen, setChosen] = useState(kinds[0]?.id);
  const now = kinds.find((kind) => kind.id === chosen)?.purpose ?? '';
  return (
    <>
      <ul className="plain">
        {purposes.map(([purpose, said]) => {
          const names = kinds.filter((kind) => kind.purpose === purpose).map(({ name }) => name);
          return (
            <li key={purpose} className={names.length ? undefined : 'gap'}>
              For {said}: {names.length ? names.join(', ') : 'none'}.
            </li>
          );
        })}
      </ul>
      {me.role === 'DIRECTOR' ? (
        <FoldForm
          summary={`Change what a ${what} is taken for`}
          press="Set it"
          done="It is set."
          fields={{ kindId: `${id}-kind`, skillId: `${id}-kind`, purpose: `${id}-for`, reason: `${id}-why` }}
          changed={changed}
          send={(filled) =>
            send(filled.text('kind'), filled.textOrNull('purpose') as Purpose | null, filled.text('why'))
          }
        >
          <Choice
            id={`${id}-kind`}
            name="kind"
            label={`Which ${what}`}
            value={chosen}
            onChange={(event) => {
              setChosen(event.target.value);
            }}
          >
            {kinds.map((kind) => (
              <option key={kind.id} value={kind.id}>
                {kind.name}
              </option>
            ))}
          </Choice>
          <Choice
            key={`${chosen ?? ''} ${now}`}
            id={`${id}-for`}
            name="purpose"
            label="Taken for"
            defaultValue={now}
          >
            <option value="">nothing that the gates go by</option>
            {purposes.map(([purpose, said]) => (
              <option key={purpose} value={purpose}>
                {said}
              </option>
            ))}
          </Choice>
          <Field
            id={`${id}-why`}
            name="why"
            label="Why"
            hint="It changes who may work, and stays on record with your name."
            required
            minLength={10}
          />
        </FoldForm>
      ) : null}
    </>
  );
}
