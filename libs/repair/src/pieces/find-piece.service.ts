import type { Caller } from '@ribband/access';
import { readTag, tagCode } from '@ribband/hull';
import { Database } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { Piece } from './piece.entity.js';
import type { PieceFinding } from './piece.types.js';
import { likelyCodes } from './tag-number.js';

/** The longest text that is looked at as a code. */
const longest = 100;

/** From the code on a tag to its piece. */
@Injectable()
export class FindPiece {
  constructor(@Inject(Database) private readonly database: Database) {}

  /** A code as it was scanned, read aloud or keyed with wet hands. */
  async byCode(caller: Caller, keyed: string): Promise<PieceFinding> {
    const said = keyed.slice(0, longest);
    const reading = readTag(said);
    if (reading.kind === 'unreadable')
      return this.none(caller, said, 'unreadable', `This is no code of a tag: ${reading.why}.`);
    const { organisationId } = caller;
    const { number } = reading;
    const piece = await this.database.read.findOneBy(Piece, { organisationId, tagNumber: number });
    if (!piece) return this.none(caller, said, 'not in use', 'No tag of this yard carries this code.');
    const words =
      reading.kind === 'right'
        ? `Tag ${reading.code}.`
        : `One sign was wrong: this is tag ${reading.code}, if it is the piece before you.`;
    return { reading: reading.kind, words, piece, likely: [] };
  }

  private async none(
    caller: Caller,
    keyed: string,
    reading: 'unreadable' | 'not in use',
    words: string,
  ): Promise<PieceFinding> {
    const { organisationId } = caller;
    const pieces = await this.database.read.findBy(Piece, { organisationId });
    const byCode = new Map(pieces.map((piece) => [tagCode(piece.tagNumber), piece]));
    const likely = likelyCodes(
      keyed,
      pieces.map((piece) => piece.tagNumber),
    ).flatMap((code) => byCode.get(code) ?? []);
    return { reading, words, piece: null, likely };
  }
}
