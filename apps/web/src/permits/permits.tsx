import type { PermitKind } from '../gql/graphql.js';
import { useDeed } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Choice, Field } from '../parts/field.js';
import { FoldForm } from '../parts/fold-form.js';
import { Section } from '../parts/page.js';
import { addDays, dayOf, sayDay, timeOf } from '../words/dates.js';
import { EndIt } from './end-it.js';
import { ClosePermitDeed, OpenPermitDeed, type Safety } from './permits.question.js';

const permitWords: Record<PermitKind, string> = {
  ENCLOSED_SPACE: 'Closed space',
  HOT_WORK: 'Hot work',
  LEAD: 'Lead paint',
  ASBESTOS: 'Asbestos',
};

export function Permits({ permits, changed }: { permits: Safety['permits']; changed: () => void }) {
  const { me, today, timeZone } = useYard();
  const { run } = useDeed(OpenPermitDeed);
  const close = useDeed(ClosePermitDeed);
  return (
    <Section title="Open permits" id="permits">
      {permits.length ? (
        <ul className="plain">
          {permits.map((permit) => (
            <li key={permit.id}>
              <p>
                {permitWords[permit.kind]}: {permit.by} looked; it ends on{' '}
                {sayDay(dayOf(permit.expiresAt, timeZone))} at {timeOf(permit.expiresAt, timeZone)}.
                {typeof permit.oxygenPercent !== 'number'
                  ? ''
                  : ` Oxygen ${permit.oxygenPercent} %, flammable ${permit.flammablePercent ?? 0} % of its limit.`}
                {permit.note ? ` ${permit.note}` : ''}
              </p>
              <EndIt
                words="Close it"
                run={() => close.run({ id: permit.id })}
                busy={close.busy}
                changed={changed}
              />
            </li>
          ))}
        </ul>
      ) : (
        <p>
          None is open. Whoever takes a place on work with lead, asbestos, closed spaces or hot work is told
          so beforehand; on the day itself that work waits until one is open.
        </p>
      )}
      <FoldForm
        summary="A competent person has looked"
        press="Write the permit down"
        done="The permit is written down."
        fields={{
          kind: 'permit-kind',
          by: 'permit-by',
          untilOn: 'permit-until',
          oxygenPercent: 'permit-oxygen',
        }}
        changed={changed}
        send={(filled) => {
          const kind = filled.text('kind') as PermitKind;
          const reading = (name: string) => (filled.text(name) === '' ? null : filled.number(name));
          return run({
            input: {
              kind,
              by: filled.text('by'),
              untilOn: filled.textOrNull('until'),
              oxygenPercent: reading('oxygen'),
              flammablePercent: reading('flammable'),
              note: filled.textOrNull('note'),
            },
          });
        }}
      >
        <Choice id="permit-kind" name="kind" label="For what">
          {Object.entries(permitWords).map(([kind, words]) => (
            <option key={kind} value={kind}>
              {words}
            </option>
          ))}
        </Choice>
        <Field id="permit-by" name="by" label="Who looked" defaultValue={me.account.name} />
        <Field
          id="permit-oxygen"
          name="oxygen"
          type="number"
          step="0.1"
          label="Oxygen, %"
          hint="Closed spaces only, read first: 19.5 up to 22.0."
        />
        <Field
          id="permit-flammable"
          name="flammable"
          type="number"
          step="0.1"
          label="Flammable gas, % of its lower limit"
          hint="Read second: below 10."
        />
        <Field id="permit-note" name="note" label="Toxic reading, and where" />
        <Field
          id="permit-until"
          name="until"
          type="date"
          label="Last day"
          defaultValue={addDays(today, 30)}
          hint="For lead and asbestos. Closed spaces and hot work end with today’s turnout."
        />
      </FoldForm>
    </Section>
  );
}
