import {
  DRIFT_RULES,
  missingSupports,
  OPENING_RULES,
  prerequisitesOf,
  SIDES,
  type Support,
  waitsUnder,
  WHO_DECIDES,
} from '@ribband/hull';
import { addDays, instantToLocal, refusal, type Refusal, RefusalError } from '@ribband/platform';
import type { HoldPoint } from '../hold-points/hold-point.entity.js';
import { countedOn } from './counted.js';
import { calledOf, type HullToday, hullKeyOf, openAt } from './hull-today.js';
import type { Task } from '../tasks/task.entity.js';
import type { HullSupport } from './hull-support.entity.js';
import { capital } from '../words.js';

/** Work on a task that is to start at an instant. */
export interface WorkStart {
  taskId: string;
  startsAt: number;
}

/**
 * Why work that opens or closes the hull must wait, first the gravest. An empty list: nothing stands against it.
 *
 * On the day of the work only what is really so counts: tallies, passes, reports of what is open. Ahead of the day
 * what the plan in force will have opened and shut before the work starts counts too, so that a place can be posted
 * and taken while what it waits for is still planned. It is asked again on the day.
 */
export function stopsFor(today: HullToday, work: WorkStart): Refusal[] {
  const { board } = today;
  const isOnTheDay = instantToLocal(work.startsAt, board.timeZone).day <= today.today;
  const at = isOnTheDay ? board.now : work.startsAt;
  const all = [...today.elements.values()];
  const opens = all.filter((one) => one.openerId === work.taskId).map((one) => one.element.id);
  const closes = all.filter((one) => one.closerId === work.taskId).map((one) => one.element.id);
  if (opens.length === 0 && closes.length === 0) return [];
  const open = openAt(today, at);
  // What is open already is not opened again.
  const toOpen = opens.filter((id) => !(isOnTheDay ? open.has(id) : openAt(today, board.now).has(id)));
  return [
    ...(opens.length > 0 ? shapeStops(today, isOnTheDay) : []),
    ...limitStops(today, toOpen, open, instantToLocal(at, board.timeZone).day),
    ...supportStops(today, toOpen, open, at),
    ...(isOnTheDay && toOpen.length > 0 ? slingStops(today, work.taskId) : []),
    ...(closes.length > 0 ? unseenStops(today, work, isOnTheDay) : []),
  ];
}

const remedyDecides = 'The shipwright decides.';

function shapeStops({ marks }: HullToday, isOnTheDay: boolean): Refusal[] {
  const held = marks.flatMap(({ mark, state }) =>
    state.held === null
      ? []
      : [
          refusal('SHAPE_HOLD', `Nothing is opened: ${state.held}.`, {
            remedy: 'Look at shores and braces; the shipwright lifts the hold with a reason.',
            facts: { mark: mark.name, rule: DRIFT_RULES.hold.says, 'who decides': WHO_DECIDES },
          }),
        ],
  );
  const unread = marks.filter(({ state }) => state.drift.kind === 'no baseline').map(({ mark }) => mark.name);
  if (!isOnTheDay || unread.length === 0) return held;
  return [
    ...held,
    refusal('SHAPE_HOLD', 'Nothing is opened before her shape has been read after blocking.', {
      remedy: 'Two readers read each mark twice; that is the baseline.',
      facts: { 'not read yet': unread.join(', ') },
    }),
  ];
}

function limitStops(today: HullToday, toOpen: string[], open: Set<string>, day: string): Refusal[] {
  const { elements, limits } = today;
  const names = {
    name: (id: string) => {
      const one = elements.get(id);
      return one ? calledOf(one.element) : id;
    },
    isFrame: (id: string) => elements.get(id)?.element.kind === 'frame',
  };
  const counting = limits.map((limit) => ({ limit, atMost: limit.atMost, elements: countedOn(limit, day) }));
  const opened = new Set(open);
  const stops = new Map<string, Refusal>();
  for (const id of toOpen) {
    // Elsewhere opened by the plan at that very time: itself is not in its own way.
    opened.delete(id);
    for (const { limit, because, says } of waitsUnder(counting, id, opened, names))
      if (!stops.has(says))
        stops.set(
          says,
          refusal('OPENING_LIMIT_REACHED', `${capital(says)}.`, {
            remedy: `Choose other work until ${because.map(names.name).join(' and ') || 'the limit changes'} ${because.length > 1 ? 'are' : 'is'} shut again. ${remedyDecides}`,
            facts: {
              element: names.name(id),
              limit: limit.limit.name,
              'open now': because.map(names.name).join(', '),
              basis: limit.limit.basis,
              'who decides': WHO_DECIDES,
            },
          }),
        );
    opened.add(id);
  }
  return [...stops.values()];
}

/** Whether a support stands at an instant: seen by a named person, or set by work that is done, or will be by then. */
export function standsAt({ seenBy, struckOn, taskId }: HullSupport, today: HullToday, at: number): boolean {
  const { board, planned } = today;
  if (struckOn !== null) return false;
  if (seenBy !== null) return true;
  if (taskId === null) return false;
  if ((board.standing.get(taskId)?.doneAt ?? null) !== null) return true;
  const end = planned.get(taskId)?.endsAt;
  return at > board.now && end !== undefined && end <= at;
}

/** Everything that stands at an instant, as the hull's rules look at it. */
export function standingAt(today: HullToday, at: number): Support[] {
  const last = today.hull?.outline.frames.count ?? 0;
  const standing = today.supports.filter((support) => standsAt(support, today, at));
  return standing.flatMap(({ kind, side, firstFrame, lastFrame }) => {
    const first = firstFrame ?? 1;
    const frames = Array.from({ length: (lastFrame ?? last) - first + 1 }, (_, index) => first + index);
    const sides = side === null ? SIDES : [side];
    return sides.map((one) => ({ kind, side: one, frames }));
  });
}

function supportStops(today: HullToday, toOpen: string[], open: Set<string>, at: number): Refusal[] {
  const { hull, elements } = today;
  if (!hull) return [];
  const keyOf = (id: string): string | null => {
    const one = elements.get(id);
    return one ? hullKeyOf(hull, one.element) : null;
  };
  const openKeys = [...open].flatMap((id) => keyOf(id) ?? []);
  const standing = standingAt(today, at);
  return toOpen.flatMap((id) => {
    const key = keyOf(id);
    if (key === null) return [];
    return missingSupports(prerequisitesOf(hull, key, openKeys), standing).map((missing) =>
      refusal(
        'SUPPORT_MISSING',
        `${capital(calledOf(elements.get(id)!.element))} must wait: ${missing.says} is not on record.`,
        {
          remedy: 'Set it, and let a named person see it.',
          facts: {
            missing: missing.kind,
            frames: missing.atOneOf.join(' or '),
            basis: OPENING_RULES.shoresWithin.says,
            'who decides': WHO_DECIDES,
          },
        },
      ),
    );
  });
}

const wasSeen = (point: HoldPoint, { board }: HullToday): boolean =>
  point.seenBy !== null || board.progress.get(point.taskId)?.stage === 'passed';

/** Slings directly before a task that nobody has seen. */
function slingStops(today: HullToday, taskId: string): Refusal[] {
  const { board, holdPoints } = today;
  const before = new Set((board.linksInto.get(taskId) ?? []).map((link) => link.beforeId));
  return holdPoints
    .filter((point) => point.eyes === 'sling' && before.has(point.taskId) && !wasSeen(point, today))
    .map((point) =>
      refusal('NOT_SEEN', `Nobody has said that they saw it: ${board.task.get(point.taskId)?.title ?? ''}.`, {
        remedy: 'A named person sees the sling and the cleared zone first, and that is written down.',
      }),
    );
}

/** Eyes from outside that a closing task would shut out. */
function unseenStops(today: HullToday, work: WorkStart, isOnTheDay: boolean): Refusal[] {
  const { board } = today;
  const before = allBefore(work.taskId, today);
  return today.holdPoints
    .filter((point) => point.eyes !== 'sling' && before.has(point.taskId) && !wasSeen(point, today))
    .flatMap((point) => {
      const title = board.task.get(point.taskId)?.title ?? '';
      const day = instantToLocal(work.startsAt, board.timeZone).day;
      if (isOnTheDay)
        return [
          refusal('NOT_SEEN', `Nothing is closed over before it is seen: ${title}.`, {
            remedy: `The ${point.eyes} looks at it first, and that is written down.`,
            facts: { notice: noticeWords(point) },
          }),
        ];
      const told = point.noticeOn ?? today.today;
      if (addDays(told, point.noticeDays) <= day) return [];
      return [
        refusal('NOT_SEEN', `Nothing is closed over before it is seen: ${title}.`, {
          remedy: `The ${point.eyes} wants ${point.noticeDays} days’ notice; before ${addDays(told, point.noticeDays)} nothing can be closed.`,
          facts: { notice: noticeWords(point) },
        }),
      ];
    });
}

const noticeWords = ({ noticeOn, noticeBy, noticeDays }: HoldPoint): string =>
  noticeOn === null ? `none given; ${noticeDays} days wanted` : `given on ${noticeOn} by ${noticeBy ?? ''}`;

function allBefore(taskId: string, { board }: HullToday): Set<string> {
  const found = new Set<string>();
  const look = [taskId];
  for (let id = look.pop(); id !== undefined; id = look.pop())
    for (const { beforeId } of board.linksInto.get(id) ?? []) {
      if (found.has(beforeId)) continue;
      found.add(beforeId);
      look.push(beforeId);
    }
  return found;
}

/**
 * Refuses to pass what had to be seen first and was not: a say-so with eyes bound to it, a piece that was cut free,
 * work that closes over what somebody from outside wants to see.
 */
export function refuseUnseen(task: Task, today: HullToday): void {
  const own = today.holdPoints.find((point) => point.taskId === task.id && point.seenBy === null);
  if (own)
    throw new RefusalError(
      refusal('NOT_SEEN', `Who saw it is not written down: "${task.title}".`, {
        field: 'taskId',
        remedy: 'Write down who saw it and when, then pass it.',
      }),
    );
  const elements = [...today.elements.values()];
  const work = { taskId: task.id, startsAt: today.board.now };
  const [first] = [
    ...(elements.some((one) => one.openerId === task.id) ? slingStops(today, task.id) : []),
    ...(elements.some((one) => one.closerId === task.id) ? unseenStops(today, work, true) : []),
  ];
  if (first) throw new RefusalError(first);
}
