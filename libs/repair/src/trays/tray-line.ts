/** The kinds of lines of a tray's entry, in the order in which one entry's lines happen. */
export const lineKinds = [
  'received',
  'bought',
  'drawn',
  'pulled through',
  'cut',
  'punched',
  'bored out',
  'left in place',
  'sound',
  'scrapped',
  'lost',
  'lent',
  'driven',
] as const;
export type LineKind = (typeof lineKinds)[number];

/** So many fastenings to which something happened. */
export interface TrayLine {
  kind: LineKind;
  count: number;
  /** Why a stub stays, or what is known of those that were lost. */
  reason?: string;
  /** Name of the other tray of a move. */
  tray?: string;
}

/** One hole of the element, and the nail that came out of it, as they were graded. */
export interface GradedHole {
  /** Key of the hole in the hull's model. */
  key: string;
  /** None where the nail was cut, bored out or lost. */
  nail: 'sound' | 'scrap' | 'none';
  hole: 'sound' | 'enlarged';
  /** Width of the plug that an enlarged hole gets, in tenths of a millimetre; null for a sound hole. */
  plugTenths: number | null;
}

/** Those that come out of the wood, one way or another: what the tally of the pulling task counts. */
export const outKinds: readonly LineKind[] = ['drawn', 'pulled through', 'cut'];

export const countOf = (lines: readonly TrayLine[], kinds: readonly LineKind[]): number =>
  lines.reduce((sum, line) => sum + (kinds.includes(line.kind) ? line.count : 0), 0);

export const inOrder = (lines: readonly TrayLine[]): TrayLine[] =>
  [...lines].sort((a, b) => lineKinds.indexOf(a.kind) - lineKinds.indexOf(b.kind));

const words: Record<LineKind, string> = {
  received: 'received',
  bought: 'bought',
  drawn: 'drawn',
  'pulled through': 'pulled through',
  cut: 'heads off',
  punched: 'stubs punched',
  'bored out': 'stubs bored out',
  'left in place': 'stubs left in place',
  sound: 'sound',
  scrapped: 'scrap',
  lost: 'lost',
  lent: 'lent',
  driven: 'driven',
};

/** "11 drawn, 1 pulled through, 2 heads off" */
export const linesInWords = (lines: readonly TrayLine[]): string =>
  inOrder(lines)
    .map(({ kind, count, reason, tray }) => {
      const other = tray === undefined ? '' : kind === 'lent' ? ` to ${tray}` : ` from ${tray}`;
      return `${count} ${words[kind]}${other}${reason === undefined ? '' : ` (${reason})`}`;
    })
    .join(', ');
