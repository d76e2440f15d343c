import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { createServer } from 'node:net';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** How long is computed in tests: see the settings of Jest. */
const quick = Object.fromEntries(
  ['PLAN_SECONDS', 'PLAN_THREADS', 'FORECAST_FUTURES'].map((name) => [name, process.env[name]]),
);

/** A program of ours that runs in a process of its own, from its build. */
export interface Program {
  child: ChildProcess;
  /** What it has said so far. */
  said(): string;
  complained(): string;
  /** Waits until it has said something. @throws when it ends before */
  until(words: RegExp): Promise<void>;
  /** Waits until it ends. @returns its exit code, or the signal that ended it */
  end(): Promise<number | NodeJS.Signals | null>;
  /** Sends it a signal and waits until it ends. */
  stop(signal?: NodeJS.Signals): Promise<number | NodeJS.Signals | null>;
}

/** Starts a built program, such as `apps/api/dist/main.js`, with these settings and none of this process. */
export function startProgram(path: string, args: string[], settings: Record<string, string>): Program {
  const child = spawn(process.execPath, [path, ...args], {
    cwd: root,
    env: { PATH: process.env['PATH'], LOG_LEVEL: 'warn', ...quick, ...settings },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let said = '';
  let complained = '';
  child.stdout.on('data', (data: Buffer) => (said += data.toString()));
  child.stderr.on('data', (data: Buffer) => (complained += data.toString()));
  const ended = once(child, 'close') as Promise<[number | null, NodeJS.Signals | null]>;
  const end = async (): Promise<number | NodeJS.Signals | null> => {
    const [code, signal] = await ended;
    return code ?? signal;
  };
  return {
    child,
    said: () => said,
    complained: () => complained,
    async until(words) {
      while (!words.test(said)) {
        const isOver = await Promise.race([
          ended.then(() => true),
          once(child.stdout, 'data').then(() => false),
        ]);
        if (isOver && !words.test(said))
          throw new Error(`It ended before it said ${words}:\n${said}${complained}`);
      }
    },
    end,
    stop(signal = 'SIGTERM') {
      child.kill(signal);
      return end();
    },
  };
}

/** A port that nobody listens on at this moment. */
export async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const address = server.address();
  server.close();
  await once(server, 'close');
  if (address === null || typeof address === 'string') throw new Error('No port');
  return address.port;
}
