import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Config } from '@ribband/platform';
import { buildServer, type Server } from './server.js';

/** A file that is made from the server and kept in the repository, so that a change of it is seen. */
export interface CommittedFile {
  /** Its name within apps/api. */
  name: string;
  /** The command that writes it. */
  command: string;
  make: (server: Server) => string;
}

/**
 * Writes the file, or with `--check` compares it; or with `--print` shows it. The server is built on an empty
 * database of its own and does not listen.
 */
export async function writeOrCheck(file: CommittedFile, mode: string | undefined): Promise<void> {
  const path = fileURLToPath(new URL(`../${file.name}`, import.meta.url));
  const made = await fromServer(file.make);
  if (mode === '--print') {
    process.stdout.write(made);
  } else if (mode === '--check') {
    if (readFileSync(path, 'utf8') === made) return;
    console.error(
      `apps/api/${file.name} is not what the server has now: run "${file.command}" and look at the change.`,
    );
    process.exitCode = 1;
  } else {
    writeFileSync(path, made);
  }
}

async function fromServer(make: (server: Server) => string): Promise<string> {
  const dataDir = mkdtempSync(join(tmpdir(), 'ribband-'));
  try {
    const server = await buildServer(Config.read({ DATA_DIR: dataDir, LOG_LEVEL: 'warn' }), 'ask');
    try {
      return make(server);
    } finally {
      await server.close();
    }
  } finally {
    rmSync(dataDir, { recursive: true, force: true });
  }
}
