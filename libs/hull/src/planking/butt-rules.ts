import { fromDocument, fromMemory, type Rule } from '../rule.js';

const ARMY = 'TB 55-1900-201-45/1';

/** Where butts may lie. Frame spaces for ordinary framing; feet where frame spacing is unusual, and only there. */
export const BUTT_RULES = {
  neighbourStrakes: {
    key: 'butts-in-neighbour-strakes',
    says: 'butts in neighbouring strakes lie at least 3 frame spaces apart',
    value: 3,
    origin: fromDocument(`${ARMY}, paragraph 2-13a`),
  },
  sameBay: {
    key: 'butts-in-the-same-bay',
    says: 'between two butts in the same bay run at least 3 solid strakes',
    value: 3,
    origin: fromDocument(`${ARMY}, paragraph 2-13a`),
  },
  neighbourFeet: {
    key: 'butts-in-neighbour-strakes-by-feet',
    says: 'with unusual frame spacing, butts in neighbouring strakes lie at least 5 ft apart',
    value: 5,
    origin: fromDocument(`${ARMY}, paragraph 2-13b; Board of Lake Underwriters Rules 1866, Outside Plank`),
  },
  oneBetweenFeet: {
    key: 'butts-with-one-strake-between-by-feet',
    says: 'with unusual frame spacing, butts with one solid strake between lie at least 4 ft apart',
    value: 4,
    origin: fromDocument('Board of Lake Underwriters Rules 1866, Outside Plank'),
  },
  steppingInLine: {
    key: 'butts-stepping-in-a-line',
    says: 'no three butts step in a line over three neighbouring strakes (a guide)',
    /** Steps of so many bays read as a line: the least shift that is allowed, taken again and again. */
    value: 3,
    origin: fromMemory('NVIC 7-95, chapter 5.E'),
  },
  onFrames: {
    key: 'butts-on-frames',
    says: 'butts lie between frames on blocks; on a frame only where the framing is massive',
    value: 0,
    origin: fromDocument(`${ARMY}, paragraph 2-13a`),
  },
  garboards: {
    key: 'garboard-butts',
    says: 'garboard butts to port and starboard are shifted at least 4 ft 6 in',
    value: 4.5,
    origin: fromDocument('Lloyd’s 1891, composite suggestions, section 7'),
  },
  keelScarfs: {
    key: 'garboard-butts-and-keel-scarfs',
    says: 'garboard butts lie clear of keel scarfs',
    value: 0,
    origin: fromDocument('Lloyd’s 1891, composite suggestions, section 7'),
  },
} satisfies Record<string, Rule<number>>;

export const REPLACEMENT_RULES = {
  length: {
    key: 'replacement-plank-length',
    says: 'a replacement plank spans at least 6 frame spaces, and no piece left of the old one is shorter',
    value: 6,
    origin: fromDocument(`${ARMY}, paragraph 2-12c and d`),
  },
  floorFeet: {
    key: 'replacement-plank-floor',
    says: 'no replacement plank is shorter than 5 ft',
    value: 5,
    origin: fromDocument(`${ARMY}, paragraph 2-12c and d`),
  },
  fastenings: {
    key: 'replacement-fastenings',
    says: 'new fastenings are at least equal in size and number to the rest',
    value: 1,
    origin: fromDocument(`${ARMY}, paragraph 2-12e and f`),
  },
  noShims: {
    key: 'no-shims',
    says: 'no shims behind planks',
    value: 0,
    origin: fromDocument(`${ARMY}, paragraph 2-12e and f`),
  },
  noShortLengths: {
    key: 'no-short-lengths',
    says: 'no dutchmen and no short lengths let in',
    value: 0,
    origin: fromDocument(`${ARMY}, paragraph 2-12b`),
  },
} satisfies Record<string, Rule<number>>;

export const SISTER_RULES = {
  neighbours: {
    key: 'sister-frames-in-a-row',
    says: 'sister frames mend isolated damage, not more than 2 neighbouring frames',
    value: 2,
    origin: fromDocument(`${ARMY}, paragraph 2-15a`),
  },
  decay: {
    key: 'sister-frames-and-decay',
    says: 'a sister frame is not laid beside decay: decayed frames are renewed',
    value: false,
    origin: fromDocument(`${ARMY}, paragraph 2-15d`),
  },
  pastDamage: {
    key: 'sister-frame-length',
    says: 'a sister frame reaches at least 18 in, or about 4 plank widths where that is more, past the damage',
    value: { inches: 18, plankWidths: 4 },
    origin: fromMemory('NVIC 7-95, chapter 5'),
  },
} satisfies Record<string, Rule<unknown>>;
