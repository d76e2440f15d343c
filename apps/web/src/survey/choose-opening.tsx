import { useState } from 'react';
import type { ScopeSeenFragment } from '../gql/graphql.js';
import { useYard } from '../live/yard.js';
import { Choice, Note } from '../parts/field.js';
import { Form, type Filled } from '../parts/form.js';
import { count } from '../words/amounts.js';
import type { Survey } from './survey-document.js';

/** The openings that let the pieces come out, with their price; the shipwright's choice, with a reason where it costs more. */
export function Openings({ scope, survey }: { scope: ScopeSeenFragment; survey: Survey }) {
  const { by, reason, openings } = survey.choices;
  return (
    <>
      <ul className="openings">
        {scope.openings.map((opening) => (
          <li key={opening.planksOff.join()} className={opening.chosen ? 'chosen' : undefined}>
            <p>
              {opening.chosen ? <strong>Chosen: </strong> : null}
              {count(opening.planksOff.length, 'plank')} off, {opening.hours} hours to open and close,{' '}
              {opening.cut === 0 ? 'nothing cut' : `${opening.cut} fastenings cut behind planks that stay`} (
              {opening.aim})
            </p>
            <details>
              <summary>Which planks</summary>
              <p>{opening.planksOff.join(', ')}</p>
            </details>
          </li>
        ))}
      </ul>
      <p className="pencil">
        {by} chose{reason ? `: ${reason}` : '.'}
      </p>
      {Object.entries(openings).map(([rule, word]) => (
        <p key={rule} className="pencil">
          A limit is changed in writing by {word.by}: {word.reason}
        </p>
      ))}
    </>
  );
}

const aims = ['fewest planks', 'least hours', 'fewest fastenings cut'];
const ceilings: [string, string][] = [
  ['strip in way', 'out wherever a piece is drawn'],
  ['leave', 'left in'],
  ['as the aim has it', 'whichever serves the aim'],
];

export function ChooseOpening({
  survey,
  choose,
}: {
  survey: Survey;
  choose: (choices: Survey['choices']) => void;
}) {
  const { me } = useYard();
  const [chosen, setChosen] = useState(false);
  const { choices } = survey;

  function submit(filled: Filled): Promise<void> {
    choose({
      ...choices,
      aim: filled.text('aim'),
      ceiling: filled.text('ceiling'),
      inspectionStrake: filled.textOrNull('inspection'),
      by: me.account.name,
      reason: filled.textOrNull('choiceReason'),
    });
    setChosen(true);
    return Promise.resolve();
  }

  return (
    <Form send={submit}>
      <Choice id="choice-aim" name="aim" label="Open her with" defaultValue={choices.aim}>
        {aims.map((aim) => (
          <option key={aim}>{aim}</option>
        ))}
      </Choice>
      <Choice id="choice-ceiling" name="ceiling" label="The ceiling is" defaultValue={choices.ceiling}>
        {ceilings.map(([value, label]) => (
          <option key={value} value={value}>
            {label}
          </option>
        ))}
      </Choice>
      <input type="hidden" name="inspection" value={choices.inspectionStrake ?? ''} />
      <Note
        id="choice-reason"
        name="choiceReason"
        label="Why, where another costs fewer hours"
        defaultValue={choices.reason ?? ''}
      />
      <button type="submit" className="quiet">
        Choose so
      </button>
      {chosen ? <p role="status">Chosen. Show what would change below, then do it.</p> : null}
    </Form>
  );
}
