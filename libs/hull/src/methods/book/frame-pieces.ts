import { type Method } from '../method.js';
import { after, afterStart, counted, hold, LEAD_CAUTION, OLD_PAINT, seat, worked } from './write.js';

/** Renew pieces of a double-sawn frame. Open from the moment that its pieces are drawn until it is said to stand again. */
export const RENEW_FRAME_PIECES: Method = {
  key: 'renew-frame-pieces',
  version: 1,
  title: 'renew frame pieces',
  for: 'frame',
  steps: [
    worked('record', 'photograph, mark witness lines, tag the pieces', [1, 2, 4], [1, 2, 2], {
      seats: [seat('records', 1)],
      leastAge: 14,
      after: [after('baseline', 'vessel'), after('nail-store', 'vessel')],
    }),
    counted('bolts-out', 'back out or cut bolts', 'bolts', 'bolts-out', [2, 2, 3], {
      seats: [seat('grinder', 2, 1, ['hot-work']), seat('fire-watch', 1)],
      tools: [{ tool: 'grinder', count: 1 }],
      hazards: ['hot-work', 'noise', ...OLD_PAINT],
      cautions: [
        'Back out before cutting. Where a cut throws sparks the fire watch has no other duty and stays on after the last spark as long as the yard asks (60 minutes unless it says more), with a later look.',
        'Strip lead paint from the place first; zinc fume from galvanized bolts is poisonous.',
        LEAD_CAUTION,
      ],
      after: [
        after('record'),
        after('lift-off', 'ceiling over it'),
        after('shores', 'vessel'),
        after('braces', 'vessel'),
        after('fire-plan', 'vessel'),
      ],
    }),
    worked('free-chocks', 'free the chocks', [0.5, 1, 2], [1, 2, 2], {
      each: 'chocks',
      onlyWith: 'chocks',
      hazards: ['eye', 'crush'],
      after: [after('bolts-out')],
    }),
    worked('bore-around', 'bore around and draw fastenings that will not come', [0.25, 0.5, 1], [1, 2, 2], {
      each: 'stuck fastenings',
      onlyWith: 'stuck fastenings',
      seats: [seat('puller')],
      hazards: ['strain', ...OLD_PAINT],
      cautions: [LEAD_CAUTION],
      after: [after('record'), after('lift-off', 'planks over it')],
    }),
    hold('slung-and-clear', 'pieces slung and the zone below cleared, seen by a named person', {
      eyes: 'sling',
      seats: [seat('lead', 4)],
      hazards: ['crush'],
      cautions: ['A piece can fall when its last fastening is cut. Nobody cuts before this is said.'],
      after: [
        after('bolts-out'),
        after('free-chocks'),
        after('bore-around'),
        after('lift-off', 'planks over it'),
      ],
    }),
    worked(
      'draw-pieces',
      'draw the pieces from their step, cutting the nails behind them',
      [4, 7, 17],
      [3, 4, 5],
      {
        each: 'pieces',
        seats: [seat('journey')],
        tools: [{ tool: 'chain-hoist', count: 1 }],
        opens: true,
        hazards: ['crush', 'lifting', ...OLD_PAINT],
        cautions: [LEAD_CAUTION],
        after: [after('slung-and-clear')],
      },
    ),
    counted('punch-stubs', 'punch nail stubs from timber that stays', 'stubs', 'stubs-punched', [1, 2, 3], {
      hazards: ['noise', ...OLD_PAINT],
      cautions: [LEAD_CAUTION],
      after: [after('draw-pieces')],
    }),
    counted(
      'plug-holes',
      'bore, plug and pare old holes over the new wood',
      'plugs',
      'holes-plugged',
      [1, 2, 3],
      {
        seats: [seat('plugger', 1)],
        hazards: OLD_PAINT,
        cautions: [LEAD_CAUTION],
        after: [after('punch-stubs'), afterStart('plugs', 1, 'vessel')],
      },
    ),
    worked('cut-joint', 'cut the new joint as recorded', [1.5, 3, 6], [1, 2, 2], {
      each: 'new joints',
      onlyWith: 'new joints',
      seats: [seat('journey')],
      hazards: ['eye', 'dust'],
      after: [after('draw-pieces')],
    }),
    worked('cut-scarf', 'cut the scarf by its slope, dress it', [4, 8, 14], [1, 2, 2], {
      each: 'scarfs',
      onlyWith: 'scarfs',
      seats: [seat('journey')],
      hazards: ['eye', 'dust'],
      cautions: [
        'Glue wants dry wood and the warmth that its maker names; masks and gloves while it is open.',
      ],
      after: [after('draw-pieces')],
    }),
    worked('pattern', 'pattern the pieces with bevels', [2, 3, 6], [1, 2, 2], {
      each: 'pieces',
      seats: [seat('loft')],
      leastAge: 16,
      after: [after('draw-pieces'), after('cut-joint'), after('cut-scarf'), after('loft', 'vessel')],
    }),
    worked('lay-up', 'lay up the patterns on stock, rough out', [2, 4, 8], [2, 2, 3], {
      each: 'pieces',
      seats: [seat('sawyer')],
      hazards: ['lifting'],
      after: [after('pattern'), after('frame-stock', 'vessel')],
    }),
    worked('saw', 'saw to the bevel and dress', [4, 7, 15], [2, 3, 3], {
      each: 'pieces',
      seats: [seat('sawyer', 2, 1, ['machine'])],
      tools: [{ tool: 'ship-saw', count: 1 }],
      hazards: ['machine', 'noise', 'dust', 'eye'],
      after: [after('lay-up'), after('saws', 'vessel')],
    }),
    worked(
      'assemble',
      'assemble the halves with joints shifted, bore and bolt, bed the joints',
      [7, 12, 22],
      [2, 3, 3],
      {
        seats: [seat('journey')],
        hazards: ['lifting', 'chemical'],
        after: [after('saw')],
      },
    ),
    worked('set', 'set the new pieces, fit the joint', [20, 32, 60], [4, 4, 5], {
      seats: [seat('journey')],
      tools: [{ tool: 'chain-hoist', count: 1 }],
      hazards: ['crush', 'lifting'],
      after: [after('assemble'), after('plug-holes')],
    }),
    counted('bolt-up', 'bolt up', 'bolts', 'bolts-in', [2, 2, 3], {
      seats: [seat('journey')],
      hazards: ['noise', 'eye'],
      after: [after('set')],
    }),
    hold('stands', 'the frame stands bolted again, seen by a named person', {
      seats: [seat('lead', 4)],
      closes: true,
      onlyWith: 'pieces',
      after: [after('bolt-up')],
    }),
    counted(
      'new-nails',
      'drive new nails through planks that stayed on',
      'new nails',
      'nails-driven',
      [2, 2, 3],
      {
        seats: [seat('fastener')],
        hazards: ['noise', 'eye'],
        after: [after('bolt-up')],
      },
    ),
    worked('pass', 'fair with battens; the shipwright passes it', [3, 5, 8], [2, 2, 2], {
      seats: [seat('lead', 4)],
      after: [after('stands'), after('new-nails')],
    }),
  ],
};

/** A sister beside isolated damage: nothing is drawn. */
export const SISTER_FRAME: Method = {
  key: 'sister-frame',
  version: 1,
  title: 'lay a sister frame',
  for: 'frame',
  steps: [
    worked('record', 'photograph and mark the damage', [0.5, 1, 2], [1, 2, 2], {
      seats: [seat('records', 1)],
      leastAge: 14,
      after: [after('baseline', 'vessel')],
    }),
    worked('pattern', 'pattern the sister from the ceiling side', [2, 3, 6], [1, 2, 2], {
      seats: [seat('loft')],
      after: [after('record'), after('lift-off', 'ceiling over it')],
    }),
    worked('saw', 'saw the sister to the bevel', [4, 7, 15], [2, 3, 3], {
      seats: [seat('sawyer', 2, 1, ['machine'])],
      tools: [{ tool: 'ship-saw', count: 1 }],
      hazards: ['machine', 'noise', 'dust', 'eye'],
      after: [after('pattern'), after('frame-stock', 'vessel'), after('saws', 'vessel')],
    }),
    worked('set', 'set the sister, bed and bolt it', [8, 14, 28], [3, 3, 4], {
      seats: [seat('journey')],
      hazards: ['crush', 'lifting', 'chemical'],
      after: [after('saw')],
    }),
    worked('pass', 'the shipwright passes it', [1, 2, 3], [1, 2, 2], {
      seats: [seat('lead', 4)],
      after: [after('set')],
    }),
  ],
};
