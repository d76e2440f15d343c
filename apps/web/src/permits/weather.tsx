import { useDeed } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Field, Note, Tick } from '../parts/field.js';
import { FoldForm } from '../parts/fold-form.js';
import { Section } from '../parts/page.js';
import { list } from '../words/amounts.js';
import { type Safety, WriteWeatherDeed } from './permits.question.js';

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

interface WeatherProps {
  weather: Safety['weather'] | null;
  /** What a stop can be about. */
  hazards: Safety['ages']['byHazard'];
  changed: () => void;
}

export function Weather({ weather, hazards, changed }: WeatherProps) {
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
          {stopped(weather, hazards)} stopped by {weather.writtenBy}: {weather.holdReason}
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
              holdHazards: hazards.flatMap(({ hazard }) => (filled.ticked(hazard) ? hazard : [])),
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
          label="Stop work that day, because"
          hint="Leave it empty where work goes on. Your name stands beside it."
        />
        <fieldset>
          <legend>Stopped is</legend>
          <p className="hint">All work where nothing is ticked, else work with one of these.</p>
          {hazards.map(({ hazard, name }) => (
            <Tick key={hazard} id={`weather-${hazard}`} name={hazard} label={name} />
          ))}
        </fieldset>
      </FoldForm>
    </Section>
  );
}

type Told = NonNullable<Safety['weather']>;

function stopped({ holdHazards }: Told, hazards: WeatherProps['hazards']): string {
  const names = hazards.flatMap(({ hazard, name }) =>
    holdHazards.includes(hazard) ? name.toLowerCase() : [],
  );
  return names.length ? `Work is with ${list(names)}` : 'All work is';
}
