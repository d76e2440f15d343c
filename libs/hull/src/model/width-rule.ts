import { need } from '../refusal.js';
import { fromDocument, type Origin, PRACTICE } from '../rule.js';
import { type Millimetres, toInches } from '../measure.js';

/** How many fastenings hold a plank to one frame, by the plank's width. Bands in order of width, in inches. */
export interface WidthRule {
  key: string;
  says: string;
  origin: Origin;
  bands: WidthBand[];
}

export interface WidthBand {
  /** The band reaches up to this width; null has no upper end. */
  upTo: number | null;
  /** True where a plank of exactly `upTo` still belongs to the band. */
  included: boolean;
  /** Nails at one frame; two numbers are taken turn by turn, odd frames first. */
  nails: [number] | [number, number];
}

/** The rule of the demo vessel: two nails in each half of a double frame for ordinary planks. */
export const NAILS_PER_DOUBLE_FRAME: WidthRule = {
  key: 'nails-per-double-frame',
  says: '4 nails to a double frame, two in each half, for planks of 7 to 10 inches; 3 or 2 for narrower ones',
  origin: PRACTICE,
  bands: [
    { upTo: 5, included: false, nails: [2] },
    { upTo: 7, included: false, nails: [3] },
    { upTo: 10, included: true, nails: [4] },
  ],
};

/** Single fastening is one bolt to a frame, double is two. */
export const SINGLE_AND_DOUBLE: WidthRule = {
  key: 'single-and-double',
  says: 'planks of 10 inches and more double fastened, from 8 1/2 to 10 double and single by turns, narrower single',
  origin: fromDocument('Lloyd’s 1891, section 33(4), composite vessels'),
  bands: [
    { upTo: 8.5, included: false, nails: [1] },
    { upTo: 10, included: false, nails: [2, 1] },
    { upTo: null, included: true, nails: [2] },
  ],
};

/** Great Lakes vessels: the same number at every crossing of the sides, whatever the width. */
export const LAKES_SIDES: WidthRule = {
  key: 'lakes-sides',
  says: 'sides: three spikes and one through bolt to each strake and frame',
  origin: fromDocument('Board of Lake Underwriters Rules 1866'),
  bands: [{ upTo: null, included: true, nails: [4] }],
};

/** Fastenings of a plank of this width at this frame. Refuses a width for which the rule has no band. */
export function nailsByWidth(rule: WidthRule, width: Millimetres, frame: number): number {
  const wide = toInches(width);
  // A width given in millimetres and read in inches must not fall out of its band by rounding.
  const slack = 1e-6;
  const band = rule.bands.find(
    ({ upTo, included }) => upTo === null || (included ? wide <= upTo + slack : wide < upTo - slack),
  );
  need(
    band !== undefined,
    'strakes.width',
    `the rule "${rule.key}" says nothing of a plank ${wide.toFixed(2)} inches wide`,
    'give nailsAtFrame for this strake, by the shipwright',
  );
  return band.nails[band.nails.length === 2 && frame % 2 === 0 ? 1 : 0]!;
}
