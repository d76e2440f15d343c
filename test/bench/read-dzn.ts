import { BadFile, refuseCircles, wholeOf, type SkillInstance } from './instance.js';

/** Reads a multi-skill instance (Young, Feydy and Schutt 2017): a data file of `name = value;` statements. */
export function readDzn(text: string): SkillInstance {
  const values = new Map<string, { body: string; line: number }>();
  const bare = text.replace(/%[^\n]*/g, '');
  for (const match of bare.matchAll(/(\w+)\s*=\s*([^;]*);/g)) {
    values.set(match[1], { body: match[2].trim(), line: lineAt(bare, match.index) });
  }
  const value = (name: string) => {
    const found = values.get(name);
    if (!found) throw new BadFile(1, `no value "${name}"`);
    return found;
  };
  const whole = (name: string) => wholeOf(value(name).body, value(name).line, name);
  const list = (name: string, length: number): number[] => {
    const { body, line } = value(name);
    if (!/^\[[^|]*\]$/s.test(body)) throw new BadFile(line, `${name} must be a list in [ ]`);
    const inside = body.slice(1, -1).trim();
    const words = inside === '' ? [] : inside.replace(/,\s*$/, '').split(/\s*,\s*/);
    if (words.length !== length)
      throw new BadFile(line, `${name} must have ${length} values, has ${words.length}`);
    return words.map((word) => wholeOf(word, line, name));
  };
  const table = (name: string, rows: number, columns: number): string[][] => {
    const { body, line } = value(name);
    if (!/^\[\|.*\|\s*\]$/s.test(body)) throw new BadFile(line, `${name} must be a table in [| |]`);
    const found = body
      .slice(2, -1)
      .replace(/\|\s*$/, '')
      .split('|');
    if (found.length !== rows) throw new BadFile(line, `${name} must have ${rows} rows, has ${found.length}`);
    return found.map((row, r) => {
      const words = row
        .trim()
        .replace(/,$/, '')
        .split(/\s*,\s*/);
      if (words.length !== columns)
        throw new BadFile(line + r, `${name} must have ${columns} columns, has ${words.length}`);
      return words;
    });
  };

  const n = whole('nActs');
  const skills = whole('nSkills');
  const people = whole('nResources');
  const pairs = whole('nPrecs');
  const durations = list('dur', n);
  const { line } = value('sreq');
  const needs = table('sreq', n, skills).map((row, r) => row.map((word) => wholeOf(word, line + r, 'sreq')));
  const can = table('mastery', people, skills).map((row, r) =>
    row.map((word) => {
      if (word !== 'true' && word !== 'false')
        throw new BadFile(value('mastery').line + r, `must be true or false, is "${word}"`);
      return word === 'true';
    }),
  );
  needs.forEach((row, i) => {
    row.forEach((count, s) => {
      const there = can.filter((own) => own[s]).length;
      if (count > there)
        throw new BadFile(line + i, `task ${i + 1} needs ${count} with skill ${s + 1}, there are ${there}`);
    });
  });
  const before = list('pred', pairs);
  const after = list('succ', pairs);
  const order = before.map((a, k): [number, number] => {
    for (const i of [a, after[k]])
      if (i < 1 || i > n) throw new BadFile(value('pred').line, `${i} is not one of ${n} tasks`);
    return [a - 1, after[k] - 1];
  });
  refuseCircles(order, n, value('pred').line);
  return { format: 'dzn', durations, order, needs, can };
}

function lineAt(text: string, index: number): number {
  return text.slice(0, index).split('\n').length;
}
