/** Nobody is expected at a watch by night who has not named its hours. */
export const nightHint =
  'For watches at night name both hours, such as 20:00 to 08:00: an earlier end is the next morning.';
