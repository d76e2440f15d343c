import { refuse } from '@ribband/platform';
import type { EntityManager } from 'typeorm';
import { Piece } from './piece.entity.js';

/** A piece of the organisation. @throws RefusalError NOT_FOUND, naming the input field */
export const pieceOf = async (
  manager: EntityManager,
  organisationId: string,
  id: string,
  field: string,
): Promise<Piece> =>
  (await manager.findOneBy(Piece, { organisationId, id })) ??
  refuse('NOT_FOUND', 'There is no such piece.', { field, remedy: 'Choose one from the list.' });
