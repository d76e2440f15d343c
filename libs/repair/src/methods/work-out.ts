import { type Expansion, expandScope, type Hull, openingLimits, type OpeningSettings } from '@ribband/hull';
import type { ElementDocument, LinkDocument, OpeningLimitDocument } from '../document/repair-document.js';
import { scopeOf, type ScopeFound } from '../survey/scope.js';
import type { SurveyDocument } from '../survey/survey-shape.js';
import { capital } from '../words.js';
import type { MethodsDocument } from './methods-shape.js';
import { inYardNames, type YardNames } from './yard-names.js';

/** What the methods make of a survey: in the yard's own names, without what its own list has. */
export interface Made extends Expansion {
  elements: ElementDocument[];
  openingLimits: OpeningLimitDocument[];
}

/** What a survey comes to by the yard's methods. */
export interface WorkedOut extends ScopeFound {
  made: Made;
}

/**
 * Survey to tasks, links, pieces to be opened and the limits on them. The same input gives the same answer.
 * @throws HullRefusal naming the field of outline, survey or methods that does not hold
 */
export function workOut(
  hull: Hull,
  survey: SurveyDocument,
  methods: MethodsDocument,
  yard: YardNames,
): WorkedOut {
  const found = scopeOf(hull, survey, methods.book);
  const whole = expandScope(methods.book, found.scope.elements, methods.minutesATurnout);
  const expansion = inYardNames(fitted(whole, methods), methods.names, yard);
  const opened = [...new Set(expansion.tasks.flatMap((task) => task.opens))];
  return {
    ...found,
    made: {
      ...expansion,
      elements: opened.map((key) => elementOf(hull, key)),
      openingLimits: limitsOf(hull, opened, survey.choices.openings),
    },
  };
}

/** The yard's own tasks in place of the steps that they stand for, and nothing of what the yard left out. */
function fitted({ tasks, links }: Expansion, { ownTasks, leftOut }: MethodsDocument): Expansion {
  const out = new Set(leftOut.tasks);
  const cut = new Set(leftOut.links.map(linkKey));
  const own = (ref: string): string => ownTasks[ref] ?? ref;
  const fits = new Map<string, LinkDocument>();
  for (const link of links) {
    // The yard's own list says itself how its tasks follow each other.
    if (link.before in ownTasks && link.after in ownTasks) continue;
    const tied = { ...link, before: own(link.before), after: own(link.after) };
    const key = linkKey(tied);
    if (tied.before === tied.after || out.has(tied.before) || out.has(tied.after) || cut.has(key)) continue;
    // Two steps behind one task of the yard ask for the longer lag.
    const other = fits.get(key);
    if (!other || other.lagMinutes < tied.lagMinutes) fits.set(key, tied);
  }
  return {
    tasks: tasks.filter(({ ref }) => !(ref in ownTasks) && !out.has(ref)),
    links: [...fits.values()],
  };
}

export const linkKey = ({
  before,
  after,
  relation,
}: Pick<LinkDocument, 'before' | 'after' | 'relation'>): string => `${before} ${after} ${relation}`;

function elementOf(hull: Hull, key: string): ElementDocument {
  const frame = hull.frames.find((one) => one.key === key);
  if (frame)
    return {
      ref: key,
      name: capital(frame.name),
      kind: 'frame',
      side: frame.side,
      frame: frame.number,
      strake: null,
    };
  const plank = hull.planks.find((one) => one.key === key);
  if (!plank) throw new Error(`The hull has no ${key}, which one of her tasks opens`);
  return {
    ref: key,
    name: capital(plank.name),
    kind: plank.skin === 'planking' ? 'plank' : 'ceiling',
    side: plank.side,
    frame: plank.firstFrame,
    strake: plank.strake,
  };
}

/**
 * The limits that bind, and, marked as set aside, those of the trade that the shipwright changed: people see what
 * was given up, by whom and why.
 */
export function limitsOf(hull: Hull, opened: string[], settings: OpeningSettings): OpeningLimitDocument[] {
  const told = ({ key, name, elements, atMost, basis }: ReturnType<typeof openingLimits>[number]) => ({
    ref: key,
    name: capital(name),
    elements,
    atMost,
    basis: capital(basis),
  });
  const binding = openingLimits(hull, opened, settings).map((limit) => ({ ...told(limit), override: null }));
  const bound = new Set(binding.map((limit) => limit.ref));
  const setAside = openingLimits(hull, opened).flatMap((limit) => {
    const change = settings[limit.rule as keyof OpeningSettings];
    if (!change || bound.has(limit.key)) return [];
    return [
      { ...told(limit), override: { by: change.by, reason: change.reason, elements: null, untilOn: null } },
    ];
  });
  return [...binding, ...setAside];
}
