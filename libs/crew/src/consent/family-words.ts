import type { Wording } from '@ribband/platform';

/** To the parent when somebody under 18 has come. @param at local time at the yard, 'HH:MM' */
export const cameWords = (name: string, at: string): Wording => ({
  subject: `${name} is at the yard`,
  words: `${name} was ticked as come at ${at}. We write again when ${name} leaves.`,
});

const dayFormat = new Intl.DateTimeFormat('en-US', {
  weekday: 'long',
  day: 'numeric',
  month: 'long',
  timeZone: 'UTC',
});

/** @param on the local day, 'YYYY-MM-DD', where it is not today */
export const leftWords = (name: string, at: string, on: string | null): Wording => ({
  subject: `${name} has left the yard`,
  words: `${name} was ticked as gone at ${at}${sayOn(on)}.`,
});

/** Of a leaving after which somebody has come again. @param on as for `leftWords` */
export const leftBeforeWords = (name: string, at: string, on: string | null): Wording => ({
  subject: `When ${name} left the yard`,
  words: `${name} was ticked as gone at ${at}${sayOn(on)}, and has come again since.`,
});

/**
 * Of a leaving that was told, of which nothing is left on record.
 * @param on as for `leftWords`
 * @param neverCame whether nothing says any more that they had come, either
 */
export const notLeftWords = (name: string, on: string | null, neverCame: boolean): Wording => ({
  subject: neverCame ? `We were wrong about ${name}` : `We were wrong about when ${name} left`,
  words: `We wrote that ${name} had ${neverCame ? 'come to the yard and left it' : 'left the yard'}${sayOn(on)}. That was a mistake: the hours that said so are taken out. Ask the yard if you want to know more.`,
});

export const otherTimeWords = 'We wrote another time before; this is the right one.';

/** Of a coming that was told and is taken out. */
export const notBackWords = (name: string): string =>
  `We wrote that ${name} had come again; that was a mistake.`;

const sayOn = (on: string | null): string =>
  on === null ? '' : ` on ${dayFormat.format(new Date(`${on}T00:00:00Z`))}`;
