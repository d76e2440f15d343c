interface Placed {
  position?: string | null;
}

/**
 * In the order in which one walks past it: the starboard side from the stem aft, the port side from the stern forward,
 * then what is inboard, then what is ashore. Frames are numbered from the stem; where no frame is named the strake
 * counts, so that what is together stays together.
 */
export function inWalkingOrder<T extends Placed>(work: readonly T[]): T[] {
  return [...work].sort((a, b) => {
    const [one, other] = [stepOf(a.position), stepOf(b.position)];
    return (
      one.leg - other.leg ||
      one.along - other.along ||
      one.words.localeCompare(other.words, 'en', { numeric: true })
    );
  });
}

function stepOf(position: string | null | undefined): { leg: number; along: number; words: string } {
  const words = (position ?? '').toLowerCase();
  const frame = Number(/frames? (\d+)/.exec(words)?.[1] ?? Number.NaN);
  const leg = words.includes('starboard') ? 0 : words.includes('port') ? 1 : position ? 2 : 3;
  // A strake runs the whole length: it is met when the side is reached.
  const along = Number.isNaN(frame) ? (leg === 1 ? -1000 : -1) : leg === 1 ? -frame : frame;
  return { leg, along, words };
}
