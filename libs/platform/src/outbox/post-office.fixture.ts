import type { AddressInfo } from 'node:net';
import { SMTPServer } from 'smtp-server';

interface Letter {
  to: string;
  text: string;
}

/** A real mail server on this machine that answers as the test wants. */
export class PostOffice {
  readonly letters: Letter[] = [];
  onRecipient: (address: string) => Error | null = () => null;
  /** Whether the line breaks once the letter has been read, before the yes. */
  breaksOff = false;
  private readonly server = new SMTPServer({
    disabledCommands: ['AUTH', 'STARTTLS'],
    logger: false,
    onRcptTo: ({ address }, _session, done) => {
      done(this.onRecipient(address));
    },
    onData: (stream, session, done) => {
      const parts: Buffer[] = [];
      stream.on('data', (part: Buffer) => parts.push(part));
      stream.on('end', () => {
        const to = session.envelope.rcptTo.map((one) => one.address).join();
        this.letters.push({ to, text: Buffer.concat(parts).toString() });
        if (this.breaksOff)
          this.server.connections.forEach((one) => {
            one.close();
          });
        else done();
      });
    },
  });

  async open(): Promise<string> {
    // A line that is broken off on purpose is told here as well.
    this.server.on('error', () => undefined);
    const listener = this.server.listen(0, '127.0.0.1');
    await new Promise((resolve) => listener.once('listening', resolve));
    return `smtp://127.0.0.1:${(listener.address() as AddressInfo).port}`;
  }

  close(): Promise<void> {
    return new Promise((resolve) => {
      this.server.close(resolve);
    });
  }
}
