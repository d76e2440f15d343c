import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const question = /\bgraphql\(\s*`([^`]*)`,?\s*\)/g;
const generated = join('src', 'gql');

/**
 * Each file carries the questions that it asks and no others. The generated `graphql` finds a question in a map of all
 * of them, which would come along with the first page; here its text, with the fragments that it names, takes the
 * call's place.
 *
 * @returns {import('vite').Plugin}
 */
export function ownQuestions(root = 'src') {
  const fragments = new Map();

  return {
    name: 'own-questions',
    apply: 'build',
    enforce: 'pre',
    buildStart() {
      fragments.clear();
      for (const [, text] of filesOf(root).flatMap((file) => [
        ...readFileSync(file, 'utf8').matchAll(question),
      ])) {
        for (const part of text.split(/^(?= {2}(?:fragment|query|mutation|subscription) )/m)) {
          const name = /^\s*fragment (\w+) /.exec(part)?.[1];
          if (name) fragments.set(name, part.trim());
        }
      }
    },
    transform(code, id) {
      if (!/\/src\/.*\.tsx?$/.test(id) || id.includes('/src/gql/')) return null;
      if (!code.includes('graphql(`')) return null;
      const asked = code.replace(
        question,
        (_, text) => `/*#__PURE__*/ gql(${JSON.stringify(whole(text, fragments))})`,
      );
      return { code: `import { gql } from 'urql';\n${asked}`, map: null };
    },
  };
}

/** A question with the fragments that it names, and those that they name. */
function whole(text, fragments) {
  const parts = [text];
  const there = new Set([...text.matchAll(/\bfragment (\w+) on /g)].map(([, name]) => name));
  for (const part of parts) {
    for (const [, name] of part.matchAll(/\.\.\.(\w+)/g)) {
      if (name === 'on' || there.has(name)) continue;
      const fragment = fragments.get(name);
      if (!fragment) throw new Error(`no file has the fragment ${name}`);
      there.add(name);
      parts.push(fragment);
    }
  }
  return parts.join('\n').replace(/\n\s*/g, '\n').trim();
}

function filesOf(folder) {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name) && !entry.parentPath.includes(generated))
    .map((entry) => join(entry.parentPath, entry.name));
}
