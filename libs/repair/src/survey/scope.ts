import {
  type Hull,
  HullRefusal,
  type MethodBook,
  type MinimumOpening,
  openingAlternatives,
  type OverrideNeeded,
  overridesNeeded,
  type Scope,
  scopeOfSurvey,
} from '@ribband/hull';
import { settledSurvey } from './settled.js';
import type { SurveyDocument } from './survey-shape.js';

/** What is to be opened and done, with what else could be chosen and what needs the shipwright's word. */
export interface ScopeFound {
  scope: Scope;
  /** Other openings that do, cheapest in hours first; the chosen one is among them when one of the aims gives it. */
  alternatives: MinimumOpening[];
  /** Limits that this scope cannot keep without the shipwright's written word. */
  overridesNeeded: OverrideNeeded[];
}

/**
 * What is to be opened and done, without what else could be chosen.
 * @throws HullRefusal naming the field of the survey or of the choices that does not hold
 */
export function chosenScope(hull: Hull, survey: SurveyDocument, book: MethodBook): Scope {
  const { openings: _openings, inspectionStrake, by: _by, reason: _reason, ...choices } = survey.choices;
  return scopeOfSurvey(hull, settledSurvey(hull, survey), {
    ...choices,
    book,
    ...(inspectionStrake === null ? {} : { inspectionStrake }),
  });
}

/**
 * Survey to scope.
 * @throws HullRefusal naming the field of the survey or of the choices that does not hold
 */
export function scopeOf(hull: Hull, survey: SurveyDocument, book: MethodBook): ScopeFound {
  const { openings, stayOverHead, stays, offAnyway } = survey.choices;
  const scope = chosenScope(hull, survey, book);
  return {
    scope,
    alternatives: openingAlternatives(hull, { drawn: scope.drawn, stayOverHead, stays, offAnyway, book }),
    overridesNeeded: overridesNeeded(hull, scope.elements, openings),
  };
}

const planksOf = ({ off }: MinimumOpening): string => off.map((plank) => plank.key).join(' ');

/**
 * The inspection strake is a ceiling plank of hers, and an opening that costs more hours than another wants a written
 * reason.
 * @throws HullRefusal
 */
export function needChoices(hull: Hull, found: ScopeFound, { choices }: SurveyDocument): void {
  const { inspectionStrake: strake } = choices;
  const ceiling = hull.planks.filter(({ skin }) => skin === 'ceiling');
  if (strake !== null && !ceiling.some(({ key }) => key === strake))
    throw new HullRefusal(
      'survey.choices.inspectionStrake',
      `there is no ceiling plank ${strake}`,
      ceiling[0] ? `a ceiling plank such as ${ceiling[0].key}, or none` : 'none: she has no ceiling',
    );
  needReason(found, choices);
}

function needReason({ scope, alternatives }: ScopeFound, choices: SurveyDocument['choices']): void {
  const [cheapest] = alternatives;
  if (!cheapest || choices.reason !== null || planksOf(cheapest) === planksOf(scope.opening)) return;
  const hours = (minutes: number): string => `${Math.round(minutes / 60)} hours`;
  throw new HullRefusal(
    'survey.choices.reason',
    `this opening takes ${hours(scope.opening.personMinutes)}, another would take ${hours(cheapest.personMinutes)}`,
    'why this one all the same, in writing',
  );
}
