/**
 * Every kind of news that people are told: one closed list, so that each person can choose by kind. The room that
 * knows a piece of news words it; this list only says what it is about.
 */
export const messageKinds = {
  'roster-posted': { about: 'A roster with your name on it was posted.', isSafety: false },
  'place-changed': { about: 'A place of yours was changed, or is yours no more.', isSafety: false },
  'place-wanted': { about: 'You are asked to step in at a place.', isSafety: false },
  'card-expiring': { about: 'A card of yours runs out soon.', isSafety: false },
  'turnout-called-off': { about: 'A turnout that you have a place at was called off.', isSafety: true },
  incident: { about: 'Something happened at the yard that you answer for.', isSafety: true },
  'minor-came-and-left': { about: 'Somebody under 18 whom you answer for came, or left.', isSafety: true },
  'yard-notice': { about: 'A word from those who run the yard.', isSafety: false },
} as const satisfies Record<string, { about: string; isSafety: boolean }>;

export type MessageKind = keyof typeof messageKinds;
export const messageKindNames = Object.keys(messageKinds) as [MessageKind, ...MessageKind[]];

/** How somebody wants to be told: by e-mail and in the page, in the page only, or not at all. */
export const messageWays = ['email', 'page', 'off'] as const;
export type MessageWay = (typeof messageWays)[number];

/** What is about safety is told always: it can be kept to the page, never switched off. */
export const maySwitchOff = (kind: MessageKind): boolean => !messageKinds[kind].isSafety;
