import { createHash } from 'node:crypto';
import type { Plan, Problem } from '@ribband/engine';

/** What a plan is computed from, whole: the same input and the same number of schedules give the same plan. */
export interface PlanInput {
  format: 'ribband-plan-input/1';
  /** The instant of the problem's minute 0. */
  epochAt: number;
  timeZone: string;
  /** Lift slots in the order of `problem.aim.slots`. */
  slots: { id: string; kind: 'gate' | 'fallback' | 'later'; startsAt: number }[];
  /** Ids of the records behind `problem.links`, in its order. */
  linkIds: string[];
  problem: Problem;
  seed: number;
  /** The plan that was in force, in the indices of this problem, or null. */
  warm: Plan | null;
}

/** The input as kept: its text and the hash that names it. */
export function sealed(input: PlanInput): { document: string; hash: string } {
  const document = JSON.stringify(input);
  return { document, hash: createHash('sha256').update(document).digest('hex') };
}

/** Reads a kept input back. @throws when the text is not what the hash says, or of another format */
export function unsealed(kept: { document: string; hash: string }): PlanInput {
  const hash = createHash('sha256').update(kept.document).digest('hex');
  if (hash !== kept.hash)
    throw new Error(`The kept input ${kept.hash} has been changed: it hashes to ${hash}`);
  const input = JSON.parse(kept.document) as PlanInput;
  // The format is the first thing that a later release will have to look at.
  if ((input.format as string) !== 'ribband-plan-input/1')
    throw new Error(`This release can't read a plan input of the format ${input.format}`);
  return input;
}
