import type { Wording } from '@ribband/platform';

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

export function placeLostWords(place: ToldPlace): Wording {
  return {
    subject: `Changed: ${place.task} on ${sayDay(place.on)}`,
    words: `You are not wanted at this place any more: ${sayPlace(place)}.\nThe roster was posted anew. See what else is open.`,
    path: '/places',
  };
}

export function calledOffWords(turnout: { on: string; from: string; reason: string }): Wording {
  return {
    subject: `Called off: the turnout on ${sayDay(turnout.on)}`,
    words: `The turnout on ${sayDay(turnout.on)} at ${turnout.from} is called off: ${turnout.reason}\nYou need not do anything; please do not come then.`,
    path: '/places',
  };
}

/** Somebody else left: the standby is asked to step in. */
export function placeWantedWords(place: ToldPlace): Wording {
  return {
    subject: `Can you step in on ${sayDay(place.on)}?`,
    words: `A place has come free: ${sayPlace(place)}.\nIf you can come, take it on the page; the first who does has it.`,
    path: '/places',
  };
}
