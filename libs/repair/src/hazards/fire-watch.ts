/**
 * Minutes for which a fire watch stays after the last spark, and for which the say-so waits. The regulation's least
 * is 30 (29 CFR 1915.504(c)(2)); 60 after NFPA 51B, from memory. A wooden hull is itself what burns.
 */
export const fireWatchMinutes = 60;
