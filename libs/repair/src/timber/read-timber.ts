import { known, refsById, slug, Volunteer } from '@ribband/crew';
import type { EntityManager, EntityTarget } from 'typeorm';
import { HullShape } from '../shape/hull-shape.entity.js';
import { pointsOf } from '../shape/points.js';
import { FlitchEntity } from './flitch.entity.js';
import { LayUpEntity } from './lay-up.entity.js';
import { TimberLog } from './log.entity.js';
import { MoistureReading } from './moisture-reading.entity.js';
import { SearchTrip } from './search-trip.entity.js';
import { TimberSource } from './source.entity.js';
import { StockPromise } from './stock-promise.entity.js';
import type { TimberDocument } from './timber-document.js';
import { TimberSettings } from './timber-settings.entity.js';

/** The timber's part of a yard document, in the order in which things were entered. Proposals are left out. */
export async function readTimber(
  manager: EntityManager,
  organisationId: string,
  haulOutId: string,
): Promise<TimberDocument> {
  const rows = <T extends object>(entity: EntityTarget<T>): Promise<T[]> =>
    manager.find(entity, { where: { organisationId }, order: { id: 'ASC' } } as never);
  const shape = await manager.findOneBy(HullShape, { haulOutId });
  const sources = await rows(TimberSource);
  const sourceRefs = refsOf(sources);
  const logs = await rows(TimberLog);
  const flitches = await rows(FlitchEntity);
  const marks = new Map([...logs, ...flitches].map(({ id, mark }) => [id, mark]));
  const readings = await rows(MoistureReading);
  const volunteers = await refsById(manager, Volunteer, organisationId);
  const refOf = (refs: ReadonlyMap<string, string>, id: string | null) =>
    id === null ? null : known(refs, id);
  return {
    shape: shape?.measured ?? null,
    settings: settingsOf(await manager.findOneBy(TimberSettings, { haulOutId })),
    sources: sources.map(({ id, name, kind, note, thankedOn, thankedBy }) => ({
      ref: known(sourceRefs, id),
      name,
      kind,
      note,
      thankedOn,
      thankedBy,
    })),
    trips: (await rows(SearchTrip)).map(({ wentOn, whereTo, minutes, volunteerIds, found }) => ({
      wentOn,
      whereTo,
      minutes,
      volunteers: volunteerIds.map((id) => known(volunteers, id)),
      found,
    })),
    logs: logs.map(({ mark, species, sourceId, diameterInches, lengthFeet, cameOn, reservedFor, note }) => ({
      mark,
      species,
      source: refOf(sourceRefs, sourceId),
      diameterInches,
      lengthFeet,
      cameOn,
      reservedFor,
      note,
    })),
    flitches: flitches.map(({ id, mark, species, use, taped, logId, sourceId, ...flitch }) => ({
      mark,
      species,
      use,
      taped,
      log: refOf(marks, logId),
      source: refOf(sourceRefs, sourceId),
      expectedOn: flitch.expectedOn,
      ...(flitch.promisedOn === flitch.expectedOn ? {} : { promisedOn: flitch.promisedOn }),
      ...(flitch.cameOn === null ? {} : { cameOn: flitch.cameOn }),
      lies: flitch.lies,
      reservedFor: flitch.reservedFor,
      usedOn: flitch.usedOn,
      readings: readings
        .filter((reading) => reading.flitchId === id)
        .map(({ readOn, percent, enteredBy, withdrawnReason }) => ({
          on: readOn,
          percent,
          by: enteredBy,
          withdrawnReason,
        })),
    })),
    layUp: layUpOf(
      (await rows(LayUpEntity)).find((one) => one.state === 'kept'),
      marks,
    ),
    promises: (await rows(StockPromise)).map(({ piece, expectedOn, promisedOn, note, enteredBy }) => ({
      piece,
      expectedOn,
      ...(promisedOn === null || promisedOn === expectedOn ? {} : { promisedOn }),
      note,
      by: enteredBy,
    })),
  };
}

function refsOf(sources: TimberSource[]): Map<string, string> {
  const refs = new Map<string, string>();
  const taken = new Set<string>();
  for (const { id, name } of sources) {
    const wanted = slug(name);
    let ref = wanted;
    for (let next = 2; taken.has(ref); next += 1) ref = `${wanted}-${next}`;
    taken.add(ref);
    refs.set(id, ref);
  }
  return refs;
}

function settingsOf(kept: TimberSettings | null): TimberDocument['settings'] {
  if (!kept) return null;
  const {
    id: _id,
    haulOutId: _haulOut,
    organisationId: _organisation,
    version: _version,
    ...settings
  } = kept;
  return { ...settings, changedBy: settings.changedBy ?? '', changedReason: settings.changedReason ?? '' };
}

function layUpOf(kept: LayUpEntity | undefined, marks: ReadonlyMap<string, string>): TimberDocument['layUp'] {
  if (!kept) return null;
  const { placed, wanting, stockUsed, stockAtLeast } = kept.result;
  return {
    madeOn: kept.madeOn,
    keptBy: kept.keptBy ?? '',
    placed: placed.flatMap(({ pattern, flitch, outline, turnedOver, runOut }) => {
      const mark = marks.get(flitch);
      if (mark === undefined) return [];
      return [{ piece: pattern, flitch: mark, points: pointsOf(outline), turnedOver, grainRunOut: runOut }];
    }),
    wanting: wanting.map(({ pattern, why }) => ({ piece: pattern, why })),
    stockUsed: Math.round(stockUsed),
    stockAtLeast: Math.round(stockAtLeast),
  };
}
