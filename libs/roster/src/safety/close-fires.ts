import type { Caller } from '@ribband/access';
import { mayClose, Volunteer } from '@ribband/crew';
import { instantToLocal, refuse } from '@ribband/platform';
import { wordsGiven } from '@ribband/repair';
import { In, type EntityManager } from 'typeorm';
import { firesAt, sayWatch, watchedFire } from '../fire-watch/fires.js';
import { overrideAuthority, refuseWithoutAuthority } from '../overrides/authority.js';
import type { TurnoutEntity } from '../turnouts/turnout.entity.js';
import type { RoundItem } from './closing-round.entity.js';

/** That the record of a watch is missing, set aside in the caller's name. */
export interface FireSetAside {
  taskId: string;
  reason: string;
}

/** What stands in the way of closing turnouts, by turnout, and whether the caller may set it aside. */
export async function firesToClose(
  manager: EntityManager,
  caller: Caller,
  turnouts: readonly TurnoutEntity[],
  now: number,
): Promise<(turnoutId: string) => { taskId: string; words: string; mayOverride: boolean }[]> {
  const fires = await firesAt(manager, caller.organisationId, turnouts);
  const today = instantToLocal(now, fires[0]?.zone ?? 'UTC').day;
  const authority = await overrideAuthority(manager, caller, today);
  return (turnoutId) =>
    fires.flatMap((fire) => {
      const watched = fire.turnout.id === turnoutId ? watchedFire(fire) : null;
      const findings = watched ? mayClose({ now, notAccountedFor: [], fires: [watched] }) : [];
      return findings
        .filter(({ weight }) => weight === 'stop')
        .map(({ rule, words }) => ({ taskId: fire.task.id, words, mayOverride: authority(rule) !== null }));
    });
}

/**
 * What the closing round keeps of the turnout's fires. The watch's time is never set aside; that something is not
 * written down is, by who may and for a reason that stays with the round.
 * @throws RefusalError NOT_SEEN for a watch whose time is not over or of which something is missing
 */
export async function closeFires(
  manager: EntityManager,
  caller: Caller,
  turnout: TurnoutEntity,
  { now, setAside }: { now: number; setAside: readonly FireSetAside[] },
): Promise<RoundItem[]> {
  const fires = await firesAt(manager, caller.organisationId, [turnout]);
  const ids = fires.flatMap(({ written: [row] }) => row?.watchId ?? []);
  const people = await manager.findBy(Volunteer, { id: In(ids) });
  const nameOf = (id: string) => people.find((person) => person.id === id)?.name ?? '';
  const items: RoundItem[] = [];
  for (const fire of fires) {
    const words = `Fire watch on “${fire.task.title}”`;
    const note = sayWatch(fire, nameOf);
    const watched = watchedFire(fire);
    const [finding] = watched ? mayClose({ now, notAccountedFor: [], fires: [watched] }) : [];
    if (finding?.weight !== 'stop') {
      items.push({ words, isDone: true, note });
      continue;
    }
    const asked = setAside.find(({ taskId }) => taskId === fire.task.id);
    if (!asked)
      return refuse('NOT_SEEN', finding.words, {
        field: 'setAside',
        remedy: finding.remedy ?? '',
        facts: { basis: finding.basis },
      });
    const today = instantToLocal(now, fire.zone).day;
    const by = refuseWithoutAuthority(await overrideAuthority(manager, caller, today), finding.rule);
    const reason = wordsGiven(asked.reason, 'setAside', 10, 500, 'Why it may be, and what is done instead.');
    items.push({ words, isDone: false, note: `${note}. Set aside by ${by}: ${reason}` });
  }
  return items;
}
