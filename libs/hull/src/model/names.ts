export type Side = 'port' | 'starboard';
export type Layer = 'forward' | 'aft';
export type Skin = 'planking' | 'ceiling';

export const SIDES: readonly Side[] = ['port', 'starboard'];
export const otherSide = (side: Side): Side => (side === 'port' ? 'starboard' : 'port');
export const otherLayer = (layer: Layer): Layer => (layer === 'forward' ? 'aft' : 'forward');

// Keys are words joined by hyphens and are never reused: tallies and tags hang on them.
export const frameKey = (frame: number, side: Side): string => `frame-${frame}-${side}`;
export const frameName = (frame: number, side: Side): string => `frame ${frame} ${side}`;

const SKIN_WORD = { planking: 'strake', ceiling: 'ceiling' } as const;

/** Planks of a strake are numbered from forward. */
export const plankKey = (skin: Skin, strake: number, plank: number, side: Side): string =>
  `${SKIN_WORD[skin]}-${strake}-plank-${plank}-${side}`;
export const plankName = (skin: Skin, strake: number, plank: number, side: Side): string =>
  skin === 'planking'
    ? `strake ${strake} plank ${plank} ${side}`
    : `ceiling strake ${strake} plank ${plank} ${side}`;

const ORDINALS = ['', 'first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth'];

/** Pieces of a frame count outwards from the floor: the floor's layer has the even ones, the other the odd. */
export const pieceWord = (number: number): string =>
  number === 0 ? 'floor' : `${ORDINALS[number] ?? `${number}th`} futtock`;
export const pieceKey = (frame: number, side: Side, number: number): string =>
  `${frameKey(frame, side)}-${number === 0 ? 'floor' : `futtock-${number}`}`;
