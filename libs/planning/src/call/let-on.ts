import type { Problem } from '@ribband/engine';
import type { Allowed } from './call-shapes.js';

/** The level of skill at which nobody else need be there. */
const worksAlone = 2;

/**
 * The problem with people let on tasks for which a named authority has set a rule aside. The task then asks for twins of
 * its clearances, or of its seats' skills: whoever has the one has the other, and so have those who are let on, for no
 * other task. Twins of skills stand behind the yard's own, in the order of `twinOf`.
 *
 * @param until the last minute for which it counts; a level of skill has no end, and only this turnout is read from
 * the answer
 */
export function letOn(
  problem: Problem,
  allowed: readonly Allowed[],
  until: number,
): { problem: Problem; twinOf: (skill: number) => number } {
  const clearances = [...problem.clearances];
  const skills = [...problem.skills];
  const people = problem.people.map((person) => {
    return { ...person, levels: [...person.levels], clearances: [...person.clearances] };
  });
  const tasks = [...problem.tasks];
  const twins: number[] = [];
  for (const at of new Set(allowed.map(({ task }) => task))) {
    const task = tasks[at];
    if (!task) continue;
    const those = (lacks: Allowed['lacks']) =>
      new Set(allowed.flatMap((one) => (one.task === at && one.lacks === lacks ? [one.person] : [])));
    const [uncarded, unskilled, learning, few] = [
      those('clearance'),
      those('skill'),
      those('company'),
      those('crew'),
    ];
    const twinClearance = (clearance: number): number => {
      if (uncarded.size === 0) return clearance;
      const twin = clearances.length;
      const { id, name } = problem.clearances[clearance] ?? { id: '', name: '' };
      clearances.push({ id: `${id} on ${task.id}`, name });
      people.forEach((person, i) => {
        const held = person.clearances.find((one) => one.clearance === clearance);
        if (held) person.clearances.push({ ...held, clearance: twin });
        else if (uncarded.has(i)) person.clearances.push({ clearance: twin, until });
      });
      return twin;
    };
    const twinSkill = (skill: number, level: number): number => {
      if (unskilled.size + learning.size === 0) return skill;
      const twin = skills.length;
      const { id, name } = problem.skills[skill] ?? { id: '', name: '' };
      skills.push({ id: `${id} on ${task.id}`, name });
      twins.push(skill);
      people.forEach((person, i) => {
        const own = person.levels[skill] ?? 0;
        const lifted = learning.has(i) ? worksAlone : unskilled.has(i) ? level : 0;
        person.levels.push(Math.max(own, lifted));
      });
      return twin;
    };
    const seated = task.seats.reduce((sum, { count }) => sum + count, 0);
    const min = few.size > 0 ? Math.min(task.crew.min, Math.max(1, seated, few.size)) : task.crew.min;
    tasks[at] = {
      ...task,
      crew: { ...task.crew, min },
      clearances: task.clearances.map(twinClearance),
      seats: task.seats.map((seat) => ({
        ...seat,
        skill: twinSkill(seat.skill, seat.level),
        clearances: seat.clearances.map(twinClearance),
      })),
    };
  }
  return {
    problem: { ...problem, clearances, skills, people, tasks },
    twinOf: (skill) => twins[skill - problem.skills.length] ?? skill,
  };
}
