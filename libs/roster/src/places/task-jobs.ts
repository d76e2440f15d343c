import { CardKind, type Job, type SeatOnJob, Skill } from '@ribband/crew';
import { allCautionsOf, type CautionLine, hazardsOf, Seat, Task, TaskOpening } from '@ribband/repair';
import { In, type EntityManager } from 'typeorm';

/** A task as the gates look at it. */
export interface TaskJob {
  task: Task;
  job: Job;
  cautions: CautionLine[];
  /** Why nobody shall work on it: it was dropped or is held. Null where it may be worked on. */
  closed: string | null;
  /** The seat of a skill at a level, with the cards that go with it; a plain hand where the skill is null. */
  seatFor(skillId: string | null, level: number): SeatOnJob;
}

/** Tasks by id, with what they ask of people. */
export async function jobsOf(
  manager: EntityManager,
  organisationId: string,
  taskIds: readonly string[],
): Promise<Map<string, TaskJob>> {
  if (taskIds.length === 0) return new Map();
  const ids = In([...taskIds]);
  const tasks = await manager.findBy(Task, { organisationId, id: ids });
  const seats = await manager.find(Seat, { where: { organisationId, taskId: ids }, order: { id: 'ASC' } });
  const openings = await manager.findBy(TaskOpening, { organisationId, taskId: ids, does: 'opens' });
  const skills = new Map((await manager.findBy(Skill, { organisationId })).map((skill) => [skill.id, skill]));
  const kinds = new Map((await manager.findBy(CardKind, { organisationId })).map((kind) => [kind.id, kind]));
  const cards = (cardIds: readonly string[]) => cardIds.flatMap((id) => kinds.get(id) ?? []);
  return new Map(
    tasks.map((task): [string, TaskJob] => {
      const ofTask = seats.filter((seat) => seat.taskId === task.id);
      const opens = openings.filter((opening) => opening.taskId === task.id).length;
      const job: Job = {
        id: task.id,
        title: task.title,
        hazards: hazardsOf(task),
        cards: cards(task.cardKindIds),
        leastAge: task.leastAge,
        seatSkills: ofTask.flatMap((seat) => skills.get(seat.skillId) ?? []),
        dismantles: opens > 0,
        crewMin: task.crewMin,
        noiseDba: null,
        lift: null,
      };
      const cautions = allCautionsOf({ ...task, cautions: task.ownCautions, opens });
      const seatFor = (skillId: string | null, level: number): SeatOnJob => {
        const skill = skillId === null ? null : (skills.get(skillId) ?? null);
        const seat = ofTask.find((one) => one.skillId === skillId && one.level === level);
        return { skill, level, cards: cards(seat?.cardKindIds ?? []) };
      };
      return [task.id, { task, job, cautions, closed: closedBecause(task), seatFor }];
    }),
  );
}

function closedBecause(task: Task): string | null {
  if (task.droppedAt !== null) return `“${task.title}” was dropped from the scope.`;
  return task.held === null ? null : `“${task.title}” is held: ${task.held}`;
}
