import { randomInt } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { hash, verify } from '@node-rs/argon2';
import { refuse } from '@ribband/platform';
import { Semaphore } from 'async-mutex';

/**
 * The least that OWASP's Password Storage Cheat Sheet asks of Argon2id, which is what the library makes unless told
 * otherwise: 19 MiB, two passes, one lane.
 */
const argon2id = { memoryCost: 19_456, timeCost: 2, parallelism: 1 };

const shortestPassword = 10;
const longestPassword = 200;

/** Letters and digits that cannot be taken for each other when read out. */
const alphabet = 'abcdefghjkmnpqrstuvwxyz23456789';

/** Hashes passwords and compares them. Each takes about 50 ms of a processor, so only two run at a time. */
@Injectable()
export class Passwords {
  private readonly turns = new Semaphore(2);
  private readonly nobodys: Promise<string> = this.hash(oneTimePassword());

  hash(password: string): Promise<string> {
    return this.turns.runExclusive(() => hash(password, argon2id));
  }

  /** @param stored the hash of the account, or null for none: that takes as long and is never right */
  async isRight(stored: string | null, password: string): Promise<boolean> {
    const against = stored ?? (await this.nobodys);
    const isSame = await this.turns.runExclusive(() => verify(against, password));
    return stored !== null && isSame;
  }
}

/** A password for somebody who will change it at once: 75 bits, in groups that can be read out. */
export function oneTimePassword(): string {
  const letters = Array.from({ length: 15 }, () => alphabet[randomInt(alphabet.length)]);
  return [letters.slice(0, 5), letters.slice(5, 10), letters.slice(10)]
    .map((group) => group.join(''))
    .join('-');
}

/** Refuses passwords that are too short, too long, or made from what everybody knows. @param field for the refusal */
export function checkPassword(password: string, known: string[], field: string): void {
  const length = [...password].length;
  if (length < shortestPassword || length > longestPassword) {
    refuse('PASSWORD_TOO_WEAK', `A password has ${shortestPassword} to ${longestPassword} characters.`, {
      field,
      remedy: 'Three or four words that do not belong together are easy to keep and hard to guess.',
    });
  }
  const plain = password.toLowerCase();
  const isKnown = known.some((word) => word.length > 2 && plain.includes(word.toLowerCase()));
  if (isKnown || new Set(plain).size < 4) {
    refuse('PASSWORD_TOO_WEAK', 'This password is too easily guessed.', {
      field,
      remedy: 'Leave your name and address out of it, and do not repeat one letter.',
    });
  }
}
