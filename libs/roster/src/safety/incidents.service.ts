import { Audit, permit, type Caller } from '@ribband/access';
import { recipientsWith, volunteerOf, YardDay } from '@ribband/crew';
import { Database, expectVersion, Messages, newId, refuse, YardClock } from '@ribband/platform';
import { readPicture, wordsOf, wordsOrNull } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { type IncidentKind, IncidentEntity } from './incident.entity.js';

export interface IncidentReport {
  kind: IncidentKind;
  what: string;
  place: string;
  who: string | null;
  /** Base 64 of a photograph, or null. */
  picture: string | null;
}

const owners = ['director', 'coordinator'] as const;

/** What happened or nearly did: reported by anybody, owned by somebody, closed with what was done. */
@Injectable()
export class Incidents {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(YardDay) private readonly yardDay: YardDay,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(Messages) private readonly messages: Messages,
  ) {}

  /** Open ones first, newest first; at most 200. Others than staff see their own. */
  async list(caller: Caller): Promise<IncidentEntity[]> {
    const { organisationId, accountId } = caller;
    const where = caller.role === 'volunteer' ? { organisationId, accountId } : { organisationId };
    const rows = await this.database.read.find(IncidentEntity, { where, order: { id: 'DESC' }, take: 200 });
    return rows.sort((a, b) => Number(a.closedAt !== null) - Number(b.closedAt !== null));
  }

  /** Anybody reports. Director and coordinator are told at once; no name goes into the message. */
  async report(caller: Caller, report: IncidentReport): Promise<IncidentEntity> {
    const what = wordsOf(report.what, 'what', 1000, 'What happened');
    const place = wordsOf(report.place, 'place', 200, 'Where it was');
    const who = wordsOrNull(report.who, 'who', 300, 'Who it was');
    const picture = report.picture === null ? null : readPicture(report.picture, 'picture');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const row: IncidentEntity = {
        id: newId('incident'),
        organisationId,
        version: 1,
        kind: report.kind,
        what,
        place,
        who,
        reportedAt: await this.clock.now(organisationId, manager),
        reportedBy: caller.name,
        accountId: caller.accountId,
        ownerId: null,
        followUp: null,
        dueOn: null,
        closedAt: null,
        closedBy: null,
        outcome: null,
        picture: picture?.bytes.toString('base64') ?? null,
        pictureType: picture?.type ?? null,
      };
      await manager.insert(IncidentEntity, row);
      const to = new Set<string>();
      for (const role of owners)
        for (const id of await recipientsWith(manager, organisationId, role)) to.add(id);
      await this.messages.post(manager, {
        organisationId,
        to: [...to],
        kind: 'incident',
        key: `incident ${row.id}`,
        subject: `${subjects[report.kind]} at ${place}`,
        words: `${what}\n\nWho it was about is on the page only.`,
        path: '/safety',
        evenAtNight: report.kind === 'hurt',
      });
      // What was said of people stays out of the trail.
      await this.audit.note(manager, caller, 'reportIncident', row.id, { kind: report.kind });
      return row;
    });
  }

  /** Gives it to somebody, with what is to be done and until when. */
  async assign(
    caller: Caller,
    id: string,
    version: number,
    to: { ownerId: string; followUp: string; dueOn: string },
  ): Promise<IncidentEntity> {
    permit(caller, ...owners);
    const followUp = wordsOf(to.followUp, 'followUp', 500, 'What is to be done');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const row = await this.openOne(manager, organisationId, id, version);
      await volunteerOf(manager, organisationId, to.ownerId, 'ownerId');
      if (to.dueOn < (await this.yardDay.today(organisationId, manager)))
        refuse('BAD_INPUT', 'That day is over.', { field: 'dueOn', remedy: 'Choose today or a later day.' });
      const change = { ownerId: to.ownerId, followUp, dueOn: to.dueOn, version: version + 1 };
      await manager.update(IncidentEntity, { id }, change);
      await this.messages.post(manager, {
        organisationId,
        to: [to.ownerId],
        kind: 'incident',
        key: `incident ${id} ${version + 1}`,
        subject: `You see to something by ${to.dueOn}`,
        words: followUp,
        path: '/safety',
      });
      await this.audit.note(manager, caller, 'assignIncident', id, { ownerId: to.ownerId, dueOn: to.dueOn });
      return Object.assign(row, change);
    });
  }

  /** Closes it with what was done: director, coordinator, or whoever owns it. */
  async close(caller: Caller, id: string, version: number, done: string): Promise<IncidentEntity> {
    const outcome = wordsOf(done, 'outcome', 1000, 'What was done');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const row = await this.openOne(manager, organisationId, id, version);
      if (row.ownerId === null || row.ownerId !== caller.volunteerId) permit(caller, ...owners);
      const change = {
        outcome,
        closedBy: caller.name,
        closedAt: await this.clock.now(organisationId, manager),
        version: version + 1,
      };
      await manager.update(IncidentEntity, { id }, change);
      await this.audit.note(manager, caller, 'closeIncident', id);
      return Object.assign(row, change);
    });
  }

  private async openOne(
    manager: Parameters<Parameters<Database['write']>[0]>[0],
    organisationId: string,
    id: string,
    version: number,
  ): Promise<IncidentEntity> {
    const row =
      (await manager.findOneBy(IncidentEntity, { organisationId, id })) ??
      refuse('NOT_FOUND', 'There is no such incident.', { field: 'id', remedy: 'Read them again.' });
    expectVersion(row, version);
    if (row.closedAt !== null)
      refuse('CHANGED_MEANWHILE', 'It was closed already.', {
        field: 'id',
        facts: { 'closed by': row.closedBy ?? '' },
      });
    return row;
  }
}

const subjects: Record<IncidentKind, string> = {
  'near-miss': 'A near miss',
  hurt: 'Somebody was hurt',
  damage: 'Something was damaged',
};

/** Who may read of whom a report speaks: those who answer for people, and who wrote it. */
export const mayReadWho = (caller: Caller, row: Pick<IncidentEntity, 'accountId'>): boolean =>
  caller.role === 'director' || caller.role === 'coordinator' || row.accountId === caller.accountId;
