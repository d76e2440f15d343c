import { instantToLocal, Message, Messages } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { In, Like, type EntityManager } from 'typeorm';
import { isMinor } from '../gates/age-gates.js';
import { volunteerOf } from '../volunteers/volunteers.service.js';
import { YardDay } from '../yard/yard-day.js';
import { GuardianConsent } from './consent.entity.js';
import {
  cameWords,
  leftBeforeWords,
  leftWords,
  notBackWords,
  notLeftWords,
  otherTimeWords,
} from './family-words.js';

/** Tells parents that somebody under 18 came and left. */
@Injectable()
export class FamilyNews {
  constructor(
    @Inject(Messages) private readonly messages: Messages,
    @Inject(YardDay) private readonly yardDay: YardDay,
  ) {}

  /**
   * To be called in the transaction that notes it; adults are passed over, and the same coming or leaving is told once.
   * Of an earlier day, entered from paper, nothing is told: it is no news. But of whose coming was told, the leaving is
   * told whatever the day: it is waited for.
   * @param seen `at` in epoch milliseconds by the yard clock; `key` makes this coming or leaving this one and no other;
   *   `cameAs` the keys under which the coming may have been told, for a leaving under another key
   */
  async tell(
    manager: EntityManager,
    organisationId: string,
    seen: { volunteerId: string; what: 'came' | 'left'; at: number; key: string; cameAs?: string[] },
  ): Promise<void> {
    const { volunteerId, what, at, key } = seen;
    const zone = await this.yardDay.zone(organisationId, manager);
    const local = instantToLocal(at, zone);
    const volunteer = await volunteerOf(manager, organisationId, volunteerId);
    if (!isMinor(volunteer, local.day)) return;
    const isToday = local.day === (await this.yardDay.today(organisationId, manager));
    const came = (seen.cameAs ?? [key]).map((one) => keyOf('came', one, volunteerId));
    const isWaitedFor = async () =>
      what === 'left' && (await manager.existsBy(Message, { organisationId, key: In(came) }));
    if (!isToday && !(await isWaitedFor())) return;
    const letters = await lettersOf(manager, organisationId, { volunteerId, keys: [key] });
    const last = (what === 'came' ? letters : letters.filter(isOfLeaving)).at(-1);
    await this.post(manager, organisationId, volunteerId, {
      // After what was told by mistake the right one is still to be told.
      key:
        last && isMistake(last)
          ? after(last, { volunteerId, keys: [key] }, what)
          : keyOf(what, key, volunteerId),
      ...(what === 'came'
        ? cameWords(volunteer.name, local.time)
        : leftWords(volunteer.name, local.time, isToday ? null : local.day)),
    });
  }

  /**
   * To be called in the transaction that puts a leaving right. Where a leaving was told under one of the keys, and what
   * was told last is another time or a coming, the right one is told, whatever the day; where none was told, nothing is.
   * @param seen `at` in epoch milliseconds by the yard clock; `keys` all under which this leaving may have been told;
   *   `standing` another time, which stands where it is the one that was told; `isBack` whether they have come since
   */
  async leftAfterAll(
    manager: EntityManager,
    organisationId: string,
    seen: {
      volunteerId: string;
      at: number;
      keys: readonly string[];
      standing: number | null;
      isBack: boolean;
    },
  ): Promise<void> {
    const { volunteerId, at, standing } = seen;
    const letters = await lettersOf(manager, organisationId, seen);
    const last = letters.at(-1);
    if (!last || !letters.some(isOfLeaving)) return;
    const zone = await this.yardDay.zone(organisationId, manager);
    const says = (instant: number) =>
      isOfLeaving(last) && last.words.includes(`gone at ${instantToLocal(instant, zone).time}`);
    if (says(at) || (standing !== null && says(standing))) return;
    const { day, time } = instantToLocal(at, zone);
    const { name } = await volunteerOf(manager, organisationId, volunteerId);
    const on = day === (await this.yardDay.today(organisationId, manager)) ? null : day;
    const plain = seen.isBack ? leftBeforeWords(name, time, on) : leftWords(name, time, on);
    const told = { ...plain, key: after(last, seen) };
    const besides = isMistake(last) ? null : isOfLeaving(last) ? otherTimeWords : notBackWords(name);
    const to = await this.recipients(manager, organisationId, volunteerId, letters);
    await this.send(manager, organisationId, to.others, told);
    await this.send(manager, organisationId, to.told, {
      ...told,
      words: besides === null ? plain.words : `${plain.words} ${besides}`,
    });
  }

  /**
   * The same where nothing is left on record by which they have left: whoever was told so is told that it was a mistake.
   * @param seen `at` when they were thought to have left; `neverCame` whether nothing says that they had come, either
   */
  async leftByMistake(
    manager: EntityManager,
    organisationId: string,
    seen: { volunteerId: string; at: number; keys: readonly string[]; neverCame: boolean },
  ): Promise<void> {
    const { volunteerId, at, neverCame } = seen;
    const letters = await lettersOf(manager, organisationId, seen);
    const last = letters.filter(isOfLeaving).at(-1);
    if (!last || isMistake(last)) return;
    const { day } = instantToLocal(at, await this.yardDay.zone(organisationId, manager));
    const { name } = await volunteerOf(manager, organisationId, volunteerId);
    const isToday = day === (await this.yardDay.today(organisationId, manager));
    const { told } = await this.recipients(manager, organisationId, volunteerId, letters);
    await this.send(manager, organisationId, told, {
      ...notLeftWords(name, isToday ? null : day, neverCame),
      key: `${after(last, seen)}${mistake}`,
    });
  }

  private async post(
    manager: EntityManager,
    organisationId: string,
    volunteerId: string,
    told: Letter,
  ): Promise<void> {
    const to = await this.recipients(manager, organisationId, volunteerId, []);
    await this.send(manager, organisationId, to.others, told);
  }

  /** Somebody and their parents: who had one of the letters on a leaving, or its like at the same address, and the others. */
  private async recipients(
    manager: EntityManager,
    organisationId: string,
    volunteerId: string,
    letters: readonly Message[],
  ): Promise<{ told: string[]; others: string[] }> {
    const known = await manager.findBy(Message, {
      organisationId,
      key: In(letters.filter(isOfLeaving).map(({ key }) => key)),
    });
    const ids = new Set(known.map(({ recipientId }) => recipientId));
    const consents = await manager.find(GuardianConsent, {
      where: { organisationId, volunteerId },
      order: { id: 'DESC' },
    });
    const addresses = new Set(consents.flatMap((one) => (ids.has(one.id) ? addressOf(one) : [])));
    // A parent with several yeses on record is told once: by the first that has an address.
    const parents = new Map(
      consents.filter(({ withdrawnOn }) => withdrawnOn === null).map((one) => [addressOf(one), one.id]),
    );
    const all = [[volunteerId, volunteerId] as const, ...parents];
    const isTold = ([address, id]: readonly [string, string]) => ids.has(id) || addresses.has(address);
    return {
      told: all.filter(isTold).map(([, id]) => id),
      others: all.filter((one) => !isTold(one)).map(([, id]) => id),
    };
  }

  private async send(
    manager: EntityManager,
    organisationId: string,
    to: readonly string[],
    told: Letter,
  ): Promise<void> {
    await this.messages.post(manager, {
      organisationId,
      to,
      kind: 'minor-came-and-left',
      evenAtNight: true,
      ...told,
    });
  }
}

interface Letter {
  key: string;
  subject: string;
  words: string;
}

const mistake = ' mistake';
const keyOf = (what: 'came' | 'left', of: string, volunteerId: string): string =>
  `${what} ${of} ${volunteerId}`;
const isOfLeaving = ({ key }: Message): boolean => key.startsWith('left ');
const isMistake = ({ key }: Message): boolean => key.endsWith(mistake);
const addressOf = ({ guardianEmail, id }: GuardianConsent): string => guardianEmail ?? id;

/** The key of what puts a letter right: each is put right once. */
const after = (
  last: Message,
  { keys: [key = ''], volunteerId }: { keys: readonly string[]; volunteerId: string },
  what: 'came' | 'left' = 'left',
): string => `${keyOf(what, key, volunteerId)} after ${last.id}`;

/** What was written of somebody under some keys, what puts it right among it, the latest last. */
const lettersOf = (
  manager: EntityManager,
  organisationId: string,
  { volunteerId, keys }: { volunteerId: string; keys: readonly string[] },
): Promise<Message[]> =>
  manager.find(Message, {
    where: keys.flatMap((of) => [
      { organisationId, recipientId: volunteerId, key: Like(`${keyOf('came', of, volunteerId)}%`) },
      { organisationId, recipientId: volunteerId, key: Like(`${keyOf('left', of, volunteerId)}%`) },
    ]),
    order: { id: 'ASC' },
  });
