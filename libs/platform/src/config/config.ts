import { z } from 'zod';

const flag = z.enum(['0', '1', 'true', 'false']).transform((text) => text === '1' || text === 'true');

/** How e-mail goes out. */
export interface MailSettings {
  /** The mail server, smtp:// or smtps://, with the name and the password to sign in with. */
  url: string;
  /** Whom letters come from. */
  from: string;
  /** The part of the sender's address behind the @, which stands in the ids of letters. */
  host: string;
}

/** Every setting of the server, by the name of its environment variable. There are no secrets with a default. */
const settings = z
  .object({
    PORT: z.coerce
      .number('must be a port number')
      .int('must be a port number')
      .min(0)
      .max(65535)
      .default(3000),
    HOST: z.string().min(1).default('127.0.0.1'),
    DATA_DIR: z.string().min(1).default('./data'),
    DATABASE_URL: z
      .string()
      .regex(/^postgres(ql)?:\/\/.+/, 'must start with postgres:// (leave it out to use a SQLite file)')
      .optional(),
    REDIS_URL: z
      .string()
      .regex(/^rediss?:\/\/.+/, 'must start with redis:// or rediss://')
      .optional(),
    REDIS_PREFIX: z
      .string()
      .regex(/^[a-z0-9-]+$/, 'may have small letters, digits and hyphens')
      .default('ribband'),
    PUBLIC_URL: z
      .string()
      .regex(/^https?:\/\/[^/]+\/?$/, 'must be an address such as https://yard.example, with no path')
      .optional(),
    SMTP_URL: z
      .string()
      .regex(/^smtps?:\/\/.+/, 'must start with smtp:// or smtps:// (leave it out to send no e-mail)')
      .optional(),
    MAIL_FROM: z
      .string()
      .regex(
        /^([^<>\r\n]*<[^\s@<>]+@[^\s@<>]+>|[^\s@<>]+@[^\s@<>]+)$/,
        'must be an address such as yard@example.org, or a name with one: The yard <yard@example.org>',
      )
      .optional(),
    TRUST_PROXY: flag.default(false),
    LOG_LEVEL: z.enum(['fatal', 'error', 'warn', 'info', 'debug', 'trace', 'silent']).default('info'),
  })
  .refine((it) => (it.SMTP_URL === undefined) === (it.MAIL_FROM === undefined), {
    path: ['MAIL_FROM'],
    message: 'goes with SMTP_URL: set both to send e-mail, or none',
  });

/** Thrown when settings are wrong. It lists every problem at once and never shows a value, which may be a secret. */
export class ConfigError extends Error {
  constructor(readonly problems: string[]) {
    super(`These settings are wrong:\n${problems.map((problem) => `  ${problem}`).join('\n')}`);
    this.name = 'ConfigError';
  }
}

/** The settings of this process, read once. */
export class Config {
  private constructor(
    /** TCP port to listen on; 0 takes any free one. */
    readonly port: number,
    readonly host: string,
    /** Folder that holds the SQLite file. */
    readonly dataDir: string,
    /** PostgreSQL address; null means the SQLite file in `dataDir`. */
    readonly databaseUrl: string | null,
    /** Redis address; null means that computing jobs and news stay in this process. */
    readonly redisUrl: string | null,
    /** Stands before all names in Redis; servers that share one Redis need one each. */
    readonly redisPrefix: string,
    /** How people reach the server from outside (behind a proxy), without a slash at the end. */
    readonly publicUrl: string | null,
    /** Whether the X-Forwarded-* headers come from a proxy of ours and may be believed. */
    readonly trustProxy: boolean,
    readonly logLevel: z.infer<typeof settings>['LOG_LEVEL'],
    /** How e-mail goes out; null means that news are shown in the page and nowhere else. */
    readonly mail: MailSettings | null,
  ) {}

  /** @throws ConfigError with all problems together */
  static read(environment: Record<string, string | undefined>): Config {
    // An empty variable (`REDIS_URL=`) means the same as none.
    const given = Object.fromEntries(Object.entries(environment).filter(([, value]) => value !== ''));
    const read = settings.safeParse(given);
    if (!read.success) {
      throw new ConfigError(read.error.issues.map((issue) => `${issue.path.join('.')}: ${issue.message}`));
    }
    const it = read.data;
    return new Config(
      it.PORT,
      it.HOST,
      it.DATA_DIR,
      it.DATABASE_URL ?? null,
      it.REDIS_URL ?? null,
      it.REDIS_PREFIX,
      it.PUBLIC_URL?.replace(/\/$/, '') ?? null,
      it.TRUST_PROXY,
      it.LOG_LEVEL,
      mailOf(it.SMTP_URL, it.MAIL_FROM),
    );
  }
}

function mailOf(url: string | undefined, from: string | undefined): MailSettings | null {
  if (url === undefined || from === undefined) return null;
  return { url, from, host: from.replace(/^.*@/, '').replace(/>.*$/, '') };
}
