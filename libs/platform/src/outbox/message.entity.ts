import { Entity, Index, Unique } from 'typeorm';
import {
  FlagColumn,
  IdColumn,
  InstantColumn,
  IntegerColumn,
  OneOfColumn,
  RefColumn,
  TextColumn,
} from '../database/columns.js';
import { type MessageKind, messageKindNames } from './message-kinds.js';

/**
 * How the e-mail of a message stands.
 *
 *     none      no e-mail is meant: the page is enough, or there is no address
 *     waiting   to be sent once it is due
 *     sending   a process has it in hand until its lease ends
 *     sent      the mail server took it
 *     dead      given up: somebody has to tell the person
 */
export const mailStates = ['none', 'waiting', 'sending', 'sent', 'dead'] as const;
export type MailState = (typeof mailStates)[number];

/** One piece of news to one person. The row is written with the change that it tells of. */
@Entity('message')
@Unique(['organisationId', 'recipientId', 'key'])
@Index(['recipientId', 'postedAt'])
@Index(['mail', 'dueAt'])
export class Message {
  @IdColumn()
  id!: string;

  @RefColumn(null, { indexed: false })
  organisationId!: string;

  /** Somebody in the crew, an account, or whoever answers for a minor: the kind stands in the id. */
  @RefColumn(null, { indexed: false })
  recipientId!: string;

  @OneOfColumn(messageKindNames)
  kind!: MessageKind;

  /** What makes this piece of news this one and no other: with the same key it is told once. */
  @TextColumn()
  key!: string;

  @TextColumn()
  subject!: string;

  @TextColumn()
  words!: string;

  /** Where in the page one can do something about it, such as `/places`; null for nowhere. */
  @TextColumn({ nullable: true })
  path!: string | null;

  /** False where the person has switched this kind off: the row stays, so that the news is not told later. */
  @FlagColumn()
  isShown!: boolean;

  /** By the yard's clock. */
  @InstantColumn()
  postedAt!: number;

  /** Real time; null while unread. */
  @InstantColumn({ nullable: true })
  readAt!: number | null;

  @OneOfColumn(mailStates)
  mail!: MailState;

  /** Whether the e-mail may go out in the quiet hours. */
  @FlagColumn()
  evenAtNight!: boolean;

  /** Real time before which the e-mail is not tried. */
  @InstantColumn()
  dueAt!: number;

  /** How often it was tried. */
  @IntegerColumn()
  tries!: number;

  /** The try that has it in hand. */
  @TextColumn({ nullable: true })
  tryId!: string | null;

  @InstantColumn({ nullable: true })
  leaseUntil!: number | null;

  @InstantColumn({ nullable: true })
  sentAt!: number | null;

  /** Why the last try came to nothing, fit to be shown to the director. */
  @TextColumn({ nullable: true })
  trouble!: string | null;
}

/** How somebody wants to be told of one kind of news; without a row by e-mail and in the page. */
@Entity('message_choice')
@Unique(['recipientId', 'kind'])
export class MessageChoice {
  @IdColumn()
  id!: string;

  @RefColumn(null)
  organisationId!: string;

  @RefColumn(null, { indexed: false })
  recipientId!: string;

  @OneOfColumn(messageKindNames)
  kind!: MessageKind;

  @OneOfColumn(['email', 'page', 'off'])
  way!: 'email' | 'page' | 'off';
}

/** When a yard sends no e-mail. */
@Entity('quiet_hours')
export class QuietHours {
  @IdColumn()
  organisationId!: string;

  /** Local 'HH:MM' at the yard; the same as `toTime` for no quiet hours. */
  @TextColumn()
  fromTime!: string;

  @TextColumn()
  toTime!: string;
}
