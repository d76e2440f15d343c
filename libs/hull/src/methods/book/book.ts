import { type MethodBook } from '../method.js';
import { RATES } from '../rates.js';
import { RENEW_FRAME_PIECES, SISTER_FRAME } from './frame-pieces.js';
import {
  CEILING_INSPECTION_STRAKE,
  CEILING_OFF_AND_BACK,
  PLANK_OFF_AND_BACK,
  RENEW_PLANK,
} from './planks.js';
import { MEND_CAUSE, WHOLE_JOB } from './whole-job.js';

/** The methods that a yard starts with. All times, crews and rates in them are common practice, no source. */
export const STARTING_BOOK: MethodBook = {
  format: 'ribband-methods/1',
  rates: Object.values(RATES),
  methods: [
    RENEW_FRAME_PIECES,
    SISTER_FRAME,
    PLANK_OFF_AND_BACK,
    RENEW_PLANK,
    CEILING_OFF_AND_BACK,
    CEILING_INSPECTION_STRAKE,
    MEND_CAUSE,
    WHOLE_JOB,
  ],
};
