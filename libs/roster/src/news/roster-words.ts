import type { Wording } from '@ribband/platform';
import type { TurnoutKind } from '../turnouts/turnout.entity.js';

/** A place as it is told of. */
export interface ToldPlace {
  task: string;
  /** Local day at the yard, 'YYYY-MM-DD', and times 'HH:MM'. */
  on: string;
  from: string;
  to: string;
}

const dayFormat = new Intl.DateTimeFormat('en-US', {
  weekday: 'long',
  day: 'numeric',
  month: 'long',
  timeZone: 'UTC',
});

/** "Saturday, March 13" */
export const sayDay = (day: string): string => dayFormat.format(new Date(`${day}T00:00:00Z`));

/** Work by its name; on an all-hands day with what one does there. */
export const withRole = (title: string, role: string | null): string =>
  role === null ? title : `${title} (${role})`;

const sayPlace = (place: ToldPlace): string =>
  `${sayDay(place.on)}, ${place.from} to ${place.to}: ${place.task}`;

export function rosterPostedWords(places: readonly ToldPlace[]): Wording {
  return {
    subject: `You are on the roster for ${sayDay(places[0]?.on ?? '')}`,
    words: [
      'You are asked to come:',
      ...places.map((place) => `- ${sayPlace(place)}`),
      '',
      'Say yes or no on the page. No is as easy as yes, and nobody asks why.',
    ].join('\n'),
    path: '/places',
  };
}

/** @param why a sentence */
export function placeLostWords(place: ToldPlace, why: string): Wording {
  return {
    subject: `Changed: ${place.task} on ${sayDay(place.on)}`,
    words: `You are not wanted at this place any more: ${sayPlace(place)}.\n${why} See what else is open.`,
    path: '/places',
  };
}

export function roleRenamedWords(place: ToldPlace): Wording {
  return {
    subject: `Changed: what you do on ${sayDay(place.on)}`,
    words: `Your role on the day is called otherwise now: ${sayPlace(place)}.\nYou keep your place. If it is not for you, say so on the page.`,
    path: '/places',
  };
}

/** Whom they would have learned from is not on the work any more. */
export function lessonOverWords(place: ToldPlace): Wording {
  return {
    subject: `Changed: ${place.task} on ${sayDay(place.on)}`,
    words: `Your teacher is not on this work any more, so your place to learn falls away: ${sayPlace(place)}.\nSee what else is open that day.`,
    path: '/places',
  };
}

export function calledOffWords(turnout: {
  on: string;
  from: string;
  reason: string;
  kind: TurnoutKind | null;
}): Wording {
  const what =
    turnout.kind === null ? 'turnout' : { watch: 'watch', 'all-hands': 'all-hands day' }[turnout.kind];
  return {
    subject: `Called off: the ${what} on ${sayDay(turnout.on)}`,
    words: `The ${what} on ${sayDay(turnout.on)} at ${turnout.from} is called off: ${turnout.reason}\nYou need not do anything; please do not come then.`,
    path: '/places',
  };
}

/** Somebody else left: others are asked to step in, who stands by first. */
export function placeWantedWords(place: ToldPlace, standsBy: boolean): Wording {
  return {
    subject: `Can you step in on ${sayDay(place.on)}?`,
    words: `A place has come free: ${sayPlace(place)}.\n${standsBy ? 'You stand by that day, so you are asked first. ' : ''}If you can come, take it on the page; the first who does has it.`,
    path: '/places',
  };
}

/** A turnout as it is told to who stands by at it. */
interface ToldTurnout {
  heldOn: string;
  startTime: string;
  endTime: string;
}

const sayTurnout = ({ heldOn, startTime, endTime }: ToldTurnout): string =>
  `${sayDay(heldOn)}, ${startTime} to ${endTime}`;

export function standByWords(turnouts: readonly ToldTurnout[]): Wording {
  return {
    subject: `You stand by on ${sayDay(turnouts[0]?.heldOn ?? '')}`,
    words: [
      'You said that you come, and are asked to be a swing hand:',
      ...turnouts.map((turnout) => `- ${sayTurnout(turnout)}`),
      '',
      'A swing hand goes where somebody is missing, and is asked first when a place comes free.',
      'If you can’t, say so on the page. Nobody asks why.',
    ].join('\n'),
    path: '/places',
  };
}

export function standNoMoreWords(turnouts: readonly ToldTurnout[]): Wording {
  return {
    subject: `Changed: you need not stand by on ${sayDay(turnouts[0]?.heldOn ?? '')}`,
    words: `You need not stand by any more: ${turnouts.map(sayTurnout).join('; ')}.\nThe roster was posted anew. See what is yours and what is open.`,
    path: '/places',
  };
}
