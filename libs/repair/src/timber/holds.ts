import { addDays } from '@ribband/platform';
import type { FlitchEntity } from './flitch.entity.js';
import type { LayUpEntity } from './lay-up.entity.js';
import type { MoistureReading } from './moisture-reading.entity.js';
import { dayInWords } from './said.js';
import { flitchDay, type StockDay } from './stock-days.js';
import type { StockPromise } from './stock-promise.entity.js';
import type { TimberSettings } from './timber-settings.entity.js';

/** What the holds rest on: the patterns that are wanted now, and the timber book. */
export interface HoldFacts {
  /** Key and name of every piece that is made new. */
  pieces: { key: string; name: string }[];
  /** The lay-up that the shipwright kept. */
  layUp: LayUpEntity;
  flitches: FlitchEntity[];
  readings: MoistureReading[];
  promises: StockPromise[];
  settings: TimberSettings;
  today: string;
}

/** For each piece the day from which its wood can be sawn; nothing for pieces whose wood has been. */
export function pieceDays(facts: HoldFacts): Map<string, { on: string; why: string }> {
  const days = new Map<string, { on: string; why: string }>();
  for (const piece of facts.pieces) {
    const placed = facts.layUp.result.placed.find((one) => one.pattern === piece.key);
    const flitch = placed && facts.flitches.find((one) => one.id === placed.flitch);
    if (flitch?.usedOn) continue;
    const free = flitch?.reservedFor === null ? flitch : undefined;
    const stock = free && flitchDay(free, readingsOf(facts, free), facts.settings, facts.today);
    days.set(
      piece.key,
      stock?.on ? { on: stock.on, why: `${piece.name}: ${stock.why}` } : wanting(facts, piece, stock),
    );
  }
  return days;
}

const readingsOf = (facts: HoldFacts, flitch: FlitchEntity): MoistureReading[] =>
  facts.readings.filter((reading) => reading.flitchId === flitch.id);

/** No stock, or none with a day: the promised day, else the usual time from when it was found wanting. */
function wanting(
  facts: HoldFacts,
  piece: { key: string; name: string },
  stock: StockDay | undefined,
): { on: string; why: string } {
  const { layUp, promises, settings } = facts;
  const why = stock ? stock.why : 'no stock yet';
  const promise = promises.find((one) => one.piece === piece.key);
  if (promise)
    return {
      on: promise.expectedOn,
      why: `${piece.name}: ${why}; expected on ${dayInWords(promise.expectedOn)}`,
    };
  const on = addDays(layUp.madeOn, settings.leadDays);
  return {
    on,
    why: `${piece.name}: ${why}; finding stock usually takes ${settings.leadDays} days, so ${dayInWords(on)} until a day is known`,
  };
}
