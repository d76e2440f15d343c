import { type Millimetres } from '../measure.js';
import { need } from '../refusal.js';
import { checkOutline, MOST } from './check-outline.js';
import { buildFrame } from './build-frame.js';
import { type Hull, type Plank } from './hull.js';
import { plankKey, plankName, SIDES, type Side } from './names.js';
import { frameExceptions, lastOf, strakeExceptions } from './exceptions.js';
import { type HullOutline } from './outline.js';

/** Names every frame, piece, joint, bolt and plank. Refuses an outline that contradicts itself. */
export function buildHull(outline: HullOutline): Hull {
  checkOutline(outline);
  const numbers = Array.from({ length: outline.frames.count }, (_, index) => index + 1);
  const planks = SIDES.flatMap((side) => [...planking(outline, side), ...ceiling(outline, side)]);
  need(
    planks.length <= MOST.planks,
    'strakes.butts',
    `so many butts make ${planks.length} planks`,
    `at most ${MOST.planks}, the ceiling's among them`,
  );
  const stations = frameStations(outline);
  return {
    outline,
    frames: SIDES.flatMap((side) => numbers.map((number) => buildFrame(outline, number, side))),
    planks,
    stations,
    unevenSpacing: (outline.exceptions ?? []).some((one) => 'frames' in one && one.space !== undefined),
  };
}

function frameStations(outline: HullOutline): Millimetres[] {
  const stations = [0, 0];
  for (let frame = 1; frame < outline.frames.count; frame += 1) {
    const space = lastOf(frameExceptions(outline, frame, 'port'), 'space', outline.frames.roomAndSpace);
    stations.push(stations[frame] + space);
  }
  return stations;
}

function planking(outline: HullOutline, side: Side): Plank[] {
  const { count, width, thickness } = outline.strakes;
  return Array.from({ length: count }, (_, index) => index + 1).flatMap((strake) => {
    const special = strakeExceptions(outline, strake, side);
    const [first, last] = lastOf(special, 'over', [1, outline.frames.count]);
    const butts = lastOf(special, 'buttBays', patternButts(outline, strake, side));
    const within = butts.filter((bay) => bay >= first && bay < last);
    const size = {
      width: lastOf(special, 'width', width),
      thickness: lastOf(special, 'thickness', thickness),
    };
    return lay('planking', side, strake, first, last, within).map((plank) => ({
      ...plank,
      ...size,
      from: strake - 1,
      to: strake,
    }));
  });
}

function patternButts(outline: HullOutline, strake: number, side: Side): number[] {
  const { first, every, leaveAft } = outline.strakes.butts[side];
  const butts: number[] = [];
  const start = first[(strake - 1) % first.length];
  for (let bay = start; outline.frames.count - bay >= leaveAft; bay += every) butts.push(bay);
  return butts;
}

function ceiling(outline: HullOutline, side: Side): Plank[] {
  const { strakes, from, to, thickness, buttBays } = outline.ceiling;
  const height = strakes === 0 ? 0 : (to - from) / strakes;
  return Array.from({ length: strakes }, (_, index) => index + 1).flatMap((strake) =>
    lay('ceiling', side, strake, 1, outline.frames.count, buttBays).map((plank) => ({
      ...plank,
      width: height * outline.strakes.width,
      thickness,
      from: from + (strake - 1) * height,
      to: from + strake * height,
    })),
  );
}

function lay(
  skin: Plank['skin'],
  side: Side,
  strake: number,
  first: number,
  last: number,
  buttBays: number[],
): Omit<Plank, 'from' | 'to' | 'width' | 'thickness'>[] {
  const ends = [...buttBays, last];
  return ends.map((lastFrame, index) => ({
    key: plankKey(skin, strake, index + 1, side),
    name: plankName(skin, strake, index + 1, side),
    skin,
    side,
    strake,
    number: index + 1,
    firstFrame: index === 0 ? first : ends[index - 1] + 1,
    lastFrame,
  }));
}
