import { BadFile, type Instance } from './instance.js';
import { readDef } from './read-def.js';
import { readDzn } from './read-dzn.js';
import { readSm } from './read-sm.js';

/** Reads an instance as the ending of its name says. @throws BadFile with the line that is wrong */
export function readInstance(name: string, text: string): Instance {
  if (name.endsWith('.sm')) return readSm(text);
  if (name.endsWith('.dzn')) return readDzn(text);
  if (name.endsWith('.def')) return readDef(text);
  throw new BadFile(1, 'the name must end in .sm, .dzn or .def');
}
