import { type Method, type Step } from '../method.js';
import {
  after,
  counted,
  endsAfter,
  hold,
  lasting,
  LEAD_CAUTION,
  OLD_PAINT,
  passing,
  seat,
  worked,
} from './write.js';

const before: Step[] = [
  worked('readings-afloat', 'read the shape afloat: keel line, breadths, sheer', [4, 8, 12], [2, 2, 3], {
    seats: [seat('lead')],
    cautions: ['Two readers, each reading repeated.'],
  }),
  lasting('haul-out', 'haul out', [3, 4, 5], [4, 6, 10], {
    seats: [seat('rigger')],
    hazards: ['crush', 'lifting', 'drowning'],
    after: [after('readings-afloat')],
  }),
  hold('blocked', 'the yard or a competent person has blocked and cribbed her', {
    hazards: ['crush'],
    cautions: ['Blocking is the yard’s work: no volunteer places.'],
    after: [after('haul-out')],
  }),
  worked('baseline', 'read the shape again after blocking: the baseline', [8, 16, 24], [2, 3, 3], {
    seats: [seat('lead')],
    cautions: ['Two readers, each reading repeated. Nothing is opened before this is written down.'],
    after: [after('blocked')],
  }),
  worked('induction', 'safety induction', [2, 4, 6], [1, 2, 4], { leastAge: 14, after: [after('haul-out')] }),
  worked('fire-plan', 'fire plan posted, fire watch trained', [3, 6, 10], [2, 3, 4], {
    seats: [seat('fire-watch')],
    after: [after('haul-out')],
  }),
  worked('wash', 'wash down', [6, 10, 16], [2, 3, 4], { hazards: ['wet', 'eye'], after: [after('blocked')] }),
  worked('lead-test', 'test old paint for lead, set containment', [3, 5, 10], [2, 3, 3], {
    seats: [seat('protective-gear')],
    hazards: ['lead', 'dust', 'eye'],
    cautions: [LEAD_CAUTION],
    after: [after('wash')],
  }),
  worked('air-test', 'test the air below and set ventilation', [2, 4, 8], [2, 2, 2], {
    seats: [seat('competent-person')],
    hazards: ['enclosed-space'],
    cautions: [
      'Oxygen first, then flammable, then toxic; the reading, its hour and the reader’s name are written down.',
    ],
    after: [after('blocked')],
  }),
  worked('staging', 'erect staging', [24, 40, 60], [3, 4, 5], {
    seats: [seat('staging')],
    hazards: ['fall', 'lifting'],
    cautions: ['Tagged and dated before anyone else steps on it; rails at any height above water.'],
    after: [after('blocked')],
  }),
  worked('shores', 'set shores at both ends of every opening', [16, 30, 50], [2, 4, 4], {
    sets: 'shore',
    seats: [seat('rigger'), seat('lead')],
    hazards: ['crush', 'lifting'],
    after: [after('baseline')],
  }),
  worked('braces', 'set internal braces and cross spalls in way', [20, 40, 60], [2, 4, 4], {
    sets: 'brace',
    seats: [seat('journey')],
    hazards: ['lifting', 'crush'],
    after: [after('baseline'), after('air-test')],
  }),
  worked('ribbands', 'fit ribbands over the long strake runs', [4, 6, 10], [2, 3, 4], {
    sets: 'ribband',
    each: 'long strake runs',
    onlyWith: 'long strake runs',
    seats: [seat('planker')],
    hazards: ['lifting', 'fall'],
    after: [after('shores'), after('braces'), after('staging')],
  }),
  worked('clear-joinery', 'clear and tag the joinery in way', [30, 60, 90], [2, 4, 5], {
    hazards: ['lifting', 'dust'],
    after: [after('induction'), after('air-test')],
  }),
  worked('nail-store', 'set up the nail store, trays and hole map', [5, 10, 15], [1, 2, 3], {
    seats: [seat('records')],
    leastAge: 14,
    after: [after('induction')],
  }),
  worked('saws', 'set up saws and steam box', [15, 30, 45], [2, 3, 4], {
    seats: [seat('sawyer', 2, 1, ['machine'])],
    hazards: ['machine', 'electric', 'burn'],
    after: [after('induction')],
  }),
  worked('loft', 'lift the frame shapes, loft, make master patterns', [20, 36, 50], [1, 2, 3], {
    seats: [seat('loft')],
    leastAge: 16,
    after: [after('baseline')],
  }),
  hold('frame-stock', 'frame stock is here and dry enough for its use', { seats: [seat('lead')] }),
  hold('plank-stock', 'plank stock is here and dry enough to hang', {
    seats: [seat('lead')],
    onlyWith: 'renewed planks',
  }),
];

const during: Step[] = [
  counted('plugs', 'make plugs from old stock', 'plugs', 'plugs-made', [1, 2, 3], {
    leastAge: 16,
    hazards: ['dust', 'eye'],
    after: [after('induction')],
  }),
  counted('bungs', 'cut and dry bungs', 'bungs', 'bungs-made', [1, 2, 3], {
    leastAge: 16,
    hazards: ['dust', 'eye'],
    after: [after('induction')],
  }),
  counted(
    'clean-nails',
    'clean, straighten, gauge and grade the saved nails',
    'saved nails',
    'nails-cleaned',
    [1, 3, 4],
    {
      hazards: ['eye', 'lead'],
      cautions: [LEAD_CAUTION],
      after: [
        after('nail-store'),
        endsAfter('pull-nails', 0, 'all planks'),
        endsAfter('pull-nails', 0, 'all ceiling'),
      ],
    },
  ),
  worked('oakum', 'roll oakum, make up cotton', [10, 24, 36], [1, 3, 5], {
    leastAge: 14,
    hazards: ['dust'],
    after: [after('induction')],
  }),
  hold('frames-seen', 'the surveyor has seen the frames', {
    eyes: 'surveyor',
    noticeDays: 14,
    cautions: [
      'The surveyor, insurer or funder who asked to see the frames comes before ceiling hides them.',
    ],
    after: [after('pass', 'all frames'), after('mend', 'all causes')],
  }),
];

const closing: Step[] = [
  counted('fair-hull', 'fair the planking', 'square feet', 'hull-faired', [2, 4, 4], {
    seats: [seat('planker')],
    hazards: OLD_PAINT,
    cautions: [LEAD_CAUTION],
    after: [after('bung', 'all planks')],
  }),
  hold('moisture', 'planking is wet enough to caulk', {
    seats: [seat('lead')],
    cautions: [
      'Hulls dry out ashore: shade and wetting since spring, moisture read before seams are driven.',
    ],
    after: [after('fair-hull')],
  }),
  counted('caulk', 'caulk with cotton and oakum', 'seam feet', 'seams-caulked', [1, 2, 3], {
    seats: [seat('caulker')],
    hazards: ['noise', 'strain', 'lead', 'eye'],
    cautions: ['Never against an open seam next door.', LEAD_CAUTION],
    after: [after('moisture'), after('oakum')],
  }),
  worked('caulk-ends', 'caulk butts and hood ends', [6, 10, 16], [1, 2, 2], {
    seats: [seat('caulker')],
    hazards: ['noise', 'strain', 'lead', 'eye'],
    cautions: [LEAD_CAUTION],
    after: [after('caulk')],
  }),
  counted('pay', 'prime, pay and putty the seams', 'seam feet', 'seams-paid', [2, 3, 4], {
    hazards: ['chemical'],
    after: [after('caulk-ends')],
  }),
  worked('paint', 'paint topside and bottom', [30, 50, 80], [2, 4, 5], {
    hazards: ['chemical', 'fall'],
    after: [after('pay')],
  }),
  worked('strike-braces', 'strike braces and shores', [8, 15, 24], [2, 3, 4], {
    seats: [seat('journey')],
    hazards: ['lifting', 'crush'],
    cautions: ['Braces and shores stay until closing up and caulking are done.'],
    after: [after('caulk-ends'), after('drive-nails', 'all planks'), after('stands', 'all frames')],
  }),
  worked('strike-staging', 'strike staging', [12, 20, 30], [3, 4, 5], {
    seats: [seat('staging')],
    hazards: ['fall', 'lifting'],
    after: [after('paint')],
  }),
  worked('seacocks', 'seacocks, zincs and shaft checked', [10, 20, 30], [1, 2, 2], {
    seats: [seat('mechanic')],
    hazards: ['lifting'],
    after: [after('blocked')],
  }),
  worked('pumps', 'rig pumps, alarm and float-watch kit', [5, 10, 15], [1, 2, 2], {
    seats: [seat('mechanic')],
    hazards: ['electric'],
    after: [after('seacocks')],
  }),
  worked('re-measure', 'read the shape against the baseline', [8, 15, 20], [2, 3, 3], {
    seats: [seat('lead')],
    after: [after('strike-braces')],
  }),
  hold('surveyed', 'the surveyor has seen her out of the water', {
    eyes: 'surveyor',
    noticeDays: 14,
    after: [after('re-measure'), after('paint'), after('frames-seen'), after('seacocks')],
  }),
];

const afloat: Step[] = [
  {
    ...hold('launch', 'launch on the lift slot', {
      hazards: ['crush', 'drowning'],
      cautions: ['She hangs in the slings until the water in the bilge has been watched.'],
      after: [after('surveyed'), after('strike-staging'), after('pumps')],
    }),
    kind: 'launch',
  },
  passing('float-watch', 'float watch and take-up log, two people a watch', [48, 72, 96], {
    hazards: ['drowning', 'fatigue'],
    after: [after('launch')],
  }),
];

export const WHOLE_JOB: Method = {
  key: 'whole-job',
  version: 1,
  title: 'what the vessel as a whole needs',
  for: 'vessel',
  steps: [...before, ...during, ...closing, ...afloat],
};

/** Why it rotted has a task of its own; without one the repair is said to be temporary. */
export const MEND_CAUSE: Method = {
  key: 'mend-cause',
  version: 1,
  title: 'mend the cause of decay',
  for: 'cause',
  steps: [
    worked('mend', 'mend the cause', [8, 16, 32], [1, 2, 3], {
      seats: [seat('journey')],
      after: [after('baseline', 'vessel')],
    }),
  ],
};
