import { readLength, type Units } from '../words/lengths.js';

/** An outline as the yard document has it; the page knows the parts that it lets one type. */
export interface Outline {
  frames: {
    count: number;
    roomAndSpace: number;
    sided: number;
    moulded: { heel: number; head: number };
    head: number;
    floorLayer: string;
    joints: { forward: number[]; aft: number[] };
    boltsEachSideOfJoint: number;
  };
  strakes: {
    count: number;
    width: number;
    thickness: number;
    bilge: number[];
    butts: Record<'port' | 'starboard', { first: number[]; every: number; leaveAft: number }>;
  };
  ceiling: {
    strakes: number;
    from: number;
    to: number;
    thickness: number;
    nails: number;
    buttBays: number[];
  };
  members: { name: string; at: number; width: number; boltsAtFrame: number }[];
  nailing: unknown;
  exceptions?: unknown[];
}

export interface OutlineEntry {
  name: string;
  label: string;
  kind: 'count' | 'length' | 'height' | 'list' | 'words' | 'lines';
  hint?: string;
  /** What its part of an outline is called in a refusal. */
  path: string;
}

/** Everything that is typed, in the order in which one walks round her. */
export const entries: { title: string; fields: OutlineEntry[] }[] = [
  {
    title: 'Frames',
    fields: [
      { name: 'frames', label: 'How many frames', kind: 'count', path: 'frames.count' },
      { name: 'space', label: 'Room and space', kind: 'length', path: 'frames.roomAndSpace' },
      { name: 'sided', label: 'Each layer sided', kind: 'length', path: 'frames.sided' },
      { name: 'heel', label: 'Moulded at the heel', kind: 'length', path: 'frames.moulded.heel' },
      { name: 'frameHead', label: 'Moulded at the head', kind: 'length', path: 'frames.moulded.head' },
      {
        name: 'head',
        label: 'Frames end at',
        kind: 'height',
        hint: 'In strakes from the rabbet: 8.3 is a third up strake 9.',
        path: 'frames.head',
      },
      {
        name: 'jointsForward',
        label: 'Joints of the forward layer at',
        kind: 'list',
        path: 'frames.joints.forward',
      },
      { name: 'jointsAft', label: 'Joints of the after layer at', kind: 'list', path: 'frames.joints.aft' },
      {
        name: 'bolts',
        label: 'Bolts each side of a joint',
        kind: 'count',
        path: 'frames.boltsEachSideOfJoint',
      },
    ],
  },
  {
    title: 'Planking',
    fields: [
      { name: 'strakes', label: 'Strakes a side', kind: 'count', path: 'strakes.count' },
      { name: 'width', label: 'Usual width', kind: 'length', path: 'strakes.width' },
      { name: 'thickness', label: 'Thickness', kind: 'length', path: 'strakes.thickness' },
      { name: 'bilge', label: 'Strakes at the turn of the bilge', kind: 'list', path: 'strakes.bilge' },
      {
        name: 'buttsStarboard',
        label: 'First butts to starboard, strake by strake',
        kind: 'list',
        hint: 'By bays: 4 is between frames 4 and 5. Repeated over the strakes.',
        path: 'strakes.butts.starboard.first',
      },
      { name: 'buttsPort', label: 'First butts to port', kind: 'list', path: 'strakes.butts.port.first' },
      {
        name: 'every',
        label: 'A butt every so many frames',
        kind: 'count',
        path: 'strakes.butts.starboard.every',
      },
      {
        name: 'leaveAft',
        label: 'None that leaves fewer frames aft than',
        kind: 'count',
        path: 'strakes.butts.starboard.leaveAft',
      },
    ],
  },
  {
    title: 'Ceiling',
    fields: [
      { name: 'ceilingStrakes', label: 'Strakes of ceiling', kind: 'count', path: 'ceiling.strakes' },
      { name: 'ceilingFrom', label: 'From height', kind: 'height', path: 'ceiling.from' },
      { name: 'ceilingTo', label: 'To height', kind: 'height', path: 'ceiling.to' },
      { name: 'ceilingThickness', label: 'Its thickness', kind: 'length', path: 'ceiling.thickness' },
      { name: 'ceilingNails', label: 'Nails at each frame', kind: 'count', path: 'ceiling.nails' },
      { name: 'ceilingButts', label: 'Its butts, by bays', kind: 'list', path: 'ceiling.buttBays' },
    ],
  },
  {
    title: 'Members and what differs',
    fields: [
      {
        name: 'members',
        label: 'Timbers bolted to the frames inside',
        kind: 'lines',
        hint: 'One a line: name, height in strakes, width, bolts at each frame. clamp, 15, 12, 2',
        path: 'members',
      },
      {
        name: 'exceptions',
        label: 'What differs',
        kind: 'lines',
        hint: 'One a line: strakes 3-4 starboard nails 5, strakes 1 width 10, frames 40-44 head 14, frames 20 space 22.',
        path: 'exceptions',
      },
    ],
  },
];

/** Which control a refused field belongs to. */
export const fieldIds: Record<string, string> = Object.fromEntries(
  entries.flatMap(({ fields }) => fields.map(({ name, path }) => [`outline.${path}`, `outline-${name}`])),
);

/** The usual nails, by the width of the plank: what a yard starts with. */
const usualNailing = {
  key: 'nails-per-double-frame',
  says: '4 nails to a double frame, two in each half, for planks of 7 to 10 inches; 3 or 2 for narrower ones',
  origin: { kind: 'practice' },
  bands: [
    { upTo: 5, included: false, nails: [2] },
    { upTo: 7, included: false, nails: [3] },
    { upTo: 10, included: true, nails: [4] },
  ],
};

const numbers = (typed: string): number[] =>
  typed
    .split(/[\s,]+/)
    .filter(Boolean)
    .map(Number);

/** An outline of what was typed. What is no number is left to the server, which says which field is wrong. */
export function readOutline(text: (name: string) => string, units: Units, old: Outline | null): Outline {
  const number = (name: string): number => (text(name) === '' ? NaN : Number(text(name)));
  const length = (typed: number): number =>
    // Lengths keep their eighths: a whole millimetre would not come back as the same fraction.
    units === 'METRIC' ? readLength(typed, units) : typed * 25.4;
  const butts = (side: string) => ({
    first: numbers(text(side)),
    every: number('every'),
    leaveAft: number('leaveAft'),
  });
  const exceptions = lines(text('exceptions')).map((line) => readException(line, length));
  return {
    frames: {
      count: number('frames'),
      roomAndSpace: length(number('space')),
      sided: length(number('sided')),
      moulded: { heel: length(number('heel')), head: length(number('frameHead')) },
      head: number('head'),
      floorLayer: old?.frames.floorLayer ?? 'forward',
      joints: { forward: numbers(text('jointsForward')), aft: numbers(text('jointsAft')) },
      boltsEachSideOfJoint: number('bolts'),
    },
    strakes: {
      count: number('strakes'),
      width: length(number('width')),
      thickness: length(number('thickness')),
      bilge: numbers(text('bilge')),
      butts: { port: butts('buttsPort'), starboard: butts('buttsStarboard') },
    },
    ceiling: {
      strakes: number('ceilingStrakes'),
      from: number('ceilingFrom'),
      to: number('ceilingTo'),
      thickness: length(number('ceilingThickness')),
      nails: number('ceilingNails'),
      buttBays: numbers(text('ceilingButts')),
    },
    members: lines(text('members')).map((line) => {
      const [name = '', at, width, bolts] = line.split(',').map((part) => part.trim());
      return { name, at: Number(at), width: length(Number(width)), boltsAtFrame: Number(bolts) };
    }),
    nailing: old?.nailing ?? usualNailing,
    ...(exceptions.length > 0 ? { exceptions } : {}),
  };
}

const lines = (typed: string): string[] =>
  typed
    .split('\n')
    .map((line) => line.trim())
    .filter(Boolean);

const words = { nails: 'nailsAtFrame', butts: 'buttBays' } as const;
const lengths = new Set(['width', 'thickness', 'space']);

/** "strakes 3-4 starboard nails 5": a range, a side where it is only one, and a word with its value. */
function readException(line: string, length: (typed: number) => number): unknown {
  const [kind = '', range = '', ...rest] = line.split(/\s+/);
  const [first, last = first] = range.split('-').map(Number);
  const side = rest[0] === 'port' || rest[0] === 'starboard' ? { side: rest.shift() } : {};
  const [word = '', ...values] = rest;
  const all = values.join(' ');
  const value =
    word === 'butts'
      ? numbers(all)
      : lengths.has(word)
        ? length(Number(all))
        : all === ''
          ? null
          : Number(all);
  const name = word in words ? words[word as keyof typeof words] : word;
  return { [kind]: [first, last], ...side, [name]: value };
}

/** An outline as it stands in the controls. */
export function rowsOf(
  outline: Outline | null,
  show: (millimetres: number) => string,
): Record<string, string> {
  if (!outline) return {};
  const { frames, strakes, ceiling, members } = outline;
  const list = (all: readonly number[]): string => all.join(', ');
  return {
    frames: String(frames.count),
    space: show(frames.roomAndSpace),
    sided: show(frames.sided),
    heel: show(frames.moulded.heel),
    frameHead: show(frames.moulded.head),
    head: String(frames.head),
    jointsForward: list(frames.joints.forward),
    jointsAft: list(frames.joints.aft),
    bolts: String(frames.boltsEachSideOfJoint),
    strakes: String(strakes.count),
    width: show(strakes.width),
    thickness: show(strakes.thickness),
    bilge: list(strakes.bilge),
    buttsStarboard: list(strakes.butts.starboard.first),
    buttsPort: list(strakes.butts.port.first),
    every: String(strakes.butts.starboard.every),
    leaveAft: String(strakes.butts.starboard.leaveAft),
    ceilingStrakes: String(ceiling.strakes),
    ceilingFrom: String(ceiling.from),
    ceilingTo: String(ceiling.to),
    ceilingThickness: show(ceiling.thickness),
    ceilingNails: String(ceiling.nails),
    ceilingButts: list(ceiling.buttBays),
    members: members
      .map(({ name, at, width, boltsAtFrame }) => `${name}, ${at}, ${show(width)}, ${boltsAtFrame}`)
      .join('\n'),
    exceptions: (outline.exceptions ?? []).map((one) => showException(one, show)).join('\n'),
  };
}

function showException(one: unknown, show: (millimetres: number) => string): string {
  const { frames, strakes, side, ...rest } = one as Record<string, unknown>;
  const range = (frames ?? strakes) as [number, number];
  return Object.entries(rest)
    .map(([name, value]) => {
      const word = Object.entries(words).find(([, key]) => key === name)?.[0] ?? name;
      const shown = lengths.has(word)
        ? show(value as number)
        : Array.isArray(value)
          ? value.join(', ')
          : String(value);
      return [frames ? 'frames' : 'strakes', range.join('-'), side, word, shown].filter(Boolean).join(' ');
    })
    .join('\n');
}
