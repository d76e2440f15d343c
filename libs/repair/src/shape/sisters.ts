const word = '-sister';

/** A sister lies beside a piece that stays, and has its shape: its key is that piece's with a word more. */
export const sisterOf = (piece: string): string => `${piece}${word}`;

/** The piece that gives a key its shape: the one beside which a sister lies, else the piece itself. */
export const besideOf = (key: string): string => (key.endsWith(word) ? key.slice(0, -word.length) : key);
