import { stop } from './found.js';
import type { Case, GateRule, Shift } from './gate.types.js';

const hour = 3_600_000;
const mostHours = 8;
const leastRestHours = 10;
const mostMachineHours = 6;
/** Breaks shorter than this belong to the shift. Common practice. */
const longestBreakHours = 4;

/** The work in question as a shift of its own. */
export function thisShift({ job, occasion }: Pick<Case, 'job' | 'occasion'>): Shift {
  const { startsAt, endsAt } = occasion;
  return { startsAt, endsAt, isMachine: job.hazards.includes('machine'), noiseDba: job.noiseDba };
}

/** Everything that belongs to one shift with the work in question, that work included, in order of time. */
export function sameShift(given: Pick<Case, 'job' | 'occasion'>): Shift[] {
  const own = thisShift(given);
  const all = [...given.occasion.shifts, own].sort((a, b) => a.startsAt - b.startsAt);
  const groups: Shift[][] = [];
  let end = -Infinity;
  for (const shift of all) {
    const last = groups.at(-1);
    if (last && shift.startsAt - end < longestBreakHours * hour) last.push(shift);
    else groups.push([shift]);
    end = Math.max(end, shift.endsAt);
  }
  return groups.find((group) => group.includes(own)) ?? [own];
}

/** Milliseconds that the shifts cover, counting no minute twice. */
function covered(shifts: readonly Shift[]): number {
  let sum = 0;
  let upTo = -Infinity;
  for (const { startsAt, endsAt } of [...shifts].sort((a, b) => a.startsAt - b.startsAt)) {
    sum += Math.max(0, endsAt - Math.max(startsAt, upTo));
    upTo = Math.max(upTo, endsAt);
  }
  return sum;
}

/** At most 8 hours a shift. Common practice. */
export const hoursGate: GateRule = (given) =>
  covered(sameShift(given)) > mostHours * hour
    ? [stop('hours-a-shift', `That would be more than ${mostHours} hours in one shift.`, 'Take fewer hours.')]
    : [];

/** At least 10 hours between shifts. Common practice. */
export const restGate: GateRule = (given) => {
  const shift = sameShift(given);
  const start = Math.min(...shift.map((one) => one.startsAt));
  const end = Math.max(...shift.map((one) => one.endsAt));
  const tooSoon = given.occasion.shifts.some(
    (other) =>
      !shift.includes(other) && Math.max(start - other.endsAt, other.startsAt - end) < leastRestHours * hour,
  );
  return tooSoon
    ? [
        stop(
          'rest',
          `There would be less than ${leastRestHours} hours’ rest between shifts.`,
          'Leave one of them.',
        ),
      ]
    : [];
};

/** Machines stop after 6 hours of anyone's shift. Common practice. */
export const machineHoursGate: GateRule = (given) => {
  if (!given.job.hazards.includes('machine')) return [];
  const machine = sameShift(given).filter((shift) => shift.isMachine);
  return covered(machine) > mostMachineHours * hour
    ? [
        stop(
          'machine-hours',
          `Machines stop after ${mostMachineHours} hours of anyone’s shift.`,
          'Go on by hand.',
        ),
      ]
    : [];
};
