import { Organisation, permit, permitOwn, type Caller } from '@ribband/access';
import { CardEntity, CardKind, Volunteer, volunteerOf, YardDay } from '@ribband/crew';
import { Database, refuse } from '@ribband/platform';
import { SaySo, Task } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { In, type EntityManager } from 'typeorm';
import { AttendanceEntity } from '../attendance/attendance.entity.js';
import { withRole } from '../news/roster-words.js';
import { PlaceEntity } from '../places/place.entity.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { entriesBetween } from './hour.records.js';
import { refuseBackwards } from './hour-rules.js';
import { WorkKindEntity } from './work-kind.entity.js';

/** Hours of one person, as a letter to them says it. */
export interface HoursLetter {
  organisation: string;
  name: string;
  from: string;
  to: string;
  writtenOn: string;
  minutes: number;
  days: number;
  kinds: { name: string; minutes: number }[];
  /** Titles of work they had a hand in that was passed since; at most 12. */
  closed: string[];
}

/** Somebody on the day's list for the insurer. */
export interface CrewLine {
  volunteerId: string;
  name: string;
  isMinor: boolean;
  expected: boolean;
  arrivedAt: number | null;
  leftAt: number | null;
  work: string[];
  cards: { name: string; expiresOn: string | null; valid: boolean }[];
  /** Whether a waiver is on file and counts on the day; null where the yard keeps no such card. */
  waiver: boolean | null;
}

const mostClosed = 12;

/** Papers out of the hours book: a letter to one person, the list of a day for the insurer. */
@Injectable()
export class HourPapers {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardDay) private readonly yardDay: YardDay,
  ) {}

  /** A letter with somebody's hours of some days: for themselves, or as coordinator for anybody. */
  async letter(caller: Caller, volunteerId: string | null, from: string, to: string): Promise<HoursLetter> {
    const whose = volunteerId ?? caller.volunteerId ?? '';
    permitOwn(caller, whose, 'director', 'coordinator');
    refuseBackwards(from, to);
    const { organisationId } = caller;
    const writtenOn = await this.yardDay.today(organisationId);
    return this.database.snapshot(async (manager) => {
      const person = await volunteerOf(manager, organisationId, whose);
      const { name: organisation } = await manager.findOneByOrFail(Organisation, { id: organisationId });
      const entries = await entriesBetween(manager, organisationId, from, to)
        .andWhere('entry.volunteerId = :whose', { whose })
        .andWhere('entry.minutes IS NOT NULL')
        .getMany();
      const names = await kindNames(manager, organisationId);
      const kinds = new Map<string, number>();
      for (const { kindId, minutes } of entries)
        kinds.set(names.get(kindId) ?? '', (kinds.get(names.get(kindId) ?? '') ?? 0) + (minutes ?? 0));
      const taskIds = [...new Set(entries.flatMap((entry) => entry.taskId ?? []))];
      return {
        organisation,
        name: person.name,
        from,
        to,
        writtenOn,
        minutes: entries.reduce((sum, entry) => sum + (entry.minutes ?? 0), 0),
        days: new Set(entries.filter((entry) => entry.startsAt !== null).map((entry) => entry.workedOn)).size,
        kinds: [...kinds].map(([name, minutes]) => ({ name, minutes })),
        closed: await passedTitles(manager, organisationId, taskIds),
      };
    });
  }

  /** Who is expected at a turnout and who was there, with what they carry. */
  async crewList(caller: Caller, turnoutId: string): Promise<{ turnout: TurnoutEntity; lines: CrewLine[] }> {
    permit(caller, 'director', 'coordinator', 'shipwright');
    const { organisationId } = caller;
    return this.database.snapshot(async (manager) => {
      const turnout =
        (await manager.findOneBy(TurnoutEntity, { organisationId, id: turnoutId })) ??
        refuse('NOT_FOUND', 'There is no such turnout.', { field: 'turnoutId' });
      const places = await manager.findBy(PlaceEntity, {
        organisationId,
        turnoutId,
        state: In(['posted', 'taken']),
      });
      const came = await manager.findBy(AttendanceEntity, { organisationId, turnoutId });
      const hours = await entriesBetween(manager, organisationId, turnout.heldOn, turnout.heldOn)
        .andWhere('entry.turnoutId = :turnoutId', { turnoutId })
        .getMany();
      const ids = [...places, ...came, ...hours].flatMap(({ volunteerId }) => volunteerId ?? []);
      const people = await manager.find(Volunteer, {
        where: { organisationId, id: In([...new Set(ids)]) },
        order: { name: 'ASC' },
      });
      const carry = await cardsOf(manager, organisationId, turnout.heldOn);
      const titles = new Map(
        (
          await manager.findBy(Task, {
            id: In([...places, ...hours].flatMap(({ taskId }) => taskId ?? [])),
          })
        ).map((task) => [task.id, task.title]),
      );
      const lines = people.map((person): CrewLine => {
        const mine = <T extends { volunteerId: string | null }>(rows: T[]) =>
          rows.filter((row) => row.volunteerId === person.id);
        const [there] = mine(came);
        const worked = mine(hours);
        const taskIds = (worked.length > 0 ? worked : mine(places)).flatMap(({ taskId }) => taskId ?? []);
        const roleOf = (taskId: string) =>
          mine(places).find((place) => place.taskId === taskId)?.role ?? null;
        const workOf = (taskId: string) => {
          const title = titles.get(taskId);
          return title === undefined ? [] : [withRole(title, roleOf(taskId))];
        };
        return {
          volunteerId: person.id,
          name: person.name,
          isMinor: person.bornOn !== null && turnout.heldOn < plusYears(person.bornOn, 18),
          expected: mine(places).length > 0,
          arrivedAt: there?.arrivedAt ?? worked[0]?.startsAt ?? null,
          leftAt: there?.leftAt ?? worked.at(-1)?.endsAt ?? null,
          work: [...new Set(taskIds.flatMap(workOf))],
          ...carry(person.id),
        };
      });
      return { turnout, lines };
    });
  }
}

/** A birthday of later years; who was born on 29 February turns a year older on 1 March in other years. */
function plusYears(day: string, years: number): string {
  return `${Number(day.slice(0, 4)) + years}${day.slice(4)}`;
}

async function kindNames(manager: EntityManager, organisationId: string): Promise<Map<string, string>> {
  const kinds = await manager.findBy(WorkKindEntity, { organisationId });
  return new Map(kinds.map((kind) => [kind.id, kind.name]));
}

async function passedTitles(
  manager: EntityManager,
  organisationId: string,
  taskIds: readonly string[],
): Promise<string[]> {
  const said = await manager.find(SaySo, {
    where: { organisationId, taskId: In([...taskIds]) },
    order: { saidAt: 'ASC', id: 'ASC' },
  });
  const newest = new Map(said.map((one) => [one.taskId, one.verdict]));
  const passed = [...newest].filter(([, verdict]) => verdict === 'passed').map(([taskId]) => taskId);
  const tasks = await manager.find(Task, {
    where: { id: In(passed) },
    order: { title: 'ASC' },
    take: mostClosed,
  });
  return tasks.map((task) => task.title);
}

async function cardsOf(
  manager: EntityManager,
  organisationId: string,
  on: string,
): Promise<(volunteerId: string) => Pick<CrewLine, 'cards' | 'waiver'>> {
  const kinds = await manager.findBy(CardKind, { organisationId });
  const kindOf = new Map(kinds.map((kind) => [kind.id, kind]));
  const waivers = new Set(kinds.flatMap(({ id, purpose }) => (purpose === 'waiver' ? [id] : [])));
  const cards = await manager.find(CardEntity, { where: { organisationId }, order: { id: 'ASC' } });
  const isValid = (card: CardEntity) => card.expiresOn === null || card.expiresOn >= on;
  return (volunteerId) => {
    const held = cards.filter((card) => card.volunteerId === volunteerId);
    return {
      cards: held.map((card) => ({
        name: kindOf.get(card.kindId)?.name ?? '',
        expiresOn: card.expiresOn,
        valid: isValid(card),
      })),
      waiver: waivers.size === 0 ? null : held.some((card) => waivers.has(card.kindId) && isValid(card)),
    };
  };
}
