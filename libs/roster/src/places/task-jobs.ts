import { CardKind, type Job, type Lift, type SeatOnJob, Skill } from '@ribband/crew';
import {
  allCautionsOf,
  type CautionLine,
  hazardsOf,
  heaviestPieces,
  Loudness,
  Seat,
  Task,
  TaskOpening,
  TaskTool,
} from '@ribband/repair';
import { In, type EntityManager } from 'typeorm';

/** A task as the gates look at it. */
export interface TaskJob {
  task: Task;
  job: Job;
  cautions: CautionLine[];
  /** Why nobody shall work on it: it was dropped or is held. Null where it may be worked on. */
  closed: string | null;
  /**
   * The seat of a skill at a level, with the cards that go with it and the one of a role; a plain hand where the skill
   * is null.
   */
  seatFor(skillId: string | null, level: number, cardKindId?: string | null): SeatOnJob;
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
  const lifted = tasks.filter(({ hazards }) => hazards.includes('lifting')).map(({ id }) => id);
  const pounds = await heaviestPieces(manager, organisationId, lifted);
  const noise = await noiseOf(manager, organisationId, taskIds);
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
        noiseDba: noise(task.id, hazardsOf(task).includes('noise')),
        lift: liftOf(task, pounds.get(task.id)),
      };
      const cautions = allCautionsOf({ ...task, cautions: task.ownCautions, opens });
      const seatFor: TaskJob['seatFor'] = (skillId, level, cardKindId = null) => {
        const skill = skillId === null ? null : (skills.get(skillId) ?? null);
        const seat = ofTask.find((one) => one.skillId === skillId && one.level === level);
        const ofRole = cardKindId === null ? [] : [cardKindId];
        return { skill, level, cards: cards([...(seat?.cardKindIds ?? []), ...ofRole]) };
      };
      return [task.id, { task, job, cautions, closed: closedBecause(task), seatFor }];
    }),
  );
}

/** Who works above ground does so on staging; null where no weight is known. */
const liftOf = ({ hazards }: Task, pounds: number | undefined): Lift | null =>
  pounds === undefined ? null : { pounds, isHigh: hazards.includes('fall') };

function closedBecause(task: Task): string | null {
  if (task.droppedAt !== null) return `“${task.title}” was dropped from the scope.`;
  return task.held === null ? null : `“${task.title}” is held: ${task.held}`;
}

/** The loudest of a task's tools; where none is written down and the work is loud, what is written for work by hand. */
async function noiseOf(
  manager: EntityManager,
  organisationId: string,
  taskIds: readonly string[],
): Promise<(taskId: string, isLoud: boolean) => number | null> {
  const levels = new Map(
    (await manager.findBy(Loudness, { organisationId })).map(({ toolId, dba }) => [toolId, dba]),
  );
  const tools =
    levels.size === 0 ? [] : await manager.findBy(TaskTool, { organisationId, taskId: In([...taskIds]) });
  return (taskId, isLoud) => {
    const ofTools = tools.flatMap((tool) => (tool.taskId === taskId ? (levels.get(tool.toolId) ?? []) : []));
    if (ofTools.length > 0) return Math.max(...ofTools);
    return isLoud ? (levels.get(null) ?? null) : null;
  };
}
