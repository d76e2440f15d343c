import { type Millimetres } from '../measure.js';
import { needPositive } from '../refusal.js';
import { JOINT_RULES } from './joint-rules.js';

export type ScarfKind = keyof typeof JOINT_RULES.scarf.value;

/** Least length of a scarf in a timber of this depth. */
export function scarfLength(kind: ScarfKind, depth: Millimetres): Millimetres {
  needPositive(depth, 'depth', 'millimetres');
  return JOINT_RULES.scarf.value[kind] * depth;
}
