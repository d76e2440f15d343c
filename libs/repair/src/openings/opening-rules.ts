import { OPENING_RULES, type OpeningSettings } from '@ribband/hull';
import { refuse } from '@ribband/platform';

export const limitRules = ['neighbourFrames', 'frameRun', 'strakeRun', 'bothSides', 'keepClosed'] as const;
export type LimitRule = (typeof limitRules)[number];

const places = OPENING_RULES.keepClosed.value;

/** More than there are to count lets all be open. */
const mostOf = { neighbourFrames: 2, frameRun: OPENING_RULES.frameRun.value.of, strakeRun: 80, bothSides: 2 };

/** The shipwright's value of a rule, before it is written down. */
export interface RuleWish {
  atMost: number | null;
  keepClosed: string[] | null;
}

/** Settings with one rule changed, or back at its default (null). @throws RefusalError naming what is missing */
export function withRule(
  settings: OpeningSettings,
  rule: LimitRule,
  wish: RuleWish | null,
  written: { by: string; reason: string },
): OpeningSettings {
  const { [rule]: _old, ...others } = settings;
  if (wish === null) return others;
  if (rule === 'keepClosed') return { ...others, keepClosed: { value: placesOf(wish), ...written } };
  const atMost = numberOf(wish, mostOf[rule]);
  switch (rule) {
    case 'neighbourFrames':
      return { ...others, neighbourFrames: { value: atMost, ...written } };
    case 'frameRun':
      return { ...others, frameRun: { value: { atMost, of: OPENING_RULES.frameRun.value.of }, ...written } };
    case 'strakeRun':
      // That ribbands stand is asked before each opening (prerequisites); here it is only written that they must.
      return { ...others, strakeRun: { value: { atMost }, ribbandsStand: true, ...written } };
    case 'bothSides':
      return { ...others, bothSides: { value: atMost, ...written } };
  }
}

/** Refuses settings that came with a survey where one lets more be open than there is to count. */
export function refuseSenseless(
  { neighbourFrames, frameRun, bothSides }: OpeningSettings,
  path: string,
): void {
  const within = (value: number, most: number, field: string): void => {
    if (value > most)
      refuse('BAD_INPUT', `At most ${value} of ${most} is no limit.`, {
        field: `${path}.${field}`,
        remedy: `A whole number from 1 to ${most}.`,
      });
  };
  if (neighbourFrames) within(neighbourFrames.value, mostOf.neighbourFrames, 'neighbourFrames.value');
  if (frameRun) within(frameRun.value.atMost, frameRun.value.of, 'frameRun.value.atMost');
  if (bothSides) within(bothSides.value, mostOf.bothSides, 'bothSides.value');
}

function placesOf({ keepClosed }: RuleWish): (typeof places)[number][] {
  const kept = places.filter((place) => keepClosed?.includes(place));
  if (keepClosed === null || kept.length < keepClosed.length)
    refuse('BAD_INPUT', 'Which places are opened last or alone?', {
      field: 'keepClosed',
      remedy: `Any of ${places.join(', ')}, each once, or none.`,
    });
  return kept;
}

function numberOf({ atMost }: RuleWish, most: number): number {
  if (atMost === null || !Number.isInteger(atMost) || atMost < 1 || atMost > most)
    return refuse('BAD_INPUT', 'How many may be open at once?', {
      field: 'atMost',
      remedy: `A whole number from 1 to ${most}.`,
    });
  return atMost;
}

/** The value of a rule in a few words: the shipwright's, or the trade's default. */
export function ruleInWords(rule: LimitRule, settings: OpeningSettings): string {
  switch (rule) {
    case 'neighbourFrames':
      return `${settings.neighbourFrames?.value ?? OPENING_RULES.neighbourFrames.value} of two neighbouring frames`;
    case 'frameRun': {
      const { atMost, of } = settings.frameRun?.value ?? OPENING_RULES.frameRun.value;
      return `${atMost} of any ${of} frames in a row`;
    }
    case 'strakeRun':
      return `${settings.strakeRun?.value.atMost ?? OPENING_RULES.strakeRun.value.without} neighbouring strakes at one frame`;
    case 'bothSides':
      return `${settings.bothSides?.value ?? OPENING_RULES.bothSides.value} of port and starboard at one station`;
    case 'keepClosed': {
      const kept = settings.keepClosed?.value ?? places;
      return kept.length === 0 ? 'none' : `${kept.join(', ')} last or alone`;
    }
  }
}
