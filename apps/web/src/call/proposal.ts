import type { SeatedHow } from '../gql/graphql.js';
import type { Sheet, YardMorning } from './call.question.js';
import { reseat, type Reseated } from './reseat.js';

/** Who does what, as it would be called, wherever it was worked out. */
export interface Proposal {
  /** The yard's own reckoning, this phone's rule from the kept sheet, or the sheet from the wall. */
  source: 'yard' | 'phone' | 'paper';
  work: ProposedWork[];
  fallen: { taskId: string; title: string; why: string }[];
  idle: string[];
  /** Learners whose teacher is not on the work, in sentences; the yard says them. */
  learners: string[];
}

export interface ProposedWork {
  taskId: string;
  title: string;
  position: string | null;
  cautions: string[];
  /** What a named authority has set aside for those on it, in sentences. */
  setAside: string[];
  crew: {
    volunteerId: string;
    name: string;
    how: SeatedHow;
    skillId: string | null;
    skillName: string | null;
    /** On an all-hands day. */
    role: string | null;
    level: number;
    startsAt: string;
    endsAt: string;
  }[];
}

export function ofYard(morning: YardMorning): Proposal {
  return {
    source: 'yard',
    work: morning.work.map(({ task, crew, cautions, setAside }) => ({
      taskId: task.id,
      title: task.title,
      position: task.position ?? null,
      cautions,
      setAside,
      crew: crew.map(({ hand, skill, role, how, level, startsAt, endsAt }) => ({
        volunteerId: hand.volunteerId,
        name: hand.name,
        how,
        skillId: skill?.id ?? null,
        skillName: skill?.name ?? null,
        role: role ?? null,
        level,
        startsAt,
        endsAt,
      })),
    })),
    fallen: morning.fallen.map(({ task, why }) => ({ taskId: task.id, title: task.title, why })),
    idle: morning.idle.map(({ name }) => name),
    learners: morning.learners,
  };
}

/** Worked out on this phone, from the sheet that it keeps. */
export function ofPhone(sheet: Sheet, presentIds: readonly string[]): Proposal {
  return told(sheet, reseat(sheet, presentIds), 'phone');
}

/** As it stood on the wall: who was on what, by the letters of the work. The yard asks its gates when it is sent. */
export function ofPaper(sheet: Sheet, onWork: ReadonlyMap<string, readonly string[]>): Proposal {
  const seats = sheet.work.flatMap((work) => {
    const left = work.seats.map(({ count }) => count);
    return (onWork.get(work.task.id) ?? []).map((volunteerId) => {
      const verdict = work.verdicts.find((each) => each.volunteerId === volunteerId);
      const seat = verdict?.seats.find((index) => (left[index] ?? 0) > 0) ?? null;
      if (seat !== null) left[seat] = (left[seat] ?? 0) - 1;
      return { taskId: work.task.id, volunteerId, seat };
    });
  });
  const fallen = sheet.work
    .filter(({ task }) => !seats.some(({ taskId }) => taskId === task.id))
    .map(({ task }) => ({ taskId: task.id, why: 'Nobody was on it, as the sheet on the wall says.' }));
  return told(sheet, { seats, fallen, idle: [] }, 'paper');
}

function told(sheet: Sheet, { seats, fallen, idle }: Reseated, source: Proposal['source']): Proposal {
  const names = new Map(sheet.people.map(({ hand }) => [hand.volunteerId, hand.name]));
  const posted = new Set(sheet.work.flatMap(({ postedIds }) => postedIds));
  const how = (id: string, postedIds: readonly string[]): SeatedHow =>
    postedIds.includes(id) ? 'AS_POSTED' : posted.has(id) ? 'MOVED' : 'WALKED_IN';
  return {
    source,
    work: sheet.work.flatMap((work): ProposedWork[] => {
      const crew = seats.filter(({ taskId }) => taskId === work.task.id);
      if (crew.length === 0) return [];
      return [
        {
          taskId: work.task.id,
          title: work.task.title,
          position: work.task.position ?? null,
          cautions: work.cautions.map(({ words }) => words),
          setAside: work.setAside,
          crew: crew.map(({ volunteerId, seat }) => {
            const asked = seat === null ? undefined : work.seats[seat];
            return {
              volunteerId,
              name: names.get(volunteerId) ?? '',
              how: how(volunteerId, work.postedIds),
              skillId: asked?.skillId ?? null,
              skillName: asked?.skillName ?? null,
              role: null,
              level: asked?.level ?? 0,
              startsAt: work.startsAt,
              endsAt: work.endsAt,
            };
          }),
        },
      ];
    }),
    fallen: fallen.map(({ taskId, why }) => {
      const work = sheet.work.find(({ task }) => task.id === taskId);
      return { taskId, why, title: work?.task.title ?? '' };
    }),
    idle: idle.map((id) => names.get(id) ?? ''),
    learners: [],
  };
}
