import { CardKind, Skill } from '@ribband/crew';
import type { EntityManager } from 'typeorm';
import { Tool } from '../tools/tool.entity.js';
import type { YardNames } from './yard-names.js';

/** Skills, tools and kinds of card that the yard has. */
export async function yardNamesOf(manager: EntityManager, organisationId: string): Promise<YardNames> {
  const where = { where: { organisationId } };
  return {
    skills: await manager.find(Skill, where),
    tools: await manager.find(Tool, where),
    cards: await manager.find(CardKind, where),
  };
}
