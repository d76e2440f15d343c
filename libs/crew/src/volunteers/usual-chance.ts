/** Of somebody of whom nothing is stated; the record of who came takes over. Common practice, no source. */
export const usualChance = 0.8;
