import { useState } from 'react';
import { useClient } from 'urql';
import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { useSay } from '../live/announcer.js';
import { sayFault, useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Answer } from '../parts/answer.js';
import { Asked } from '../parts/asked.js';
import { Field, Note } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { Section } from '../parts/page.js';
import { capital, list, lowerFirst } from '../words/amounts.js';
import { LayoutByHand } from './layout-by-hand.js';
import type { PlankSide, Proposal } from './plank-side.js';

const PlankingQuestion = graphql(`
  query Planking {
    starboard: planking(side: STARBOARD) {
      ...PlankingSide
    }
    port: planking(side: PORT) {
      ...PlankingSide
    }
  }
  fragment PlankingSide on PlankingType {
    side
    runs {
      strake
      firstFrame
      lastFrame
    }
    butts {
      strake
      bay
    }
    faults {
      says
      guide
    }
    choice {
      by
      reason
      butts {
        strake
        bay
      }
      faults {
        says
        guide
      }
    }
    waits {
      plank {
        id
        name
      }
      frames {
        stands
        frame {
          id
          frame
        }
      }
    }
  }
`);

const ProposalQuestion = graphql(`
  query ProposedLayout($side: Side!, $longest: Int!) {
    proposedLayout(side: $side, longest: $longest) {
      says
      butts {
        strake
        bay
      }
      faults {
        says
        guide
      }
    }
  }
`);

const ChooseDeed = graphql(`
  mutation ChoosePlankLayout($side: Side!, $butts: [PlankButtInput!]!, $reason: String!) {
    choosePlankLayout(side: $side, butts: $butts, reason: $reason) {
      __typename
      ...Refused
    }
  }
`);

/** Closing her up: what each plank waits for, and where the butts of what is hung anew lie. */
export function Planking() {
  const [answer, again] = useAsk(PlankingQuestion, {}, 'plan');
  return (
    <Section title="Closing her up" id="planking">
      <Asked answer={answer} what="the planking" again={again}>
        {({ starboard, port }) => {
          const sides = [starboard, port].flatMap((side) => (side && side.runs.length > 0 ? [side] : []));
          return sides.length ? (
            sides.map((side) => <OneSide key={side.side} side={side} changed={again} />)
          ) : (
            <p>No plank comes off.</p>
          );
        }}
      </Asked>
    </Section>
  );
}

function OneSide({ side, changed }: { side: PlankSide; changed: () => void }) {
  const { me } = useYard();
  const client = useClient();
  const choose = useDeed(ChooseDeed);
  const say = useSay();
  const [proposal, setProposal] = useState<Proposal | null>(null);
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null);
  const name = side.side.toLowerCase();

  async function propose(filled: Filled) {
    const variables = { side: side.side, longest: filled.number('longest') };
    const answer = await client.query(ProposalQuestion, variables).toPromise();
    if (answer.error) setOutcome({ kind: 'fault', words: sayFault(answer.error) });
    else setOutcome(null);
    setProposal(answer.data?.proposedLayout ?? null);
    if (answer.data) say(answer.data.proposedLayout.says);
  }

  async function take(filled: Filled) {
    if (!proposal) return;
    const butts = proposal.butts.map(({ strake, bay }) => ({ strake, bay }));
    const answer = await choose.run({ side: side.side, butts, reason: filled.text('reason') });
    setOutcome(answer);
    if (answer.kind !== 'done') return;
    setProposal(null);
    changed();
  }

  return (
    <>
      <h3>{capital(name)}</h3>
      <p>
        {side.faults.length
          ? 'As the butts lie today these rules are not kept:'
          : 'As they lie today the butts keep every rule.'}
      </p>
      <Faults faults={side.faults} />
      <details>
        <summary>What each plank waits for</summary>
        <ul>
          {side.waits.map(({ plank, frames }) => {
            const wanting = frames.filter((one) => !one.stands).map((one) => String(one.frame.frame ?? ''));
            return (
              <li key={plank.id}>
                {plank.name}:{' '}
                {wanting.length ? `frames ${list(wanting)} have to stand first` : 'the frames under it stand'}
              </li>
            );
          })}
        </ul>
      </details>
      {side.choice ? (
        <p>
          {side.choice.by} chose butts {sayButts(side.choice.butts)}: {side.choice.reason}
        </p>
      ) : null}
      {side.choice ? <Faults faults={side.choice.faults} /> : null}
      <Answer
        outcome={outcome}
        done="The layout is chosen."
        fields={{ reason: `layout-${name}`, longest: `longest-${name}`, shortest: `longest-${name}` }}
      />
      {me.role === 'SHIPWRIGHT' || me.role === 'DIRECTOR' ? (
        <Form send={propose} className="row">
          <Field
            id={`longest-${name}`}
            name="longest"
            type="number"
            min={6}
            max={60}
            defaultValue={12}
            label="Longest plank of the stock, in frames crossed"
          />
          <button type="submit" className="quiet">
            Propose a layout
          </button>
        </Form>
      ) : null}
      {me.role === 'SHIPWRIGHT' || me.role === 'DIRECTOR' ? (
        <LayoutByHand
          side={side}
          checked={(layout) => {
            setOutcome(null);
            setProposal(layout);
          }}
        />
      ) : null}
      {proposal ? (
        <>
          <p>
            {proposal.says} {proposal.butts.length ? `Butts ${sayButts(proposal.butts)}.` : ''}
          </p>
          <Faults faults={proposal.faults} />
          {proposal.butts.length && me.role === 'SHIPWRIGHT' ? (
            <Form send={take}>
              <Note id={`layout-${name}`} name="reason" label="Why this layout" />
              <button type="submit" className="deed" disabled={choose.busy}>
                Choose it
              </button>
            </Form>
          ) : null}
        </>
      ) : null}
    </>
  );
}

const sayButts = (butts: { strake: number; bay: number }[]): string =>
  list(butts.map(({ strake, bay }) => `in strake ${strake} between frames ${bay} and ${bay + 1}`));

function Faults({ faults }: { faults: { says: string; guide: boolean }[] }) {
  if (faults.length === 0) return null;
  return (
    <ul>
      {faults.map((fault) => (
        <li key={fault.says} className={fault.guide ? 'pencil' : 'gap'}>
          {fault.guide ? 'A guide: ' : ''}
          {fault.guide ? lowerFirst(fault.says) : capital(fault.says)}
        </li>
      ))}
    </ul>
  );
}
