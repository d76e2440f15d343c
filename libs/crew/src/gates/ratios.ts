import { stop } from './found.js';
import type { GateRule, Hand, Seated } from './gate.types.js';

const newToOne = 4;
const experiencedToOne = 8;

const best = (hand: Hand): number => Math.max(0, ...hand.levels.values());

/**
 * How many may be under each who supervises. At a machine one learner each; by hand four new people or eight
 * experienced ones, or a mixture in proportion. Common practice.
 */
export const supervisorGate: GateRule = ({ hand, seat, job, occasion }) => {
  const crew: Seated[] = [{ hand, seat }, ...occasion.alongside];
  const inSkill = (one: Hand) => Math.max(0, ...job.seatSkills.map((skill) => one.levels.get(skill.id) ?? 0));
  const supervisors = crew.filter(({ hand: one }) => inSkill(one) >= 2).map((one) => one.hand);
  if (supervisors.length === 0) return [];
  if (job.hazards.includes('machine')) {
    const learners = crew.filter((one) => inSkill(one.hand) === 1 && one.seat.skill !== null).length;
    return learners <= supervisors.length ? [] : [tooMany(supervisors, 'one learner each at a machine')];
  }
  const others = crew.map((one) => one.hand).filter((one) => !supervisors.includes(one));
  const load = others.reduce((sum, one) => sum + 1 / (best(one) < 2 ? newToOne : experiencedToOne), 0);
  return load <= supervisors.length + 1e-9
    ? []
    : [tooMany(supervisors, `${newToOne} new people or ${experiencedToOne} experienced ones each`)];
};

const tooMany = (supervisors: readonly Hand[], ratio: string) =>
  stop(
    'supervisor',
    `${supervisors.map((one) => one.name).join(' and ')} can supervise ${ratio}, and that many are on it.`,
    'Another who works alone in it makes room, or take other work.',
  );
