import { caution, stop } from './found.js';
import type { Finding, Job, WorkRule } from './gate.types.js';
import { commonPractice } from './rule-book.js';
import type { DayWeather } from './yard-facts.js';

const heatBasis = 'WAC 296-62-09547: 10 minutes in 2 hours from 90 °F, 15 in each hour from 100 °F';
const smokeBasis = 'WAC 296-820, from memory; the stop is common practice, no source';

const high: readonly string[] = ['fall', 'lifting', 'crush'];

/** Wind chill in °F by the formula of the National Weather Service, 2001; the air's own temperature where it does not apply. */
export function windChill(fahrenheit: number, milesAnHour: number): number {
  if (fahrenheit > 50 || milesAnHour <= 3) return fahrenheit;
  const v = milesAnHour ** 0.16;
  return 35.74 + 0.6215 * fahrenheit - 35.75 * v + 0.4275 * fahrenheit * v;
}

/** The rests that heat asks for: from which high in °F, so many minutes in every so many. Source: `heatBasis`. */
const rests = [
  { from: 100, minutes: 15, every: 60 },
  { from: 90, minutes: 10, every: 120 },
] as const;

/** Minutes of rest that a day of such heat takes out of so many minutes of work. @param highFahrenheit null: not written down */
export function heatRest(highFahrenheit: number | null, minutes: number): number {
  const rest = rests.find(({ from }) => highFahrenheit !== null && highFahrenheit >= from);
  return rest ? Math.floor(minutes / rest.every) * rest.minutes : 0;
}

function heat({ highFahrenheit }: DayWeather): Finding[] {
  if (highFahrenheit === null || highFahrenheit < 80) return [];
  const pause =
    highFahrenheit >= 100
      ? '15 minutes’ rest in the shade in every hour'
      : highFahrenheit >= 90
        ? '10 minutes’ rest in the shade in every two hours'
        : 'shade and water at hand, rest when you want it';
  return [
    caution(
      'weather',
      `${Math.round(highFahrenheit)} °F: ${pause}, a quart of water an hour.`,
      null,
      heatBasis,
    ),
  ];
}

function cold({ lowFahrenheit, windMilesAnHour }: DayWeather, job: Job): Finding[] {
  if (lowFahrenheit === null) return [];
  const felt = windChill(lowFahrenheit, windMilesAnHour ?? 0);
  const findings: Finding[] = [];
  if (felt <= 0)
    findings.push(stop('weather', 'Wind and cold together are below 0 °F.', 'Another day.', commonPractice));
  else if (felt <= 32)
    findings.push(
      caution(
        'weather',
        'It feels like frost: warm hands before tools, dry gloves, a warm room.',
        null,
        commonPractice,
      ),
    );
  if (job.hazards.includes('chemical') && lowFahrenheit < 50)
    findings.push(
      caution('weather', 'Glue and paint want warmth: read what their sheets ask for.', null, commonPractice),
    );
  return findings;
}

function smoke({ airQualityIndex }: DayWeather): Finding[] {
  if (airQualityIndex === null || airQualityIndex < 69) return [];
  return airQualityIndex >= 151
    ? [stop('weather', `Smoke: the air reads ${airQualityIndex}.`, 'Wait for cleaner air.', smokeBasis)]
    : [
        caution(
          'weather',
          `Smoke: the air reads ${airQualityIndex}. Masks at hand, less effort.`,
          null,
          smokeBasis,
        ),
      ];
}

function windAndThunder({ windMilesAnHour, thunder }: DayWeather, job: Job): Finding[] {
  if (!job.hazards.some((hazard) => high.includes(hazard) || hazard === 'drowning')) return [];
  if (thunder)
    return [
      stop(
        'weather',
        'Thunder: nobody aloft, under a lift or by the water.',
        'Wait until it has gone by.',
        commonPractice,
      ),
    ];
  if (windMilesAnHour === null || windMilesAnHour < 20) return [];
  return windMilesAnHour >= 30
    ? [
        stop(
          'weather',
          `Wind of ${windMilesAnHour} miles an hour: no lifts, nobody aloft.`,
          'Wait for less wind.',
          commonPractice,
        ),
      ]
    : [
        caution(
          'weather',
          `Wind of ${windMilesAnHour} miles an hour: tie down, no sheets on the hoist.`,
          null,
          commonPractice,
        ),
      ];
}

function hold({ hold: held }: DayWeather, job: Job): Finding[] {
  if (!held) return [];
  if (held.hazards.length > 0 && !held.hazards.some((hazard) => job.hazards.includes(hazard))) return [];
  return [
    stop('weather', `${held.by} has stopped this work for the day: ${held.reason}`, null, commonPractice),
  ];
}

/** What the day's weather, as written down, means for the work. */
export const weatherGate: WorkRule = ({ job, occasion: { yard } }) =>
  yard.weather === null
    ? []
    : [
        ...hold(yard.weather, job),
        ...heat(yard.weather),
        ...cold(yard.weather, job),
        ...smoke(yard.weather),
        ...windAndThunder(yard.weather, job),
      ];
