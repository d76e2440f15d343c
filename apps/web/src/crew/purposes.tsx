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

interface Kind {
  id: string;
  name: string;
  purpose?: string | null;
}

/** What the gates take the yard's cards and skills for: by what is said here, not by what they are called. */
export function PurposesPart() {
  const { me } = useYard();
  const [answer, again] = useAsk(PurposesQuestion, {});
  const card = useDeed(CardPurposeDeed);
  const skill = useDeed(SkillPurposeDeed);
  const mayChange = me.role === 'DIRECTOR';
  return (
    <Section title="What cards and skills are taken for" id="purposes">
      <Asked answer={answer} what="the kinds of cards" again={again}>
        {({ cardKinds, skills }) => (
          <>
            <Taken kinds={cardKinds} words={cardWords} />
            {mayChange ? (
              <Change
                id="card-purpose"
                summary="Change what a kind of card is taken for"
                what="Which kind of card"
                kinds={cardKinds}
                words={cardWords}
                changed={again}
                send={(kindId, purpose, reason) =>
                  card.run({ kindId, purpose: purpose as CardPurpose | null, reason })
                }
              />
            ) : null}
            <Taken kinds={skills} words={skillWords} />
            {mayChange ? (
              <Change
                id="skill-purpose"
                summary="Change what a skill is taken for"
                what="Which skill"
                kinds={skills}
                words={skillWords}
                changed={again}
                send={(skillId, purpose, reason) =>
                  skill.run({ skillId, purpose: purpose as SkillPurpose | null, reason })
                }
              />
            ) : null}
          </>
        )}
      </Asked>
    </Section>
  );
}

function Taken({ kinds, words }: { kinds: readonly Kind[]; words: Record<string, string> }) {
  return (
    <ul className="plain">
      {Object.entries(words).map(([purpose, said]) => {
        const names = kinds.filter((kind) => kind.purpose === purpose).map(({ name }) => name);
        return (
          <li key={purpose} className={names.length ? undefined : 'gap'}>
            For {said}: {names.length ? names.join(', ') : 'none'}.
          </li>
        );
      })}
    </ul>
  );
}

interface ChangeProps {
  id: string;
  summary: string;
  what: string;
  kinds: readonly Kind[];
  words: Record<string, string>;
  changed: () => void;
  send: (id: string, purpose: string | null, reason: string) => Promise<Outcome<unknown>>;
}

function Change({ id, summary, what, kinds, words, changed, send }: ChangeProps) {
  return (
    <FoldForm
      summary={summary}
      press="Set it"
      done="It is set."
      fields={{ kindId: `${id}-kind`, skillId: `${id}-kind`, purpose: `${id}-for`, reason: `${id}-why` }}
      changed={changed}
      send={(filled) => send(filled.text('kind'), filled.textOrNull('purpose'), filled.text('why'))}
    >
      <Choice id={`${id}-kind`} name="kind" label={what}>
        {kinds.map((kind) => (
          <option key={kind.id} value={kind.id}>
            {kind.name}
          </option>
        ))}
      </Choice>
      <Choice id={`${id}-for`} name="purpose" label="Taken for">
        <option value="">nothing that the gates go by</option>
        {Object.entries(words).map(([purpose, said]) => (
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
  );
}
