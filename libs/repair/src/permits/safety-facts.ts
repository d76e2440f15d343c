import { type AgeTable, bareYard, type DayWeather, heatRest, usualAges, type YardFacts } from '@ribband/crew';
import { In, IsNull, type EntityManager } from 'typeorm';
import { DayWeatherEntity } from './day-weather.entity.js';
import { Permit } from './permit.entity.js';
import { SafetyTag } from './safety-tag.entity.js';
import { YardSafety } from './yard-safety.entity.js';

/** What this room keeps of the facts that the gates ask for. */
type SafetyFacts = Pick<YardFacts, 'ages' | 'permits' | 'tags' | 'weather' | 'protectorsRating'>;

/** How things stand on some days by what is written down: permits, tags, weather, the organisation's own settings. */
export async function safetyFactsOn(
  manager: EntityManager,
  organisationId: string,
  days: readonly string[],
): Promise<(on: string) => SafetyFacts> {
  const permits = await manager.findBy(Permit, { organisationId, closedAt: IsNull() });
  const rows = await manager.findBy(SafetyTag, { organisationId });
  const tags = rows.map(({ withdrawnBy, ...tag }) => ({ ...tag, isWithdrawn: withdrawnBy !== null }));
  const weather = await manager.findBy(DayWeatherEntity, { organisationId, heldOn: In([...days]) });
  const own = await manager.findOneBy(YardSafety, { organisationId });
  return (on) => {
    const day = weather.find(({ heldOn }) => heldOn === on);
    return {
      ages: own?.ages ?? bareYard.ages,
      permits,
      tags,
      weather: day ? asWeather(day) : null,
      protectorsRating: own?.protectorsRating ?? null,
    };
  };
}

function asWeather({ holdReason, holdHazards, writtenBy, ...day }: DayWeatherEntity): DayWeather {
  return {
    ...day,
    hold: holdReason === null ? null : { by: writtenBy, reason: holdReason, hazards: holdHazards },
  };
}

/** Minutes of rest that the heat written down for a day takes out of so many minutes of work. */
export async function restsOf(
  manager: EntityManager,
  organisationId: string,
): Promise<(on: string, minutes: number) => number> {
  const days = await manager.findBy(DayWeatherEntity, { organisationId });
  const highs = new Map(days.map(({ heldOn, highFahrenheit }) => [heldOn, highFahrenheit]));
  return (on, minutes) => heatRest(highs.get(on) ?? null, minutes);
}

/** The organisation's own ages, or the usual ones. */
export async function agesOf(manager: EntityManager, organisationId: string): Promise<AgeTable> {
  return (await manager.findOneBy(YardSafety, { organisationId }))?.ages ?? usualAges;
}
