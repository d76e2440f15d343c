import { graphql } from '../gql/gql.js';
import { useDeed } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Note } from '../parts/field.js';
import { FoldForm } from '../parts/fold-form.js';
import { sayDay } from '../words/dates.js';
import { sayFine } from '../words/lengths.js';
import type { Mark } from './marks.question.js';

const StrikeDeed = graphql(`
  mutation StrikeReading($readingId: ID!, $reason: String!) {
    strikeReading(readingId: $readingId, reason: $reason) {
      __typename
      ...Refused
    }
  }
`);

const times = { AFLOAT: 'afloat', AFTER_BLOCKING: 'after blocking', LATER: '' };

/** Every reading of a mark, who read it, and striking one that was misread: it stays, and counts no more. */
export function Readings({ mark, changed }: { mark: Mark; changed: () => void }) {
  const { me } = useYard();
  const { units } = me.organisation;
  if (mark.readings.length === 0) return null;
  return (
    <details>
      <summary>All its readings</summary>
      <ul className="hull-list">
        {mark.readings.map((one) => (
          <li key={one.id}>
            {one.struckBy ? <s>{sayFine(one.millimetres, units)}</s> : sayFine(one.millimetres, units)}
            {times[one.time] ? `, ${times[one.time]}` : ''}, read by {one.reader} on {sayDay(one.on)}
            {one.struckBy ? `; struck by ${one.struckBy}` : ''}
            {!one.struckBy && me.role === 'SHIPWRIGHT' ? <Strike reading={one} changed={changed} /> : null}
          </li>
        ))}
      </ul>
    </details>
  );
}

function Strike({ reading, changed }: { reading: Mark['readings'][number]; changed: () => void }) {
  const { run } = useDeed(StrikeDeed);
  const id = `strike-${reading.id}`;
  return (
    <FoldForm
      summary="It was misread"
      press="Strike this reading"
      done="It is struck: it stays on record and counts no more."
      fields={{ reason: id }}
      changed={changed}
      send={(filled) => run({ readingId: reading.id, reason: filled.text('reason') })}
    >
      <Note id={id} name="reason" label="How it came to be misread" />
    </FoldForm>
  );
}
