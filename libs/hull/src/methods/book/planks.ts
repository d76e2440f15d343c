import { type Method, type Step } from '../method.js';
import {
  after,
  afterStart,
  counted,
  endsAfter,
  hold,
  LEAD_CAUTION,
  OLD_PAINT,
  seat,
  worked,
} from './write.js';

/** Open from the first nail pulled until the last is driven. */
const takeOff: Step[] = [
  counted('bungs-out', 'dig out bungs, tag the plank', 'nails', 'bungs-out', [1, 2, 3], {
    hazards: OLD_PAINT,
    cautions: [LEAD_CAUTION],
    after: [
      after('staging', 'vessel'),
      after('lead-test', 'vessel'),
      after('baseline', 'vessel'),
      after('nail-store', 'vessel'),
    ],
  }),
  counted('pull-nails', 'pull plank nails to their trays', 'nails', 'nails-pulled', [1, 2, 3], {
    seats: [seat('puller')],
    opens: true,
    hazards: ['strain', ...OLD_PAINT],
    cautions: [
      LEAD_CAUTION,
      'Each nail into the tray of its own hole; a nail that pulls through is said at once.',
    ],
    after: [
      afterStart('bungs-out', 1),
      endsAfter('bungs-out', 0),
      after('shores', 'vessel'),
      after('braces', 'vessel'),
      after('ribbands', 'vessel'),
    ],
  }),
  worked('lift-off', 'lift the plank off, store it on stickers', [4, 6, 12], [4, 5, 6], {
    seats: [seat('planker', 1)],
    oneGo: true,
    hazards: ['lifting', 'crush', 'fall'],
    cautions: ['More than four carriers, above the chest or on staging: lifting gear, not people.'],
    after: [after('pull-nails')],
  }),
];

const putBack = (last: string): Step[] => [
  hold('seen-open', 'those who asked to see her open here have seen her', {
    eyes: 'surveyor',
    noticeDays: 14,
    cautions: [
      'Surveyor, insurer, funder, inspector: nothing is closed over before they have come or let it go in writing. One visit may settle many planks.',
    ],
    after: [after('lift-off'), after('pass', 'frames under it')],
  }),
  worked('steam-hang', 'steam, hang and wedge', [12, 16, 24], [5, 5, 6], {
    seats: [seat('planker')],
    tools: [{ tool: 'steam-box', count: 1 }],
    oneGo: true,
    hazards: ['burn', 'lifting', 'crush'],
    cautions: [
      'Five at the box at the same minute or it does not start; hung within 2 to 5 minutes of leaving it.',
      'No shims behind the plank, no short lengths let in.',
    ],
    after: [after(last), after('seen-open'), after('drive-nails', 'strake below'), after('saws', 'vessel')],
  }),
  counted('drive-nails', 'bore, drive each nail to its hole', 'nails', 'nails-driven', [2, 3, 3], {
    seats: [seat('fastener')],
    closes: true,
    hazards: ['noise', 'eye'],
    cautions: [
      'A sound nail goes back to its own sound hole. An unsound hole is plugged and bored anew; new wood gets new holes.',
    ],
    after: [afterStart('steam-hang', 0), endsAfter('steam-hang', 1)],
  }),
  counted('bung', 'bung, let set, pare', 'nails', 'bungs-in', [1, 2, 3], {
    leastAge: 16,
    hazards: ['dust', 'eye'],
    after: [after('drive-nails'), after('bungs', 'vessel')],
  }),
];

export const PLANK_OFF_AND_BACK: Method = {
  key: 'plank-off-and-back',
  version: 1,
  title: 'take a plank off and put it back',
  for: 'plank',
  steps: [
    ...takeOff,
    worked('dress', 'clean and dress the old plank, prime its back', [4, 7, 10], [1, 2, 2], {
      seats: [seat('planker')],
      hazards: OLD_PAINT,
      cautions: [LEAD_CAUTION],
      after: [after('lift-off')],
    }),
    ...putBack('dress'),
  ],
};

export const RENEW_PLANK: Method = {
  key: 'renew-plank',
  version: 1,
  title: 'renew a plank',
  for: 'plank',
  steps: [
    ...takeOff,
    worked('spile', 'spile and line off', [4, 6, 10], [2, 2, 3], {
      seats: [seat('planker')],
      after: [after('lift-off'), after('pass', 'frames under it')],
    }),
    worked('saw', 'saw, back, bevel and prime', [9, 14, 20], [2, 3, 3], {
      seats: [seat('sawyer', 2, 1, ['machine']), seat('planker', 1)],
      tools: [{ tool: 'ship-saw', count: 1 }],
      hazards: ['machine', 'noise', 'dust', 'eye'],
      after: [after('spile'), after('plank-stock', 'vessel'), after('saws', 'vessel')],
    }),
    ...putBack('saw'),
  ],
};

const ceilingOff: Step[] = [
  counted('pull-nails', 'pull ceiling nails to their trays', 'nails', 'ceiling-nails-pulled', [1, 2, 2], {
    seats: [seat('puller')],
    opens: true,
    hazards: ['strain', ...OLD_PAINT],
    cautions: [LEAD_CAUTION],
    after: [after('clear-joinery', 'vessel'), after('nail-store', 'vessel'), after('air-test', 'vessel')],
  }),
  worked('lift-off', 'lift the ceiling plank out, tag and stack it', [0.75, 1.5, 3], [2, 3, 4], {
    hazards: ['lifting', 'dust'],
    after: [after('pull-nails')],
  }),
];

const ceilingBack = (gate: string): Step[] => [
  counted('refit', 'refit the ceiling plank', 'square feet', 'ceiling-refitted', [2, 3, 3], {
    hazards: ['lifting'],
    after: [after('lift-off'), after('pass', 'frames under it'), after(gate, 'vessel')],
  }),
  counted('drive-nails', 'drive each nail to its hole', 'nails', 'nails-driven', [1, 2, 3], {
    seats: [seat('fastener', 1)],
    closes: true,
    hazards: ['noise', 'eye'],
    after: [after('refit')],
  }),
];

export const CEILING_OFF_AND_BACK: Method = {
  key: 'ceiling-off-and-back',
  version: 1,
  title: 'take a ceiling plank out and put it back',
  for: 'ceiling',
  steps: [...ceilingOff, ...ceilingBack('frames-seen')],
};

/** One strake of the ceiling stays open so that leaks can be seen afloat. */
export const CEILING_INSPECTION_STRAKE: Method = {
  key: 'ceiling-inspection-strake',
  version: 1,
  title: 'take a ceiling plank out and leave it open through the float watch',
  for: 'ceiling',
  steps: [...ceilingOff, ...ceilingBack('float-watch')],
};
