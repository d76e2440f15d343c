import { useDeed } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Choice, Field } from '../parts/field.js';
import { FoldForm } from '../parts/fold-form.js';
import { Section } from '../parts/page.js';
import { sayDay } from '../words/dates.js';
import { type Safety, SetProtectorsDeed, WriteLoudnessDeed } from './permits.question.js';

interface NoiseProps {
  safety: Safety;
  tools: readonly { id: string; name: string }[];
  changed: () => void;
}

const byHand = 'work by hand';

/** How loud it is where people stand, and what they wear at their ears. */
export function Noise({ safety: { loudness, settings }, tools, changed }: NoiseProps) {
  const { me, today } = useYard();
  const write = useDeed(WriteLoudnessDeed);
  const wear = useDeed(SetProtectorsDeed);
  const nameOf = new Map(tools.map(({ id, name }) => [id, name]));
  const rating = settings?.protectorsRating ?? null;
  return (
    <Section title="Noise" id="noise">
      <p>
        A day’s dose counts sound from 80 dBA: 8 hours at 90 dBA are the whole of it, 5 dBA more halve the
        hours. <em>29 CFR 1910.95, Table G-16 and Appendix A.</em> Half of it is a caution at a place, the
        whole of it at the ear a stop.
      </p>
      {loudness.length ? (
        <ul className="plain">
          {loudness.map((one) => (
            <li key={one.id}>
              {one.toolId ? nameOf.get(one.toolId) : byHand}: {one.dba} dBA, by {one.by},{' '}
              {sayDay(one.measuredOn, today)}.
            </li>
          ))}
        </ul>
      ) : (
        <p>Nobody has measured yet: loud work brings its caution, and no dose is reckoned.</p>
      )}
      <p>
        {rating === null
          ? 'No ear protection is on record.'
          : `The yard hands out ear protection with a noise reduction rating of ${rating} dB.`}
      </p>
      {me.role === 'SHIPWRIGHT' || me.role === 'COORDINATOR' ? (
        <FoldForm
          summary="Write down how loud it is"
          press="Write it down"
          done="The noise is written down."
          fields={{ toolId: 'noise-tool', dba: 'noise-dba', by: 'noise-by' }}
          changed={changed}
          send={(filled) =>
            write.run({
              toolId: filled.textOrNull('tool'),
              dba: Math.round(filled.number('dba')),
              by: filled.text('by'),
            })
          }
        >
          <Choice id="noise-tool" name="tool" label="Where one stands at">
            <option value="">{byHand}</option>
            {tools.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </Choice>
          <Field id="noise-dba" name="dba" type="number" min={40} max={140} required label="dBA" />
          <Field
            id="noise-by"
            name="by"
            required
            label="Who measured it, or where it comes from"
            defaultValue={me.account.name}
          />
        </FoldForm>
      ) : null}
      {me.role === 'SHIPWRIGHT' || me.role === 'DIRECTOR' ? (
        <FoldForm
          summary="Say what ear protection the yard hands out"
          press="Write it down"
          done="The ear protection is written down."
          fields={{ rating: 'noise-rating' }}
          changed={changed}
          send={(filled) =>
            wear.run({ rating: filled.text('rating') === '' ? null : Math.round(filled.number('rating')) })
          }
        >
          <Field
            id="noise-rating"
            name="rating"
            type="number"
            min={0}
            max={40}
            label="Noise reduction rating, dB"
            hint="It stands on the box, as NRR. Empty: none is handed out."
            defaultValue={rating ?? ''}
          />
        </FoldForm>
      ) : null}
    </Section>
  );
}
