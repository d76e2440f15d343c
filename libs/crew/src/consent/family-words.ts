import type { Wording } from '@ribband/platform';

/** To the parent when somebody under 18 has come. @param at local time at the yard, 'HH:MM' */
export const cameWords = (name: string, at: string): Wording => ({
  subject: `${name} is at the yard`,
  words: `${name} was ticked as come at ${at}. We write again when ${name} leaves.`,
});

export const leftWords = (name: string, at: string): Wording => ({
  subject: `${name} has left the yard`,
  words: `${name} was ticked as gone at ${at}.`,
});
