import type { YardDocument } from './yard-document.js';

/** What came off the small yard's hull, and what holds her while she is open: something of everything. */
export const smallHull = (): Pick<YardDocument, 'cameOff' | 'openings'> => ({
  cameOff: {
    lots: [
      {
        ref: 'boat-nails',
        name: 'Galvanized boat nails',
        fastening: 'plank nails',
        size: '3/8 x 5 1/2 in',
        count: 60,
        source: 'the society’s store',
        priceCents: 4200,
        cameOn: '2027-03-06',
      },
    ],
    trays: [
      {
        ref: 'strake-9-plank-2-starboard',
        name: 'S9B',
        element: 'strake-9-plank-2-starboard',
        place: 'strake 9 plank 2 starboard',
        fastening: 'plank nails',
        inPlace: 8,
        frames: [
          { frame: 12, inPlace: 4 },
          { frame: 13, inPlace: 4 },
        ],
        pullTask: null,
        driveTask: null,
        entries: [
          {
            on: '2027-03-06',
            by: 'Odalys Brenn',
            frame: 12,
            lines: [
              { kind: 'drawn', count: 2 },
              { kind: 'pulled through', count: 1 },
              { kind: 'cut', count: 1 },
            ],
            holes: [],
            counted: null,
            lot: null,
            note: 'rusted at the neck',
          },
          {
            on: '2027-03-06',
            by: 'Odalys Brenn',
            frame: null,
            lines: [
              { kind: 'bought', count: 4 },
              { kind: 'left in place', count: 1, reason: 'behind the clamp' },
              { kind: 'sound', count: 1 },
            ],
            holes: [
              {
                key: 'strake-9-plank-2-starboard-frame-12-forward-1',
                nail: 'sound',
                hole: 'enlarged',
                plugTenths: 160,
              },
            ],
            counted: 7,
            lot: 'boat-nails',
            note: null,
          },
        ],
        repairs: [
          {
            count: 1,
            verdict: 'declined',
            task: null,
            reason: 'under the butt block',
            by: 'Odalys Brenn',
            on: '2027-03-06',
          },
        ],
      },
    ],
    care: [
      {
        fastening: 'plank nails',
        care: 'save all',
        reason: 'they are part of her',
        by: 'Odalys Brenn',
        on: '2027-03-06',
      },
    ],
    pieces: [
      {
        code: 'DZH-5RE',
        name: 'Hanging knee',
        element: null,
        place: 'Starboard, third beam',
        face: 'aft',
        heading: 'up',
        fate: 'pattern',
        keptAt: 'rack 3',
        cameOffOn: '2027-03-06',
        notes: [{ on: '2027-03-06', by: 'Odalys Brenn', words: 'Tag written.' }],
        pictures: [],
      },
    ],
  },
  openings: {
    supports: [
      {
        ref: 'shores-forward',
        kind: 'shore',
        side: 'starboard',
        firstFrame: 10,
        lastFrame: 14,
        task: null,
        seen: { on: '2027-03-06', by: 'Odalys Brenn' },
        struck: null,
      },
      {
        ref: 'braces-by-the-sawyer',
        kind: 'brace',
        side: null,
        firstFrame: null,
        lastFrame: null,
        task: 'saw-plank',
        seen: null,
        struck: null,
      },
    ],
    reports: [
      {
        element: 'frame-12',
        isOpen: false,
        seenBy: 'Halcyon Reeves',
        on: '2027-03-06',
        time: '06:30',
        enteredBy: 'Odalys Brenn',
        note: 'looked in from below',
      },
    ],
    witnessMarks: [
      {
        ref: 'breadth-at-frame-15',
        name: 'Breadth at frame 15',
        kind: 'breadth',
        frame: 15,
        everyDays: 7,
        entries: [
          ...baseline(5029.2),
          {
            ...reading('2027-03-06', 'later', 5036.2),
            struck: { by: 'Odalys Brenn', reason: 'tape sagged' },
          },
          { kind: 'lift', by: 'Odalys Brenn', reason: 'read again: the tape had sagged' },
          reading('2027-03-06', 'later', 5029.6),
        ],
      },
    ],
    holdPoints: [
      {
        task: 'surveyor-passes',
        eyes: 'surveyor',
        noticeDays: 7,
        notice: { on: '2027-03-01', by: 'Perrin Vaskell' },
        seen: { on: '2027-03-06', by: 'the surveyor' },
        note: 'saw it from the staging',
      },
    ],
    plankLayouts: [
      {
        side: 'starboard',
        butts: [{ strake: 9, bay: 13 }],
        by: 'Odalys Brenn',
        reason: 'clear of the butts in strakes 8 and 10',
      },
    ],
  },
});

/** It counts from two readers, each twice. */
const baseline = (millimetres: number) =>
  ['Odalys Brenn', 'Anselm Druitt'].flatMap((reader) => {
    const read = reading('2027-03-05', 'after blocking', millimetres, reader);
    return [read, read];
  });

const reading = (
  on: string,
  time: 'after blocking' | 'later',
  millimetres: number,
  reader = 'Odalys Brenn',
) => ({
  kind: 'reading' as const,
  on,
  time,
  reader,
  millimetres,
  enteredBy: 'Odalys Brenn',
  struck: null,
});
