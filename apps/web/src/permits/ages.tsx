import { useDeed } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Field, Note } from '../parts/field.js';
import { FoldForm } from '../parts/fold-form.js';
import { Section } from '../parts/page.js';
import { type Safety, SetAgesDeed } from './permits.question.js';

/** From which age on one does what, and what the organisation set for itself. */
export function Ages({ safety: { ages, settings }, changed }: { safety: Safety; changed: () => void }) {
  const { me } = useYard();
  const { run } = useDeed(SetAgesDeed);
  const own = settings?.agesReason
    ? `Set by ${settings.agesBy ?? ''}: ${settings.agesReason}`
    : 'These are the usual ones; the organisation has set none of its own.';
  return (
    <Section title="Ages" id="ages">
      <p>{own}</p>
      <ul className="plain">
        <li>
          Below {ages.visitorsBelow} one comes on a visit only, with a parent; below {ages.inSightBelow} an
          adult keeps one in sight. <em>Common practice, no source.</em>
        </li>
        <li>
          Parts of the vessel are taken down from {ages.teardownFrom} on.{' '}
          <em>29 CFR 570.66; whether repair counts is unsettled.</em>
        </li>
        {ages.byHazard.map(({ hazard, name, from, basis }) =>
          typeof from === 'number' ? (
            <li key={hazard}>
              {name}: from {from} on. <em>{basis}.</em>
            </li>
          ) : null,
        )}
      </ul>
      {me.role === 'DIRECTOR' ? (
        <>
          <FoldForm
            summary="Set ages of our own"
            press="Set these ages"
            done="The ages are set; the plan is made anew."
            fields={{ reason: 'ages-reason', ages: 'ages-visitors' }}
            changed={changed}
            send={(filled) => {
              const whole = (name: string) => Math.round(filled.number(name));
              return run({
                reason: filled.text('reason'),
                visitorsBelow: whole('visitorsBelow'),
                inSightBelow: whole('inSightBelow'),
                teardownFrom: whole('teardownFrom'),
                byHazard: ages.byHazard.flatMap(({ hazard }) =>
                  filled.text(hazard) === '' ? [] : { hazard, age: whole(hazard) },
                ),
              });
            }}
          >
            <Field {...age('visitorsBelow', 'Below it visits only', ages.visitorsBelow)} id="ages-visitors" />
            <Field {...age('inSightBelow', 'Below it in an adult’s sight', ages.inSightBelow)} />
            <Field {...age('teardownFrom', 'From it on, taking parts down', ages.teardownFrom)} />
            {ages.byHazard.map(({ hazard, name, from, usual }) => (
              <Field
                key={hazard}
                {...age(hazard, name, from ?? '')}
                required={typeof usual === 'number'}
                hint={typeof usual === 'number' ? `Usual: ${usual}.` : 'No age of its own is usual.'}
              />
            ))}
            <Note
              id="ages-reason"
              name="reason"
              required
              label="What counsel and insurer say, and who they are"
            />
          </FoldForm>
          {settings?.agesReason ? (
            <FoldForm
              summary="Put the usual ages back"
              press="Put them back"
              done="The usual ages are back; the plan is made anew."
              fields={{ reason: 'usual-reason' }}
              changed={changed}
              send={(filled) => run({ reason: filled.text('reason') })}
            >
              <Note id="usual-reason" name="reason" required label="Why" />
            </FoldForm>
          ) : null}
        </>
      ) : null}
    </Section>
  );
}

function age(name: string, label: string, value: number | '') {
  return {
    id: `ages-${name}`,
    name,
    label,
    type: 'number',
    min: 0,
    max: 99,
    required: true,
    defaultValue: value,
  };
}
