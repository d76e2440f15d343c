import { DateTime, type MailState, type MessageKind, messageKinds, type MessageWay } from '@ribband/platform';
import { Field, ID, Int, ObjectType, registerEnumType } from '@nestjs/graphql';

const constant = (name: string): string => name.toUpperCase().replaceAll('-', '_');

/** The kinds for GraphQL: PLACE_WANTED is 'place-wanted' inside. */
export const MessageKindEnum = Object.fromEntries(
  Object.keys(messageKinds).map((kind) => [constant(kind), kind]),
) as Record<string, MessageKind>;

registerEnumType(MessageKindEnum, {
  name: 'MessageKind',
  description: 'What a piece of news is about.',
  valuesMap: Object.fromEntries(
    Object.entries(messageKinds).map(([kind, { about }]) => [constant(kind), { description: about }]),
  ),
});

export const MessageWayEnum = { EMAIL: 'email', PAGE: 'page', OFF: 'off' } as const;

registerEnumType(MessageWayEnum, {
  name: 'MessageWay',
  description: 'How somebody wants to be told.',
  valuesMap: {
    EMAIL: { description: 'By e-mail, and in the page.' },
    PAGE: { description: 'In the page only.' },
    OFF: { description: 'Not at all; not to be had for what is about safety.' },
  },
});

const MailStateEnum = {
  NONE: 'none',
  WAITING: 'waiting',
  SENDING: 'sending',
  SENT: 'sent',
  DEAD: 'dead',
} as const;

registerEnumType(MailStateEnum, {
  name: 'MailState',
  description: 'How the e-mail of a piece of news stands.',
  valuesMap: {
    NONE: { description: 'No e-mail is meant.' },
    WAITING: { description: 'It will be sent; it may be held over the quiet hours.' },
    SENDING: { description: 'It is being handed over.' },
    SENT: { description: 'The mail server took it.' },
    DEAD: { description: 'It could not be delivered.' },
  },
});

@ObjectType('Message', { description: 'A piece of news for one person.' })
export class MessageType {
  @Field(() => ID, { description: 'Opaque.' })
  id!: string;

  @Field(() => MessageKindEnum, { description: 'What it is about.' })
  kind!: MessageKind;

  @Field(() => String, { description: 'In one line.' })
  subject!: string;

  @Field(() => String, { description: 'In full: plain text with line breaks.' })
  words!: string;

  @Field(() => String, { nullable: true, description: 'Where in the page one can do something about it.' })
  path!: string | null;

  @Field(() => DateTime, { description: 'When it was written, by the yard’s clock.' })
  postedAt!: number;

  @Field(() => DateTime, { nullable: true, description: 'When it was read; null while it is new.' })
  readAt!: number | null;

  @Field(() => MailStateEnum, { description: 'How its e-mail stands.' })
  mail!: MailState;
}

@ObjectType({ description: 'How somebody wants to be told of one kind of news.' })
export class MessageChoiceType {
  @Field(() => MessageKindEnum, { description: 'Which kind.' })
  kind!: MessageKind;

  @Field(() => String, { description: 'What it is about, in words.' })
  about!: string;

  @Field(() => MessageWayEnum, { description: 'How they want to be told.' })
  way!: MessageWay;

  @Field(() => Boolean, { description: 'Whether it can be switched off: what is about safety can’t.' })
  maySwitchOff!: boolean;
}

@ObjectType('News', { description: 'What the caller has been told.' })
export class NewsType {
  @Field(() => [MessageType], { description: 'The newest first; at most 100.' })
  messages!: MessageType[];

  @Field(() => Int, { description: 'How many are new.' })
  unread!: number;

  @Field(() => [MessageChoiceType], { description: 'How they want to be told, for each kind.' })
  choices!: MessageChoiceType[];

  @Field(() => Boolean, { description: 'Whether this server sends e-mail at all.' })
  isMailSetUp!: boolean;
}

@ObjectType({ description: 'An e-mail that could not be delivered: somebody has to tell the person.' })
export class DeadLetter {
  @Field(() => ID, { description: 'Opaque.' })
  id!: string;

  @Field(() => String, { description: 'For whom it was.' })
  name!: string;

  @Field(() => String, { description: 'What it was about, in one line.' })
  subject!: string;

  @Field(() => DateTime, { description: 'When it was written, by the yard’s clock.' })
  postedAt!: number;

  @Field(() => Int, { description: 'How often it was tried.' })
  tries!: number;

  @Field(() => String, { nullable: true, description: 'What the mail server said at last.' })
  trouble!: string | null;
}

@ObjectType('QuietHours', { description: 'When the yard sends no e-mail, on its own clocks.' })
export class QuietHoursType {
  @Field(() => String, { description: 'From, such as 21:00.' })
  fromTime!: string;

  @Field(() => String, { description: 'To, such as 07:00; the same as from for no quiet hours.' })
  toTime!: string;
}

@ObjectType({ description: 'The news as the change left them.' })
export class NewsPayload {
  @Field(() => NewsType, { description: 'The caller’s news.' })
  news!: NewsType;
}

@ObjectType({ description: 'The yard’s mail as the change left it.' })
export class YardMailPayload {
  @Field(() => QuietHoursType, { description: 'When no e-mail is sent.' })
  quietHours!: QuietHoursType;

  @Field(() => [DeadLetter], { description: 'What could not be delivered; at most 100.' })
  deadLetters!: DeadLetter[];
}
