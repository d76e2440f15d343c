import { useYard } from '../live/yard.js';
import { Choice, Field, Note } from '../parts/field.js';
import type { Filled } from '../parts/form.js';
import type { Finding, Survey } from './survey-document.js';

/** What every form for a finding is given. */
export interface AddFindingProps {
  survey: Survey;
  add: (finding: Finding) => void;
}

/** Why it rotted, who looked and when: asked of every finding. */
export function Seen({ survey }: { survey: Survey }) {
  const { me, today } = useYard();
  return (
    <>
      <Choice id="finding-cause" name="cause" label="Why it rotted" defaultValue="">
        <option value="">no decay, or not known</option>
        {survey.causes.map((cause) => (
          <option key={cause.key} value={cause.key}>
            {cause.name}
          </option>
        ))}
      </Choice>
      <Field id="finding-by" name="by" label="Who looked" defaultValue={me.account.name} />
      <Field id="finding-on" name="on" type="date" label="When" defaultValue={today} />
      <Note id="finding-note" name="note" label="What there is to say of it" />
      <button type="submit" className="quiet">
        Add this line
      </button>
    </>
  );
}

export const seen = (filled: Filled) => ({
  cause: filled.textOrNull('cause'),
  by: filled.text('by'),
  on: filled.text('on'),
  note: filled.textOrNull('note'),
});
