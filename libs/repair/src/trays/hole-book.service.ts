import { crossingsOf, type Hole, holesAt, type Hull } from '@ribband/hull';
import { refuse } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { HullRecords } from '../hull/hull-records.service.js';
import type { GradedHole } from './tray-line.js';
import type { Tray } from './tray.entity.js';

/** A hole of a tray's element, with the piece of the frame that the nail goes into. */
export interface TrayHole extends Hole {
  frameNumber: number;
  /** Key of the frame's piece; null where the plank bears on none. */
  piece: string | null;
}

/** The holes of the hull's model: which there are, and where. */
@Injectable()
export class HoleBook {
  constructor(@Inject(HullRecords) private readonly hulls: HullRecords) {}

  async hullOf(manager: EntityManager, organisationId: string): Promise<Hull | null> {
    const haulOut = await haulOutInForce(manager, organisationId);
    return haulOut && this.hulls.hullOf(manager, haulOut.id);
  }

  /** Forward first, from below; none where the hull's model does not have the element. */
  async holesOf(manager: EntityManager, tray: Tray): Promise<TrayHole[]> {
    const hull = await this.hullOf(manager, tray.organisationId);
    return hull === null ? [] : holesIn(hull, tray.elementKey);
  }

  async refuseUnknown(manager: EntityManager, tray: Tray, graded: readonly GradedHole[]): Promise<void> {
    if (graded.length === 0) return;
    const known = new Set((await this.holesOf(manager, tray)).map((hole) => hole.key));
    const stranger = graded.find((hole) => !known.has(hole.key));
    if (stranger)
      refuse('BAD_INPUT', `Tray ${tray.name} has no hole "${stranger.key.slice(0, 100)}".`, {
        field: 'holes',
        remedy:
          known.size > 0
            ? 'Take the holes from the tray’s own list.'
            : 'Enter the outline of the hull first, or grade by the count.',
      });
  }
}

export function holesIn(hull: Hull, elementKey: string): TrayHole[] {
  const plank = hull.planks.find((one) => one.key === elementKey);
  if (!plank) return [];
  return crossingsOf(hull, plank).flatMap((crossing) =>
    holesAt(crossing).map((hole) => ({
      ...hole,
      frameNumber: crossing.frame.number,
      piece: crossing.pieces[hole.layer]?.key ?? null,
    })),
  );
}
