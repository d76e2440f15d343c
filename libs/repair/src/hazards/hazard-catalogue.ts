import { HAZARDS } from '@ribband/hull';

/**
 * What can hurt someone on a wooden hull ashore: a closed list, each with the usual caution in plain words and
 * where it comes from. A caution says what is usually done. None of them says that a thing is safe.
 *
 * `basis` is a citation, or says that there is none: "common practice, no source"; "from memory" marks a citation
 * whose text was not opened when this was written.
 * No method brings asbestos along: it is found.
 */
export const hazardCodes = [...HAZARDS, 'asbestos'] as const;

export type HazardCode = (typeof hazardCodes)[number];

export interface HazardEntry {
  name: string;
  caution: string;
  basis: string;
}

export const hazardCatalogue: Record<HazardCode, HazardEntry> = {
  lead: {
    name: 'Lead in old paint',
    caution:
      'Take old paint for lead paint until a test says otherwise: keep it wet, no dry sanding, no open flame, ' +
      'mask and overalls on, chips and dust contained and bagged. Wash hands and face before eating or drinking, ' +
      'leave work clothes at the yard. Nobody under 18; if lead worries you for your own health, ask for other ' +
      'work, no reason needed.',
    basis:
      '29 CFR 1910.1025 by way of 1915.1025: 50 µg/m³ over 8 hours; action level 30 µg/m³ and the practice here from memory',
  },
  eye: {
    name: 'Flying chips',
    caution:
      'Eye protection on before the first blow, for those who watch as well. Air for cleaning below 30 psi, with a chip guard.',
    basis: '29 CFR 1910.242(b) for the air; 1915.153 for the eyes, from memory',
  },
  dust: {
    name: 'Wood and paint dust',
    caution:
      'Extraction on, mask on, sweep wet or with a vacuum. Some timbers, western red cedar among them, set off ' +
      'allergies: say so when your chest or skin answers.',
    basis: '29 CFR 1915.1000 Table Z, from memory; the mask is common practice, no source',
  },
  noise: {
    name: 'Loud work',
    caution:
      'Ear protection on, also for those who work next to it; take turns. Half of the day’s dose asks for a hearing programme, the whole dose without protection is a stop.',
    basis: '29 CFR 1910.95: 90 dBA for 8 hours is the whole dose; the half from memory',
  },
  strain: {
    name: 'Strain',
    caution: 'Long pulls and awkward reach: swap hands and jobs every half hour, stop at the first pain.',
    basis: 'common practice, no source',
  },
  lifting: {
    name: 'Lifting and carrying',
    caution:
      'Weigh or reckon the piece first: one carrier for each 35 lb (16 kg), one voice that gives the word, a clear way. ' +
      'More than four carriers, above chest height or on staging: lifting gear and somebody who knows it.',
    basis: 'common practice, no source; the lifting equation of NIOSH 94-110 speaks of one person only',
  },
  crush: {
    name: 'Heavy pieces that can move',
    caution:
      'A timber can drop when its last fastening goes. A named person sees the sling and the cleared zone before it ' +
      'is cut or drawn; nobody under it, no hand between it and what stays. Shores stand before bolts are cut.',
    basis: 'common practice, no source',
  },
  fall: {
    name: 'Working above ground',
    caution:
      'Only on staging that carries today’s tag. Rails above 5 ft, and at any height above water; a ladder stands 36 in ' +
      'above the landing and is tied. Nothing loose on the boards over people.',
    basis: '29 CFR 1915.71(b), (j)(1); 5 ft and 1915.72 from memory',
  },
  'hot-work': {
    name: 'Sparks and flame',
    caution:
      'A wooden hull is itself what burns. A fire watch who does nothing else, with water and an extinguisher, from ' +
      'the first spark until 60 minutes after the last (the regulation’s least is 30), and a later look. Lead paint ' +
      'is taken off first; zinc on galvanized bolts gives fume. Not the last job of the day.',
    basis: '29 CFR 1915.504(b), (c); 60 minutes after NFPA 51B, from memory',
  },
  machine: {
    name: 'Power-driven machines',
    caution:
      'Only with the skill and the card for this machine, guards on, the second hand briefed, nobody behind the feed. ' +
      'Nobody under 18 feeds, takes off or cleans. Machines stop after 6 hours of anyone’s day.',
    basis: '29 CFR 570.55 for the age; 1910.213 from memory; 6 hours is common practice, no source',
  },
  burn: {
    name: 'Steam and hot things',
    caution:
      'Gloves to the elbow, face away when the box opens, a way walked through before the plank comes out. Water and a first-aid kit at hand.',
    basis: 'common practice, no source',
  },
  chemical: {
    name: 'Paint, bedding, glue, preservative',
    caution:
      'Read the sheet of the product first; gloves, eyes, fresh air, no flame. Oily rags go into the lidded can or a bucket of water, never in a heap.',
    basis: 'common practice, no source; protective equipment by 29 CFR 1915.152, .154, .157, from memory',
  },
  'enclosed-space': {
    name: 'Closed spaces aboard',
    caution:
      'Not before a competent person has measured, in this order, oxygen (19.5 % up to 22.0 %), flammable (below 10 % of the ' +
      'lower limit), toxic, and written it down with name and time; a reading lapses at the end of the shift. Somebody stays outside and in earshot.',
    basis: '29 CFR 1915.12; 1915.7 and 1915.14 from memory',
  },
  wet: {
    name: 'Wet and slippery',
    caution: 'Boots that grip, hoses and cables out of the way, electric tools off the wet.',
    basis: 'common practice, no source',
  },
  drowning: {
    name: 'Over or by the water',
    caution: 'Life vest on, in pairs, a ladder and a line within reach.',
    basis: '29 CFR 1915.158, from memory',
  },
  fatigue: {
    name: 'Long or night hours',
    caution:
      'At most 8 hours a shift, 10 hours’ rest between, somebody who relieves you by name. No machines when tired.',
    basis: 'common practice, no source',
  },
  electric: {
    name: 'Electricity and moving gear',
    caution:
      'Locked off and tagged with the number written down before a hand goes in; the one who locked it takes the lock off.',
    basis: '29 CFR 1915.89',
  },
  asbestos: {
    name: 'Asbestos',
    caution:
      'Lagging, gaskets and old boards near engines and stoves count as asbestos until a test says otherwise. Leave them ' +
      'alone: those who are trained and cleared for it take it out, nobody else is near.',
    basis: '29 CFR 1915.1001, from memory',
  },
};

export function isHazard(code: string): code is HazardCode {
  return (hazardCodes as readonly string[]).includes(code);
}

/** The standing sentence on who decides; it stands wherever cautions are shown. */
export const safetyNotice =
  'These are reminders and not a safety programme. What may be done, and how, is decided by local law, by the ' +
  'yard’s own rules, by the insurer and by a competent person on the spot. Ribband can keep a place from being taken; ' +
  'it does not make any work safe, and where it says nothing it has not looked.';
