import { fasteningsOf, type Hull, type MinimumOpening } from '@ribband/hull';
import { capital } from '../words.js';
import type { ScopeFound } from './scope.js';
import { settledFindings } from './settled.js';
import type { SurveyDocument } from './survey-shape.js';
import type { ElementCondition, OpeningChoice, ScopeType } from './survey.types.js';

/** A scope as it is told over the API. */
export function tellScope(hull: Hull, { scope, alternatives, overridesNeeded }: ScopeFound): ScopeType {
  const { opening, counts } = scope;
  const name = namer(hull);
  const others = alternatives.filter((one) => planksOf(one) !== planksOf(opening));
  const openings = [opening, ...others].sort((a, b) => a.personMinutes - b.personMinutes);
  return {
    counts: [
      { what: 'planks off', count: counts.planks },
      { what: 'ceiling planks out', count: counts.ceilingPlanks },
      { what: 'plank nails', count: counts.plankNails },
      { what: 'ceiling nails', count: counts.ceilingNails },
      { what: 'stubs to punch', count: counts.stubs },
      { what: 'bolts', count: counts.bolts },
      { what: 'holes to plug', count: counts.plugs },
      { what: 'feet of seam', count: Math.round(counts.seamFeet) },
    ],
    planksOff: opening.off.map((plank) => ({
      element: plank.key,
      name: capital(plank.name),
      nails: fasteningsOf(hull, plank),
    })),
    joints: opening.joints.map(({ joint, seenFrom, face }) => ({
      piece: capital(joint.piece.name),
      at: joint.at,
      original: joint.original,
      seenFrom: `from ${seenFrom}, ${face}`,
    })),
    openings: openings.map((one) => tellOpening(one, planksOf(one) === planksOf(opening))),
    departures: scope.departures,
    temporary: scope.temporary.map(name),
    doubtful: scope.doubtful.map(name),
    sisterFaults: scope.sisterFaults.map(({ says }) => says),
    limitsInTheWay: overridesNeeded.map(({ limit, frames }) => ({ limit: capital(limit.name), frames })),
  };
}

const planksOf = ({ off }: MinimumOpening): string => off.map((plank) => plank.key).join(' ');

const tellOpening = (opening: MinimumOpening, chosen: boolean): OpeningChoice => ({
  aim: opening.aim,
  chosen,
  hours: Math.round(opening.personMinutes / 6) / 10,
  planksOff: opening.off.map((plank) => capital(plank.name)),
  cut: opening.cut.reduce((sum, { count }) => sum + count, 0),
});

/** The latest word on each piece. */
export function tellConditions(hull: Hull, survey: SurveyDocument): ElementCondition[] {
  const name = namer(hull);
  const causes = new Map(survey.causes.map((cause) => [cause.key, cause.name]));
  return settledFindings(hull, survey).map(({ element, finding }) => ({
    element,
    name: name(element),
    condition: finding.condition,
    cause: finding.cause === null ? null : (causes.get(finding.cause) ?? finding.cause),
    by: finding.by,
    foundOn: finding.on,
    note: finding.note,
  }));
}

function namer(hull: Hull): (key: string) => string {
  const names = new Map(
    [...hull.frames.flatMap((frame) => frame.pieces), ...hull.planks].map((one) => [
      one.key,
      capital(one.name),
    ]),
  );
  return (key) => names.get(key) ?? key;
}
