import { registerEnumType } from '@nestjs/graphql';

export const pieceFates = ['not said', 'refit', 'pattern', 'archive', 'scrap'] as const;
export type PieceFate = (typeof pieceFates)[number];
export const PieceFateEnum = {
  NOT_SAID: 'not said',
  REFIT: 'refit',
  PATTERN: 'pattern',
  ARCHIVE: 'archive',
  SCRAP: 'scrap',
} as const;
registerEnumType(PieceFateEnum, {
  name: 'PieceFate',
  description: 'What becomes of a piece that came off.',
  valuesMap: {
    NOT_SAID: { description: 'Nobody has said yet: it is kept.' },
    REFIT: { description: 'It goes back where it was.' },
    PATTERN: { description: 'Its successor is made from its shape; it is kept until that is set.' },
    ARCHIVE: { description: 'It is kept as a record of how she was built.' },
    SCRAP: { description: 'It is let go.' },
  },
});

export const pieceFaces = ['outboard', 'inboard', 'forward', 'aft', 'upper', 'lower'] as const;
export type PieceFace = (typeof pieceFaces)[number];
export const PieceFaceEnum = {
  OUTBOARD: 'outboard',
  INBOARD: 'inboard',
  FORWARD: 'forward',
  AFT: 'aft',
  UPPER: 'upper',
  LOWER: 'lower',
} as const;
registerEnumType(PieceFaceEnum, {
  name: 'PieceFace',
  description: 'A face of a piece as it lay in the hull.',
  valuesMap: {
    OUTBOARD: { description: 'Towards the water.' },
    INBOARD: { description: 'Towards the hold.' },
    FORWARD: { description: 'Towards the stem.' },
    AFT: { description: 'Towards the stern.' },
    UPPER: { description: 'Upwards.' },
    LOWER: { description: 'Downwards.' },
  },
});

export const pieceHeadings = ['forward', 'aft', 'up', 'down'] as const;
export type PieceHeading = (typeof pieceHeadings)[number];
export const PieceHeadingEnum = { FORWARD: 'forward', AFT: 'aft', UP: 'up', DOWN: 'down' } as const;
registerEnumType(PieceHeadingEnum, {
  name: 'PieceHeading',
  description: 'Where the arrow on a tag points when the piece lies in the hull.',
  valuesMap: {
    FORWARD: { description: 'To the stem.' },
    AFT: { description: 'To the stern.' },
    UP: { description: 'To the deck.' },
    DOWN: { description: 'To the keel.' },
  },
});
