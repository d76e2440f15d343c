import { feet, inches, type Millimetres } from '../measure.js';
import { need, needPositive, needWhole } from '../refusal.js';
import { type HullOutline } from './outline.js';
import { type Layer, SIDES } from './names.js';

const LAYERS: readonly Layer[] = ['forward', 'aft'];

/**
 * More than this no wooden vessel has. The products are bounded too: no outline that is taken keeps the yard waiting
 * for more than seconds, whatever the survey. Common practice, no source.
 */
export const MOST = {
  frames: 130,
  strakes: 40,
  members: 16,
  joints: 8,
  planks: 2000,
  crossings: 2400,
  memberCrossings: 1300,
};
const CLOSEST = inches(3);
const WIDEST_SPACE = feet(6);

/** Refuses an outline that contradicts itself or is of no wooden vessel, at the first field that does not hold. */
export function checkOutline(outline: HullOutline): void {
  const { frames, strakes, ceiling, members } = outline;
  needWhole(frames.count, 'frames.count', 2, MOST.frames);
  needSpace(frames.roomAndSpace, 'frames.roomAndSpace');
  needPositive(frames.sided, 'frames.sided', 'millimetres');
  needWhole(strakes.count, 'strakes.count', 1, MOST.strakes);
  needProduct(frames.count * strakes.count, 'strakes.count', 'strakes', MOST.crossings);
  needPositive(strakes.width, 'strakes.width', 'millimetres');
  needPositive(strakes.thickness, 'strakes.thickness', 'millimetres');
  needWhole(frames.boltsEachSideOfJoint, 'frames.boltsEachSideOfJoint', 0, 8);
  checkFrame(frames, 'frames', strakes.count);
  for (const side of SIDES) checkPattern(outline, side);
  needWhole(ceiling.strakes, 'ceiling.strakes', 0, MOST.strakes);
  needProduct(frames.count * ceiling.strakes, 'ceiling.strakes', 'ceiling strakes', MOST.crossings);
  needWhole(ceiling.nails, 'ceiling.nails', 0, 12);
  need(
    ceiling.strakes === 0 || (ceiling.from >= 0 && ceiling.from < ceiling.to && ceiling.to <= frames.head),
    'ceiling.from',
    `the ceiling would run from ${ceiling.from} to ${ceiling.to}`,
    'from below to, both between the rabbet and the frame heads',
  );
  needBays(ceiling.buttBays, frames.count, 'ceiling.buttBays');
  needWhole(members.length, 'members', 0, MOST.members);
  needProduct(frames.count * members.length, 'members', 'members', MOST.memberCrossings);
  members.forEach((member, index) => {
    needWhole(member.boltsAtFrame, `members[${index}].boltsAtFrame`, 0, 12);
    need(
      member.at >= 0 && member.at <= frames.head,
      `members[${index}].at`,
      `${member.name} lies off the frames`,
      `a height from 0 to ${frames.head}`,
    );
  });
  checkExceptions(outline);
}

function needSpace(space: Millimetres, field: string): void {
  need(
    space >= CLOSEST && space <= WIDEST_SPACE,
    field,
    `${space} mm from frame to frame is not built`,
    `${Math.ceil(CLOSEST)} to ${Math.floor(WIDEST_SPACE)} millimetres`,
  );
}

function needProduct(crossings: number, field: string, what: string, most: number): void {
  need(crossings <= most, field, `frames times ${what} come to ${crossings}`, `at most ${most} together`);
}

function checkFrame(
  frame: {
    head?: number;
    joints?: Record<Layer, number[]>;
    moulded?: { heel: number; head: number };
  },
  field: string,
  strakes: number,
): void {
  const head = frame.head ?? strakes;
  need(
    head > 0 && head <= strakes,
    `${field}.head`,
    `frames would end at ${head}`,
    `a height from 0 to ${strakes}`,
  );
  if (frame.moulded) {
    needPositive(frame.moulded.heel, `${field}.moulded.heel`, 'millimetres');
    needPositive(frame.moulded.head, `${field}.moulded.head`, 'millimetres');
  }
  for (const layer of frame.joints ? LAYERS : []) {
    needWhole(frame.joints?.[layer].length ?? 0, `${field}.joints.${layer}`, 0, MOST.joints);
    frame.joints?.[layer].forEach((at, index, all) => {
      need(
        at > (all[index - 1] ?? 0) && at < head,
        `${field}.joints.${layer}[${index}]`,
        `a joint at ${at} is out of order or off the frame`,
        'heights upwards, between the rabbet and the head',
      );
    });
  }
}

function checkPattern(outline: HullOutline, side: 'port' | 'starboard'): void {
  const pattern = outline.strakes.butts[side];
  const field = `strakes.butts.${side}`;
  need(pattern.first.length > 0, `${field}.first`, 'no first butt is given', 'at least one bay');
  pattern.first.forEach((bay, index) => {
    needWhole(bay, `${field}.first[${index}]`, 1, outline.frames.count - 1);
  });
  needWhole(pattern.every, `${field}.every`, 1);
  needWhole(pattern.leaveAft, `${field}.leaveAft`, 1);
}

function checkExceptions(outline: HullOutline): void {
  (outline.exceptions ?? []).forEach((one, index) => {
    const field = `exceptions[${index}]`;
    if ('frames' in one) {
      needRange(one.frames, outline.frames.count, `${field}.frames`);
      checkFrame({ head: outline.frames.head, ...one }, field, outline.strakes.count);
      if (one.space !== undefined) {
        needSpace(one.space, `${field}.space`);
        need(
          one.side === undefined,
          `${field}.side`,
          'frames stand opposite each other',
          'no side with space',
        );
      }
      return;
    }
    needRange(one.strakes, outline.strakes.count, `${field}.strakes`);
    if (one.width !== undefined) needPositive(one.width, `${field}.width`, 'millimetres');
    if (one.thickness !== undefined) needPositive(one.thickness, `${field}.thickness`, 'millimetres');
    if (one.nailsAtFrame !== undefined) needWhole(one.nailsAtFrame, `${field}.nailsAtFrame`, 1, 12);
    if (one.over) needRange(one.over, outline.frames.count, `${field}.over`);
    if (one.buttBays) needBays(one.buttBays, outline.frames.count, `${field}.buttBays`);
  });
}

function needRange([first, last]: [number, number], count: number, field: string): void {
  needWhole(first, `${field}[0]`, 1, count);
  needWhole(last, `${field}[1]`, first, count);
}

function needBays(bays: number[], frames: number, field: string): void {
  bays.forEach((bay, index) => {
    needWhole(bay, `${field}[${index}]`, index === 0 ? 1 : bays[index - 1] + 1, frames - 1);
  });
}
