import { createTransport } from 'nodemailer';
import type { MailSettings } from '../config/config.js';

export interface Letter {
  /** The same at every try: by it a letter that comes twice is known as one. */
  messageId: string;
  to: { name: string; address: string };
  subject: string;
  text: string;
}

/** The mail server said no for good to this letter: another try would end the same way. */
export class LetterRefused extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'LetterRefused';
  }
}

/** One connection a letter; a yard sends tens a day, and a connection that is used once cannot go stale. */
const waits = { connectionTimeout: 10_000, greetingTimeout: 10_000, socketTimeout: 20_000 };
/** All of one try; far below the lease of a letter in hand. */
const longestTryMillis = 60_000;

/** Hands letters to the mail server that the settings name. */
export class MailServer {
  constructor(private readonly settings: MailSettings) {}

  /** @throws LetterRefused for good; any other error is worth another try */
  async send(letter: Letter): Promise<void> {
    const transport = createTransport({ url: this.settings.url, ...waits });
    let timer: NodeJS.Timeout | undefined;
    try {
      const tooLong = new Promise<never>((_resolve, reject) => {
        timer = setTimeout(() => {
          reject(new Error(`The mail server took longer than ${longestTryMillis / 1000} seconds`));
        }, longestTryMillis);
      });
      const sent = transport.sendMail({
        from: this.settings.from,
        to: letter.to,
        subject: letter.subject,
        text: letter.text,
        messageId: letter.messageId,
        // RFC 3834: nobody's "away" answer shall come back to it.
        headers: { 'Auto-Submitted': 'auto-generated' },
        disableFileAccess: true,
        disableUrlAccess: true,
      });
      await Promise.race([sent, tooLong]);
    } catch (error) {
      throw isForGood(error) ? new LetterRefused(inWords(error)) : error;
    } finally {
      clearTimeout(timer);
      transport.close();
    }
  }
}

/**
 * RFC 5321, section 4.2.1: an answer that begins with 5 is a permanent no. One about signing in is about our settings
 * and not about the letter, so it is tried again once they are put right.
 */
function isForGood(error: unknown): boolean {
  const { code, responseCode = 0 } = error as { code?: string; responseCode?: number };
  return responseCode >= 500 && (code === 'EENVELOPE' || code === 'EMESSAGE');
}

/** What a mail server said, on one line and without end. */
export function inWords(error: unknown): string {
  const text = error instanceof Error ? error.message : String(error);
  return text.replace(/\s+/g, ' ').slice(0, 300);
}
