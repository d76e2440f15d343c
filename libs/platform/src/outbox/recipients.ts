import { Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { idKind } from '../ids/ids.js';

/** What a message needs to know of whom it is for. */
export interface Contact {
  name: string;
  /** Null for people without, and for the invented people of the demo yard: nobody is written to. */
  email: string | null;
  /** The yard's zone, for its quiet hours. */
  timeZone: string;
  /** False for who has no page of the yard's, such as a parent; else left out. */
  signsIn?: boolean;
}

export type FindContact = (
  manager: EntityManager,
  organisationId: string,
  recipientId: string,
) => Promise<Contact | null>;

/** Knows how to reach people, by the kind of their id. The rooms that keep people say how when they start. */
@Injectable()
export class Recipients {
  private readonly finders = new Map<string, FindContact>();

  register(kind: string, find: FindContact): void {
    if (this.finders.has(kind)) throw new Error(`Two rooms say how to reach a ${kind}`);
    this.finders.set(kind, find);
  }

  /** Null when the person is not there any more. */
  async find(manager: EntityManager, organisationId: string, recipientId: string): Promise<Contact | null> {
    const find = this.finders.get(idKind(recipientId) ?? '');
    if (!find)
      throw new Error(`No room says how to reach ${idKind(recipientId) ?? 'somebody without an id'}`);
    return find(manager, organisationId, recipientId);
  }
}
