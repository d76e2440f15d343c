import type { PermitKind, PermitsQuery, TagKind } from '../gql/graphql.js';
import { useAsk } from '../live/ask.js';
import { useDeed, type Outcome } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Asked } from '../parts/asked.js';
import { Choice, Field, Note, Tick } from '../parts/field.js';
import { FoldForm } from '../parts/fold-form.js';
import { Page, Section } from '../parts/page.js';
import { addDays, dayOf, sayDay, timeOf } from '../words/dates.js';
import {
  ClosePermitDeed,
  HangTagDeed,
  OpenPermitDeed,
  PermitsQuestion,
  WithdrawTagDeed,
  WriteWeatherDeed,
} from './permits.question.js';

type Safety = PermitsQuery['safety'];

const permitWords: Record<PermitKind, string> = {
  ENCLOSED_SPACE: 'Closed space',
  HOT_WORK: 'Hot work',
  LEAD: 'Lead paint',
  ASBESTOS: 'Asbestos',
};

const tagWords: Record<TagKind, string> = { STAGING: 'Staging', LIFTING_GEAR: 'Lifting gear' };

/** Permits, inspection tags and the day's weather: what the gates ask before somebody takes a place. */
export function PermitsPage() {
  const [answer, again] = useAsk(PermitsQuestion, {});
  return (
    <Page
      title="Permits and weather"
      lead={
        <p>
          Written down here, the gates know it. What may be done is decided by local law, the yard, the
          insurer and a competent person on the spot.
        </p>
      }
    >
      <Asked answer={answer} what="permits and weather" again={again}>
        {({ safety, gateRules }) => (
          <>
            <Weather weather={safety.weather ?? null} changed={again} />
            <Permits permits={safety.permits} changed={again} />
            <Tags tags={safety.tags} changed={again} />
            <Section title="The rules" id="rules">
              <details className="fold">
                <summary>Every rule, where it comes from, and who may set it aside</summary>
                <ul className="plain">
                  {gateRules.map((rule) => (
                    <li key={rule.says}>
                      {rule.says} <em>{rule.basis}.</em> Set aside by {rule.setAsideBy}.
                    </li>
                  ))}
                </ul>
              </details>
            </Section>
          </>
        )}
      </Asked>
    </Page>
  );
}

function sayWeather(weather: NonNullable<Safety['weather']>): string {
  const parts = [
    typeof weather.lowFahrenheit !== 'number' ? null : `from ${weather.lowFahrenheit} °F`,
    typeof weather.highFahrenheit !== 'number' ? null : `up to ${weather.highFahrenheit} °F`,
    typeof weather.windMilesAnHour !== 'number' ? null : `wind ${weather.windMilesAnHour} miles an hour`,
    typeof weather.airQualityIndex !== 'number' ? null : `air quality ${weather.airQualityIndex}`,
    weather.thunder ? 'thunder about' : null,
  ].filter((part) => part !== null);
  return parts.length ? `Today ${parts.join(', ')}` : 'Nothing measured today';
}

function Weather({ weather, changed }: { weather: Safety['weather'] | null; changed: () => void }) {
  const { today } = useYard();
  const { run } = useDeed(WriteWeatherDeed);
  return (
    <Section title="The day’s weather" id="weather">
      <p>
        {weather
          ? `${sayWeather(weather)}, written down by ${weather.writtenBy}.`
          : 'Nobody has written it down yet.'}
      </p>
      {weather?.holdReason ? (
        <p className="gap">
          Work is stopped by {weather.writtenBy}: {weather.holdReason}
        </p>
      ) : null}
      <FoldForm
        summary="Write a day’s weather down"
        press="Write it down"
        done="The weather is written down."
        fields={{
          'input.highFahrenheit': 'weather-high',
          'input.lowFahrenheit': 'weather-low',
          'input.windMilesAnHour': 'weather-wind',
          'input.airQualityIndex': 'weather-air',
          'input.holdReason': 'weather-hold',
        }}
        changed={changed}
        send={(filled) => {
          const whole = (name: string) => (filled.text(name) === '' ? null : Math.round(filled.number(name)));
          return run({
            input: {
              on: filled.text('on'),
              highFahrenheit: whole('high'),
              lowFahrenheit: whole('low'),
              windMilesAnHour: whole('wind'),
              airQualityIndex: whole('air'),
              thunder: filled.ticked('thunder'),
              holdReason: filled.textOrNull('hold'),
              holdHazards: [],
            },
          });
        }}
      >
        <Field id="weather-on" name="on" type="date" label="Day" defaultValue={today} />
        <Field id="weather-high" name="high" type="number" label="Highest, °F" />
        <Field id="weather-low" name="low" type="number" label="Lowest while people work, °F" />
        <Field id="weather-wind" name="wind" type="number" label="Wind, miles an hour" />
        <Field id="weather-air" name="air" type="number" label="Air quality index" />
        <Tick id="weather-thunder" name="thunder" label="Thunder about" />
        <Note
          id="weather-hold"
          name="hold"
          label="Stop all work that day, because"
          hint="Leave it empty where work goes on. Your name stands beside it."
        />
      </FoldForm>
    </Section>
  );
}

function Permits({ permits, changed }: { permits: Safety['permits']; changed: () => void }) {
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
          None is open. Who takes a place on work with lead, asbestos, closed spaces or hot work is told so;
          who runs the yard that day decides whether it waits.
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

function Tags({ tags, changed }: { tags: Safety['tags']; changed: () => void }) {
  const { me, today } = useYard();
  const { run } = useDeed(HangTagDeed);
  const withdraw = useDeed(WithdrawTagDeed);
  return (
    <Section title="Staging and lifting gear" id="tags">
      {tags.length ? (
        <ul className="plain">
          {tags.map((tag) => (
            <li key={tag.id}>
              <p className={tag.expiresOn < today ? 'gap' : undefined}>
                {tagWords[tag.kind]}, {tag.name}: inspected by {tag.inspectedBy} on {sayDay(tag.inspectedOn)},{' '}
                {tag.expiresOn < today ? 'lapsed on' : 'counts until'} {sayDay(tag.expiresOn)}.
              </p>
              <EndIt
                words="Take it out of use"
                run={() => withdraw.run({ id: tag.id })}
                busy={withdraw.busy}
                changed={changed}
              />
            </li>
          ))}
        </ul>
      ) : (
        <p>No inspection is on record. Who takes a place on work above ground is told so.</p>
      )}
      {me.role === 'DIRECTOR' ? null : (
        <FoldForm
          summary="It was inspected"
          press="Hang the tag"
          done="The tag is written down."
          fields={{
            name: 'tag-name',
            inspectedBy: 'tag-by',
            inspectedOn: 'tag-on',
            expiresOn: 'tag-until',
          }}
          changed={changed}
          send={(filled) =>
            run({
              input: {
                kind: filled.text('kind') as TagKind,
                name: filled.text('name'),
                inspectedBy: filled.text('by'),
                inspectedOn: filled.text('on'),
                expiresOn: filled.text('until'),
              },
            })
          }
        >
          <Choice id="tag-kind" name="kind" label="What">
            {Object.entries(tagWords).map(([kind, words]) => (
              <option key={kind} value={kind}>
                {words}
              </option>
            ))}
          </Choice>
          <Field id="tag-name" name="name" label="Which, and where" />
          <Field id="tag-by" name="by" label="Who inspected it" defaultValue={me.account.name} />
          <Field id="tag-on" name="on" type="date" label="On" defaultValue={today} />
          <Field
            id="tag-until"
            name="until"
            type="date"
            label="Last day on which it counts"
            defaultValue={addDays(today, 7)}
          />
        </FoldForm>
      )}
    </Section>
  );
}

interface EndItProps {
  words: string;
  run: () => Promise<Outcome<unknown>>;
  busy: boolean;
  changed: () => void;
}

function EndIt({ words, run, busy, changed }: EndItProps) {
  return (
    <button
      type="button"
      className="quiet"
      disabled={busy}
      onClick={() => {
        void run().then(changed);
      }}
    >
      {words}
    </button>
  );
}
