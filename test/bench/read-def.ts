import { BadFile, refuseCircles, wholeOf, type LevelInstance } from './instance.js';

/** Reads a multi-skill instance with levels (Myszkowski et al. 2014). */
export function readDef(text: string): LevelInstance {
  const lines = text.split(/\r?\n/);
  const rowsUnder = (title: string): { words: string[]; line: number }[] => {
    const at = lines.findIndex((line) => line.startsWith(title));
    if (at < 0) throw new BadFile(lines.length, `no section "${title}"`);
    const rows: { words: string[]; line: number }[] = [];
    for (let k = at + 1; k < lines.length && !lines[k].startsWith('==='); k++) {
      if (lines[k].trim() !== '') rows.push({ words: lines[k].trim().split(/\s+/), line: k + 1 });
    }
    return rows;
  };
  const told = (title: string, found: number) => {
    const at = lines.findIndex((line) => line.startsWith(title));
    if (at < 0) throw new BadFile(1, `no line "${title}"`);
    const count = wholeOf(/:\s*(\S+)/.exec(lines[at])?.[1], at + 1, title);
    if (count !== found) throw new BadFile(at + 1, `says ${count}, the file lists ${found}`);
  };

  const skills: string[] = [];
  const skillOf = (word: string, line: number): number => {
    const name = /^(\w+):$/.exec(word)?.[1];
    if (name === undefined) throw new BadFile(line, `a skill must be written "Q1:", is "${word}"`);
    if (!skills.includes(name)) skills.push(name);
    return skills.indexOf(name);
  };

  const resourceIds: number[] = [];
  const held: { skill: number; level: number }[][] = [];
  for (const { words, line } of rowsUnder('ResourceID')) {
    resourceIds.push(wholeOf(words[0], line, 'ResourceID'));
    const own: { skill: number; level: number }[] = [];
    for (let k = 2; k < words.length; k += 2) {
      own.push({ skill: skillOf(words[k], line), level: wholeOf(words[k + 1], line, 'level') });
    }
    held.push(own);
  }
  told('Resources', held.length);

  const rows = rowsUnder('TaskID');
  const ids = rows.map(({ words, line }) => wholeOf(words[0], line, 'TaskID'));
  const durations: number[] = [];
  const task: { skill: number; level: number }[] = [];
  const order: [number, number][] = [];
  rows.forEach(({ words, line }, i) => {
    durations.push(wholeOf(words[1], line, 'duration'));
    if (words.length < 4) throw new BadFile(line, 'must have a duration, a skill and a level');
    task.push({ skill: skillOf(words[2], line), level: wholeOf(words[3], line, 'level') });
    for (const word of words.slice(4)) {
      const a = ids.indexOf(wholeOf(word, line, 'predecessor'));
      if (a < 0) throw new BadFile(line, `predecessor ${word} is no task`);
      order.push([a, i]);
    }
    const fit = held.some((own) =>
      own.some((has) => has.skill === task[i].skill && has.level >= task[i].level),
    );
    if (!fit) throw new BadFile(line, `nobody has ${words[2]} ${words[3]}`);
  });
  told('Tasks', rows.length);
  refuseCircles(order, rows.length, rows[0]?.line ?? 1);
  const levels = held.map((own) => skills.map((_, s) => own.find((has) => has.skill === s)?.level ?? -1));
  return { format: 'def', durations, order, skills, task, levels, resourceIds };
}
