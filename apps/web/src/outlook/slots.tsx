import { graphql } from '../gql/gql.js';
import type { SlotToTellFragment, SlotWordKind } from '../gql/graphql.js';
import { useAsk } from '../live/ask.js';
import { useDeed } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Asked } from '../parts/asked.js';
import { Choice, Field } from '../parts/field.js';
import { FoldForm } from '../parts/fold-form.js';
import type { Filled } from '../parts/form.js';
import { Section } from '../parts/page.js';
import { sayDay, sayShortDay } from '../words/dates.js';

export type SlotToTell = SlotToTellFragment;

export const LiftSlotsQuestion = graphql(`
  query LiftSlots {
    haulOut {
      id
      gate {
        id
      }
      fallback {
        id
      }
      liftSlots {
        ...SlotToTell
      }
    }
  }
  fragment SlotToTell on LiftSlot {
    id
    on
    confirmBy
    word {
      word
      givenOn
      givenBy
      yardSays
      note
    }
  }
`);

const GiveSlotWordDeed = graphql(`
  mutation GiveSlotWord(
    $slotId: ID!
    $word: SlotWordKind!
    $on: LocalDate!
    $by: String!
    $yardSays: String
    $note: String
  ) {
    giveSlotWord(slotId: $slotId, word: $word, on: $on, by: $by, yardSays: $yardSays, note: $note) {
      __typename
      ... on SlotWordPayload {
        slot {
          ...SlotToTell
        }
      }
      ...Refused
    }
  }
`);

/** The lift slots and what the yard was told about each; those that nobody spoke of yet are folded away. */
export function SlotsSection() {
  const [answer, again] = useAsk(LiftSlotsQuestion, {}, 'plan');
  return (
    <Section title="Lift slots" id="lift-slots">
      <Asked answer={answer} what="the lift slots" again={again}>
        {({ haulOut }) => {
          if (!haulOut) return <p>No slot is booked.</p>;
          const { gate, fallback, liftSlots } = haulOut;
          const name = ({ id }: SlotToTell) =>
            id === gate.id ? 'The Gate' : id === fallback?.id ? 'Fallback Gate' : 'Slot';
          const isNear = (slot: SlotToTell) => slot.word !== null || name(slot) !== 'Slot';
          const rest = liftSlots.filter((slot) => !isNear(slot));
          return (
            <>
              <Slots slots={liftSlots.filter(isNear)} name={name} />
              {rest.length ? (
                <details>
                  <summary>{rest.length} more</summary>
                  <Slots slots={rest} name={name} />
                </details>
              ) : null}
            </>
          );
        }}
      </Asked>
    </Section>
  );
}

function Slots({ slots, name }: { slots: SlotToTell[]; name: (slot: SlotToTell) => string }) {
  const { today } = useYard();
  return (
    <ul className="decisions">
      {slots.map((slot) => (
        <li key={slot.id}>
          <strong>
            {name(slot)}, {sayDay(slot.on)}
          </strong>
          <span>{saySlot(slot, today)}</span>
          {slot.word?.note ? <span className="pencil">{slot.word.note}</span> : null}
          <TellYard slot={slot} at="slot" />
        </li>
      ))}
    </ul>
  );
}

function saySlot({ word, confirmBy }: SlotToTell, today: string): string {
  if (!word)
    return confirmBy
      ? `Nothing was said yet; the last day is ${sayDay(confirmBy)}.`
      : 'Nothing was said yet.';
  const said = word.word === 'RELEASED' ? 'Released' : 'Confirmed';
  const answer = word.yardSays ? ` The yard’s answer: “${word.yardSays}”` : '';
  return `${said} on ${sayShortDay(word.givenOn, today)} by ${word.givenBy}.${answer}`;
}

/** What can be said of a slot after what was said last. */
const next: Record<SlotWordKind | 'NOTHING', [SlotWordKind, string][]> = {
  NOTHING: [
    ['CONFIRMED', 'We take it: confirmed'],
    ['RELEASED', 'We give it back: released'],
  ],
  CONFIRMED: [
    ['RELEASED', 'We give it back after all: released'],
    ['TAKEN_BACK', 'It was not confirmed: to be decided again'],
  ],
  RELEASED: [
    ['CONFIRMED', 'We have it again: confirmed'],
    ['TAKEN_BACK', 'It was not released: to be decided again'],
  ],
  TAKEN_BACK: [],
};

/** Writes down that the yard was told about a slot; nothing is sent. The director's. */
export function TellYard({ slot, at }: { slot: SlotToTell; at: 'decision' | 'slot' | 'letter' }) {
  const { me, today } = useYard();
  const { run } = useDeed(GiveSlotWordDeed);
  if (me.role !== 'DIRECTOR') return null;
  const id = (name: string) => `${at}-${name}-${slot.id}`;
  const send = (filled: Filled) =>
    run({
      slotId: slot.id,
      word: filled.text('word') as SlotWordKind,
      on: filled.text('on'),
      by: filled.text('by'),
      yardSays: filled.text('yardSays') || null,
      note: filled.text('note') || null,
    });
  return (
    <FoldForm
      summary={slot.word ? 'Change what was said' : 'The yard was told'}
      press="Write it down"
      done="It is written down."
      fields={{ word: id('word'), on: id('on'), by: id('by'), yardSays: id('answer'), note: id('note') }}
      send={send}
      changed={() => undefined}
    >
      <Choice id={id('word')} name="word" label={`The slot of ${sayDay(slot.on)}`}>
        {next[slot.word?.word ?? 'NOTHING'].map(([word, says]) => (
          <option key={word} value={word}>
            {says}
          </option>
        ))}
      </Choice>
      <Field id={id('on')} name="on" type="date" label="On" defaultValue={today} max={today} />
      <Field
        id={id('by')}
        name="by"
        label="Who told the yard"
        defaultValue={me.account.name}
        maxLength={200}
      />
      <Field
        id={id('answer')}
        name="yardSays"
        label="The yard’s answer, with its reference"
        hint="May be left empty."
        maxLength={500}
      />
      <Field id={id('note')} name="note" label="Anything to know" hint="May be left empty." maxLength={500} />
    </FoldForm>
  );
}
