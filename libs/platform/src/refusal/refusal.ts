import { Field, ObjectType } from '@nestjs/graphql';
import { RefusalCode } from './refusal-code.js';

@ObjectType({ description: 'One fact that a refusal rests on.' })
export class Fact {
  @Field(() => String, { description: 'What the fact is about, in a word or two.' })
  name!: string;

  @Field(() => String, { description: 'The fact itself, ready to be shown.' })
  value!: string;
}

@ObjectType({ description: 'The yard says no, and says why and what to do instead. Nothing was changed.' })
export class Refusal {
  @Field(() => RefusalCode, { description: 'The reason, from a closed list.' })
  code!: RefusalCode;

  @Field(() => String, { description: 'The reason as a sentence.' })
  message!: string;

  @Field(() => String, { nullable: true, description: 'The input field that it is about, as a path.' })
  field!: string | null;

  @Field(() => String, { nullable: true, description: 'What would be right, or what to do next.' })
  remedy!: string | null;

  @Field(() => [Fact], { description: 'The facts that it rests on; at most 50.' })
  facts!: Fact[];
}

/** What a refusal may say beside its code and its sentence. */
export interface RefusalDetails {
  field?: string;
  remedy?: string;
  facts?: Record<string, string | number> | Fact[];
}

/** Thrown by a use case that says no; its transaction is rolled back, and the caller is given the refusal. */
export class RefusalError extends Error {
  constructor(readonly refusal: Refusal) {
    super(refusal.message);
    this.name = 'RefusalError';
  }
}

/** Builds a refusal without throwing it, for use cases that collect several. */
export function refusal(code: RefusalCode, message: string, details: RefusalDetails = {}): Refusal {
  const facts = details.facts ?? [];
  return Object.assign(new Refusal(), {
    code,
    message,
    field: details.field ?? null,
    remedy: details.remedy ?? null,
    facts: Array.isArray(facts)
      ? facts
      : Object.entries(facts).map(([name, value]) => ({ name, value: String(value) })),
  });
}

/** Says no. @throws RefusalError always */
export function refuse(code: RefusalCode, message: string, details: RefusalDetails = {}): never {
  throw new RefusalError(refusal(code, message, details));
}

/**
 * Refuses an edit of a row that somebody else has changed since the caller read it.
 * @param versionRead the version that the edit carries
 */
export function expectVersion(row: { version: number }, versionRead: number): void {
  if (row.version === versionRead) return;
  refuse('CHANGED_MEANWHILE', 'Somebody else changed this since you read it.', {
    field: 'version',
    remedy: 'Read it again, look at what changed, and send the edit with the new version.',
    facts: { 'version read': versionRead, 'version now': row.version },
  });
}
