import { onTheDay, stop } from './found.js';
import type { GateRule, Seated, WorkRule } from './gate.types.js';
import { cardCountsOn } from './skill-and-card.js';
import type { YardFacts } from './yard-facts.js';

/** The regulation's least minutes of a watch after hot work: 29 CFR 1915.504(c)(2). */
const leastWatchMinutes = 30;

/** Minutes for which a fire watch stays after the last spark. */
export const watchMinutes = ({ fireWatchMinutes }: Pick<YardFacts, 'fireWatchMinutes'>): number =>
  Math.max(leastWatchMinutes, fireWatchMinutes);

/**
 * A watch of its own: somebody with the card whose seat is the watch's or a plain hand's, and somebody else who does
 * the work. 29 CFR 1915.504(b), (c)(1).
 */
export const fireWatchGate: GateRule = ({ hand, seat, job, occasion }) => {
  if (!job.hazards.includes('hot-work')) return [];
  const { fireWatchKinds, fireWatchSkills } = occasion.yard;
  const isWatch = (one: Seated): boolean =>
    (one.seat.skill === null ||
      fireWatchSkills.has(one.seat.skill.id) ||
      one.seat.cards.some((card) => fireWatchKinds.has(card.id))) &&
    one.hand.cards.some((card) => fireWatchKinds.has(card.kindId) && cardCountsOn(card, occasion.on));
  const crew = [{ hand, seat }, ...occasion.alongside];
  if (crew.length >= 2 && crew.some(isWatch)) return [];
  return [
    onTheDay(occasion.asked)(
      'fire-watch',
      'Hot work has a fire watch who does nothing else, and nobody with that card is down for it.',
      'Somebody with a hot-work watch card takes a place on it, beside those who cut.',
    ),
  ];
};

/** Hot work leaves the watch its time before the turnout ends. 29 CFR 1915.504(c)(2) for the least. */
export const hotWorkLastGate: WorkRule = ({ job, occasion }) => {
  if (!job.hazards.includes('hot-work')) return [];
  const minutes = watchMinutes(occasion.yard);
  if (occasion.turnoutEndsAt - occasion.startsAt <= minutes * 60_000)
    return [
      stop(
        'hot-work-last',
        `Hot work does not end the day: the watch stays ${minutes} minutes, and the turnout ends before.`,
        'Do it earlier in the turnout, or at another.',
      ),
    ];
  if (occasion.turnoutEndsAt - occasion.endsAt >= minutes * 60_000) return [];
  return [
    {
      ...stop(
        'hot-work-last',
        `The last spark is ${minutes} minutes before the end of the turnout; the watch stays that long, and somebody looks again later.`,
      ),
      weight: 'caution',
    },
  ];
};
