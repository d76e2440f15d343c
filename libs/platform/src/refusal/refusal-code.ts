import { registerEnumType } from '@nestjs/graphql';

/**
 * Every reason for which the yard says no: one closed list, so that the page can have an answer for each.
 * The text of an entry is shown in the GraphQL schema.
 */
export const refusalCodes = {
  BAD_INPUT: 'A value has the wrong shape or lies outside its limits.',
  NOT_FOUND: 'There is no such thing, or it is not yours to see.',
  NOT_PERMITTED: 'Your role may not do this.',
  NOT_SIGNED_IN: 'Sign in first.',
  CHANGED_MEANWHILE: 'Somebody else changed this since you read it.',
  ALREADY_EXISTS: 'There is one like this already.',
  STILL_IN_USE: 'Something else still needs it.',
  UNKNOWN_SKILL: 'The yard knows no such skill.',
  LINK_CIRCLE: 'The links would lead round in a circle.',
  RULE_NEVER_OCCURS: 'The rule gives no day at all.',
  ESTIMATE_OUT_OF_ORDER: 'An estimate must rise from low over likely to high.',
  NEGATIVE_COUNT: 'A count cannot be below zero.',
  CREW_OUT_OF_ORDER: 'The crew must rise from least over efficient to most, and the seats must fit in it.',
  ONE_GO_TOO_LONG: 'Work that must be done in one go is longer than the longest turnout.',
  PLACE_TAKEN: 'Somebody else has this place.',
  PLACE_NOT_OPEN: 'This place cannot be taken or left any more.',
  SKILL_MISSING: 'The place asks for a skill that the volunteer has not been signed off for.',
  CARD_MISSING: 'The place asks for a card that the volunteer has not shown.',
  CARD_EXPIRED: 'A card that the place asks for is out of date on that day.',
  TOO_YOUNG: 'The place has a least age.',
  CONSENT_MISSING: 'Under 18 a parent says yes first, by kind of work.',
  MONTH_FULL: 'They have asked for not more turnouts than that in a month.',
  NEEDS_SUPERVISOR: 'Nobody who may supervise is on the place yet.',
  GATE_CLOSED: 'How things stand at the yard that day does not allow the work.',
  ALREADY_ELSEWHERE: 'The volunteer is at another place at that time.',
  OPENING_LIMIT_REACHED: 'As much of the hull is open as may be at once.',
  SUPPORT_MISSING: 'A shore, brace or ribband that has to stand first is not on record.',
  SHAPE_HOLD: 'A witness mark has moved, or was never read: nothing is opened.',
  NOT_SEEN: 'Somebody has to see it first, and that is not written down.',
  PLAN_OUTDATED: 'The plan was made from older records.',
  NO_PLAN: 'There is no plan yet.',
  TURNOUT_OVER: 'The turnout is over or was called off.',
  HOURS_OVERLAP: 'The person has hours in the book for that time already.',
  PERIOD_CLOSED: 'The hours of that day are closed and do not change any more.',
  TASK_NOT_READY: 'The task is not in a state that allows this.',
  YARD_NOT_EMPTY: 'The yard has records already.',
  DEMO_ONLY: 'Only the demo yard may do this.',
  SIGN_IN_FAILED: 'The address and the password do not belong together.',
  TOO_MANY_TRIES: 'Too many tries; wait a while.',
  PASSWORD_TOO_WEAK: 'The password is too short or too easily guessed.',
} as const;

export type RefusalCode = keyof typeof refusalCodes;

/** The same list as a value, for GraphQL. */
export const RefusalCode = Object.fromEntries(
  Object.keys(refusalCodes).map((code) => [code, code]),
) as Record<RefusalCode, RefusalCode>;

registerEnumType(RefusalCode, {
  name: 'RefusalCode',
  description: 'Why the yard said no.',
  valuesMap: Object.fromEntries(
    Object.entries(refusalCodes).map(([code, description]) => [code, { description }]),
  ),
});
