import { equilibriumMoisture, readyBy } from '@ribband/hull';
import { addDays, daysBetween } from '@ribband/platform';
import type { FlitchEntity } from './flitch.entity.js';
import type { MoistureReading } from './moisture-reading.entity.js';
import { dayInWords } from './said.js';
import type { TimberSettings } from './timber-settings.entity.js';

/** When a flitch can be sawn: a day with its reason; null where no day can be told, with what would help. */
export interface StockDay {
  on: string | null;
  why: string;
}

/** The readings that count, oldest first: none that was withdrawn, and of one day the one that was entered last. */
export function countedReadings(readings: readonly MoistureReading[]): MoistureReading[] {
  const entered = readings
    .filter((reading) => reading.withdrawnReason === null)
    .sort((a, b) => a.enteredAt - b.enteredAt || (a.id < b.id ? -1 : 1));
  const lastOfDay = new Map(entered.map((reading) => [reading.readOn, reading]));
  return [...lastOfDay.values()].sort((a, b) => (a.readOn < b.readOn ? -1 : 1));
}

/** @param today local day of the yard's clock */
export function flitchDay(
  flitch: FlitchEntity,
  readings: readonly MoistureReading[],
  settings: TimberSettings,
  today: string,
): StockDay {
  const come = flitch.expectedOn !== null && flitch.expectedOn > today ? flitch.expectedOn : null;
  const dry = dryDay(flitch, countedReadings(readings), settings, today);
  if (dry.on === null) return dry;
  if (come !== null && come >= dry.on)
    return { on: come, why: `${flitch.mark} is promised for ${dayInWords(come)}` };
  return dry;
}

function dryDay(
  flitch: FlitchEntity,
  readings: MoistureReading[],
  settings: TimberSettings,
  today: string,
): StockDay {
  const target = flitch.use === 'planking' ? settings.plankingPercent : settings.framesPercent;
  if (target === null) return { on: today, why: `${flitch.mark} may be sawn as it is` };
  const latest = readings.at(-1);
  if (!latest) return { on: today, why: `${flitch.mark} has no moisture reading: read it before it is sawn` };
  if (latest.percent <= target) return { on: today, why: `${flitch.mark} is at ${latest.percent} percent` };
  if (readings.length < 2)
    return {
      on: null,
      why: `${flitch.mark} is at ${latest.percent} percent, ${target} are wanted; a second reading on another day tells when`,
    };
  const first = (readings[0] ?? latest).readOn;
  const answer = readyBy(
    readings.map((reading) => ({ day: daysBetween(first, reading.readOn), percent: reading.percent })),
    equilibriumMoisture(settings.fahrenheit, settings.humidity),
    target,
  );
  if (answer.kind === 'ready') return { on: today, why: `${flitch.mark} is dry enough` };
  if (answer.kind === 'not by itself') return { on: null, why: `${flitch.mark}: ${answer.why}` };
  const day = addDays(first, answer.day);
  return {
    on: day > today ? day : today,
    why: `${flitch.mark} is at ${latest.percent} percent; by its readings at ${target} on ${dayInWords(day)}`,
  };
}
