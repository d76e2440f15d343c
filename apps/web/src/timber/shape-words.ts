/** A section of a half model as it is typed: height/breadth pairs from the rabbet up, one section a line. */
export interface SectionPoint {
  height: number;
  breadth: number;
}

export type Measured =
  | {
      by: 'half model';
      scale: number;
      every: number;
      firstAt: number;
      surface: string;
      sections: SectionPoint[][];
    }
  | { by: 'offsets'; surface: string; sections: { at: number; points: SectionPoint[] }[] };

/** What cannot be read as a number is left for the server to refuse, at its place. */
export function readSections(typed: string): SectionPoint[][] {
  return typed
    .split('\n')
    .map((line) => line.trim())
    .filter(Boolean)
    .map((line) =>
      line.split(/[\s,;]+/).map((pair) => {
        const [height = '', breadth = ''] = pair.split('/');
        return { height: readNumber(height), breadth: readNumber(breadth) };
      }),
    );
}

export function writeSections(sections: SectionPoint[][]): string {
  return sections
    .map((points) => points.map(({ height, breadth }) => `${height}/${breadth}`).join(' '))
    .join('\n');
}

/** JSON has no "not a number": a word stays a word, so that the server names the field. */
const readNumber = (typed: string): number =>
  typed === '' || Number.isNaN(Number(typed)) ? (typed as unknown as number) : Number(typed);
