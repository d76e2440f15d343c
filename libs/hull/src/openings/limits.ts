import { planksOver } from '../model/ask.js';
import { type Frame, type Hull, type Plank } from '../model/hull.js';
import { SIDES, type Side } from '../model/names.js';
import { need } from '../refusal.js';
import { OPENING_RULES, type OpeningSettings } from './settings.js';

/**
 * At no minute may more than `atMost` of these elements be open: what a scheduler needs to know of the hull's
 * strength, and no more. `basis` is the rule as it is shown beside the limit.
 */
export interface OpeningLimit {
  key: string;
  name: string;
  elements: string[];
  atMost: number;
  rule: keyof typeof OPENING_RULES;
  basis: string;
  override: null | { by: string; reason: string };
}

/**
 * Limits over the elements that are to be opened or are open now. Elements that stay shut take no part, so sets of
 * `atMost` elements or fewer are left out, and so are sets inside another set with the same number.
 */
export function openingLimits(
  hull: Hull,
  elements: string[],
  settings: OpeningSettings = {},
): OpeningLimit[] {
  checkSettings(settings);
  const chosen = new Set(elements);
  const frames = hull.frames.filter((frame) => chosen.has(frame.key));
  const planks = hull.planks.filter((plank) => chosen.has(plank.key) && plank.skin === 'planking');
  const limits = [
    ...SIDES.flatMap((side) => frameLimits(hull, side, frames, settings)),
    ...SIDES.flatMap((side) => strakeRunLimits(hull, side, chosen, settings)),
    ...bothSidesLimits(planks, settings),
    ...keepClosedLimits(hull, planks, settings),
  ];
  return withoutInner(limits.filter((limit) => limit.elements.length > limit.atMost));
}

function checkSettings(settings: OpeningSettings): void {
  for (const [field, change] of Object.entries(settings) as [
    string,
    { by: string; reason: string } | undefined,
  ][])
    need(
      change === undefined || (change.by.trim() !== '' && change.reason.trim() !== ''),
      `settings.${field}`,
      'a limit is changed without a name and a reason',
      'the shipwright’s name and the reason, in writing',
    );
  const { strakeRun } = settings;
  const { mostWithout } = OPENING_RULES.strakeRun.value;
  need(
    strakeRun === undefined || strakeRun.ribbandsStand || strakeRun.value.atMost <= mostWithout,
    'settings.strakeRun',
    `${strakeRun?.value.atMost ?? 0} neighbouring strakes would be open without ribbands`,
    `at most ${mostWithout}, or ribbands that stand`,
  );
}

const written = (change: { by: string; reason: string } | undefined): OpeningLimit['override'] =>
  change ? { by: change.by, reason: change.reason } : null;

function frameLimits(hull: Hull, side: Side, frames: Frame[], settings: OpeningSettings): OpeningLimit[] {
  const pair = settings.neighbourFrames?.value ?? OPENING_RULES.neighbourFrames.value;
  const run = settings.frameRun?.value ?? OPENING_RULES.frameRun.value;
  const windows = [
    { rule: 'neighbourFrames' as const, of: 2, atMost: pair, change: settings.neighbourFrames },
    { rule: 'frameRun' as const, of: run.of, atMost: run.atMost, change: settings.frameRun },
  ];
  return windows.flatMap(({ rule, of, atMost, change }) =>
    Array.from({ length: Math.max(hull.outline.frames.count - of + 1, 0) }, (_, index) => {
      const [first, last] = [index + 1, index + of];
      return {
        key: `${OPENING_RULES[rule].key}-${first}-to-${last}-${side}`,
        name: `frames ${first} to ${last} ${side}: at most ${atMost} out`,
        elements: frames
          .filter((frame) => frame.side === side && frame.number >= first && frame.number <= last)
          .map((frame) => frame.key),
        atMost,
        rule,
        basis: OPENING_RULES[rule].says,
        override: written(change),
      };
    }),
  );
}

/** A window of one strake more than may be open, slid up the side at each frame. */
function strakeRunLimits(
  hull: Hull,
  side: Side,
  chosen: Set<string>,
  settings: OpeningSettings,
): OpeningLimit[] {
  const change = settings.strakeRun;
  const atMost = change?.value.atMost ?? OPENING_RULES.strakeRun.value.without;
  const limits = new Map<string, OpeningLimit>();
  for (let frame = 1; frame <= hull.outline.frames.count; frame += 1) {
    const over = planksOver(hull, frame, side);
    for (let low = 0; low + atMost < over.length; low += 1) {
      const window = over.slice(low, low + atMost + 1);
      if (!window.every((plank) => chosen.has(plank.key))) continue;
      const elements = window.map((plank) => plank.key);
      const [lowest, highest] = [window[0].strake, window[window.length - 1].strake];
      limits.set(elements.join(' '), {
        key: `strake-run-${lowest}-to-${highest}-at-frame-${frame}-${side}`,
        name: `strakes ${lowest} to ${highest} ${side} at frame ${frame}: at most ${atMost} open`,
        elements,
        atMost,
        rule: 'strakeRun',
        basis: OPENING_RULES.strakeRun.says,
        override: written(change),
      });
    }
  }
  return [...limits.values()];
}

const overlap = (one: Plank, other: Plank): boolean =>
  one.firstFrame <= other.lastFrame && other.firstFrame <= one.lastFrame;

function bothSidesLimits(planks: Plank[], settings: OpeningSettings): OpeningLimit[] {
  return planks
    .filter((plank) => plank.side === 'port')
    .flatMap((port) =>
      planks
        .filter((other) => other.side === 'starboard' && other.strake === port.strake && overlap(port, other))
        .map((starboard) => ({
          key: `both-sides-${port.key}-${starboard.key}`,
          name: `${port.name} and ${starboard.name}: one side at a time`,
          elements: [port.key, starboard.key],
          atMost: settings.bothSides?.value ?? OPENING_RULES.bothSides.value,
          rule: 'bothSides' as const,
          basis: OPENING_RULES.bothSides.says,
          override: written(settings.bothSides),
        })),
    );
}

function placeOf(hull: Hull, plank: Plank): 'garboard' | 'bilge' | 'sheer' | null {
  if (plank.skin === 'ceiling') return null;
  if (plank.strake === 1) return 'garboard';
  if (plank.strake === hull.outline.strakes.count) return 'sheer';
  return hull.outline.strakes.bilge.includes(plank.strake) ? 'bilge' : null;
}

function keepClosedLimits(hull: Hull, planks: Plank[], settings: OpeningSettings): OpeningLimit[] {
  const kept: readonly string[] = settings.keepClosed?.value ?? OPENING_RULES.keepClosed.value;
  return planks.flatMap((keeper) => {
    const place = placeOf(hull, keeper);
    if (place === null || !kept.includes(place)) return [];
    return planks
      .filter((other) => other !== keeper && other.side === keeper.side && overlap(keeper, other))
      .map((other) => ({
        key: `last-or-alone-${keeper.key}-${other.key}`,
        name: `${keeper.name} (${place}) is not open with ${other.name}`,
        elements: [keeper.key, other.key],
        atMost: 1,
        rule: 'keepClosed' as const,
        basis: OPENING_RULES.keepClosed.says,
        override: written(settings.keepClosed),
      }));
  });
}

function withoutInner(limits: OpeningLimit[]): OpeningLimit[] {
  const sets = limits.map((limit) => new Set(limit.elements));
  // A set that holds all of another holds its first: only those are looked at.
  const holding = new Map<string, number[]>();
  limits.forEach(({ elements }, at) => {
    for (const element of elements) {
      const all = holding.get(element);
      if (all) all.push(at);
      else holding.set(element, [at]);
    }
  });
  return limits.filter(
    (limit, index) =>
      !(holding.get(limit.elements[0]) ?? []).some((at) => {
        const other = limits[at];
        return (
          at !== index &&
          other.rule === limit.rule &&
          other.atMost <= limit.atMost &&
          limit.elements.every((element) => sets[at].has(element)) &&
          (other.elements.length > limit.elements.length || at < index)
        );
      }),
  );
}
