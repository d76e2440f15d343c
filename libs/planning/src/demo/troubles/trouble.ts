import type { Caller } from '@ribband/access';
import type { Availability, Cards } from '@ribband/crew';
import type { Links, Marks, Tasks } from '@ribband/repair';
import type { EntityManager } from 'typeorm';

/** The services that troubles go through: the same ones that people use. */
export interface YardServices {
  read: EntityManager;
  tasks: Tasks;
  links: Links;
  availability: Availability;
  cards: Cards;
  marks: Marks;
}

/** Something that goes wrong at the demo yard, as it would be entered there. */
export interface Trouble {
  key: string;
  title: string;
  /** What happens, and what it is expected to do to the date. */
  story: string;
  /** What is told of it as the reason of a trend. */
  reason: string;
  /** Whether it moves the date, so that the page can say so honestly. */
  moves: 'later' | 'not at all';
  /** Enters it. @param caller whoever plays it, in the role of whose job it is */
  play(services: YardServices, caller: Caller, today: string): Promise<void>;
}

/** Whoever plays, as the one whose job it would be. */
export const as = (caller: Caller, role: Caller['role']): Caller => ({ ...caller, role });
