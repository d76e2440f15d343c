import { readFileSync, writeFileSync } from 'node:fs';
import { availableParallelism, cpus } from 'node:os';
import { format, resolveConfig } from 'prettier';

/** Puts `text` between the two marks of that name in a Markdown file. @throws Error where the marks are not there */
export async function putBetween(file: string, name: string, text: string): Promise<void> {
  const [from, to] = [`<!-- ${name}: written by the bench -->`, `<!-- end of ${name} -->`];
  const old = readFileSync(file, 'utf8');
  const [start, end] = [old.indexOf(from), old.indexOf(to)];
  if (start < 0 || end < start) throw new Error(`${file} has no marks "${from}" and "${to}"`);
  const whole = `${old.slice(0, start)}${from}\n\n${text.trim()}\n\n${old.slice(end)}`;
  const style = await resolveConfig(file);
  writeFileSync(file, await format(whole, { ...style, filepath: file }));
}

/** Day, release of Node and kind of machine, for the line over a table. */
export function madeOn(): string {
  const model = cpus()[0]?.model.replace(/\s+/g, ' ').trim() ?? 'unknown';
  const day = new Date().toISOString().slice(0, 10);
  return `Measured on ${day}, Node ${process.versions.node}, ${availableParallelism()} cores (${model}); seconds are computing time.`;
}

export function markdown(head: string[], rows: string[][]): string {
  const line = (cells: string[]) => `| ${cells.join(' | ')} |`;
  return [line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n');
}
