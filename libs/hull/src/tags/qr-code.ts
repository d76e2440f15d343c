import { need } from '../refusal.js';
import { checkBytes } from './reed-solomon.js';

/**
 * A QR code (ISO/IEC 18004) for a tag: byte mode, correction level M (about 15 in 100 of it may be lost to paint and
 * rain), the smallest of versions 1 to 6 that holds the text, the mask with least penalty. Rows of modules, true is
 * dark; leave four modules of white around when drawing.
 */
export type QrCode = boolean[][];

/** By version 1 to 6 at level M: blocks, data bytes and check bytes in each. */
const BLOCKS = [
  { blocks: 1, data: 16, check: 10 },
  { blocks: 1, data: 28, check: 16 },
  { blocks: 1, data: 44, check: 26 },
  { blocks: 2, data: 32, check: 18 },
  { blocks: 2, data: 43, check: 24 },
  { blocks: 4, data: 27, check: 16 },
];

/** Bytes of text that the largest of these versions holds. */
export const QR_MOST_BYTES = 106;

export function qrCode(text: string): QrCode {
  const bytes = utf8(text);
  const version = BLOCKS.findIndex(({ blocks, data }) => bytes.length + 2 <= blocks * data) + 1;
  need(version > 0, 'text', `${bytes.length} bytes are too many`, `at most ${QR_MOST_BYTES}`);
  const stream = interleaved(dataBytes(bytes, version), version);
  const { modules, fixed } = frame(version);
  fill(modules, fixed, stream);
  let best: { code: QrCode; penalty: number } | null = null;
  for (let mask = 0; mask < 8; mask += 1) {
    const code = modules.map((row, y) => row.map((dark, x) => dark !== (!fixed[y][x] && MASKS[mask](x, y))));
    writeFormat(code, mask);
    const penalty = penaltyOf(code);
    if (best === null || penalty < best.penalty) best = { code, penalty };
  }
  return best!.code;
}

function utf8(text: string): number[] {
  return [...text].flatMap((character) => {
    const point = character.codePointAt(0)!;
    if (point < 0x80) return [point];
    const tail = (shift: number): number => 0x80 | ((point >> shift) & 0x3f);
    if (point < 0x800) return [0xc0 | (point >> 6), tail(0)];
    if (point < 0x10000) return [0xe0 | (point >> 12), tail(6), tail(0)];
    return [0xf0 | (point >> 18), tail(12), tail(6), tail(0)];
  });
}

/** Mode, length, text, end; filled up with the two filler bytes. */
function dataBytes(bytes: number[], version: number): number[] {
  const { blocks, data } = BLOCKS[version - 1];
  const bits = [
    0,
    1,
    0,
    0,
    ...bitsOf(bytes.length, 8),
    ...bytes.flatMap((byte) => bitsOf(byte, 8)),
    0,
    0,
    0,
    0,
  ];
  const packed: number[] = [];
  for (let at = 0; at + 8 <= bits.length; at += 8)
    packed.push(bits.slice(at, at + 8).reduce((sum, bit) => sum * 2 + bit, 0));
  const room = blocks * data;
  for (let filler = 0; packed.length < room; filler += 1) packed.push(filler % 2 === 0 ? 0xec : 0x11);
  return packed;
}

const bitsOf = (value: number, count: number): number[] =>
  Array.from({ length: count }, (_, index) => (value >> (count - 1 - index)) & 1);

/** First byte of each block, then second of each; check bytes after in the same way. */
function interleaved(all: number[], version: number): number[] {
  const { blocks, data, check } = BLOCKS[version - 1];
  const parts = Array.from({ length: blocks }, (_, index) => all.slice(index * data, (index + 1) * data));
  const checks = parts.map((part) => checkBytes(part, check));
  const woven = (lists: number[][], length: number): number[] =>
    Array.from({ length }, (_, index) => lists.map((list) => list[index])).flat();
  return [...woven(parts, data), ...woven(checks, check)];
}

/** The finder, timing and alignment marks, and which modules they and the format take. */
function frame(version: number): { modules: boolean[][]; fixed: boolean[][] } {
  const size = 17 + 4 * version;
  const grid = (): boolean[][] => Array.from({ length: size }, () => new Array<boolean>(size).fill(false));
  const [modules, fixed] = [grid(), grid()];
  const set = (x: number, y: number, dark: boolean): void => {
    if (x < 0 || y < 0 || x >= size || y >= size) return;
    modules[y][x] = dark;
    fixed[y][x] = true;
  };
  for (let at = 0; at < size; at += 1) {
    set(at, 6, at % 2 === 0);
    set(6, at, at % 2 === 0);
  }
  const rings = (middleX: number, middleY: number, reach: number, light: number[]): void => {
    for (let dy = -reach; dy <= reach; dy += 1)
      for (let dx = -reach; dx <= reach; dx += 1)
        set(middleX + dx, middleY + dy, !light.includes(Math.max(Math.abs(dx), Math.abs(dy))));
  };
  for (const [x, y] of [
    [3, 3],
    [size - 4, 3],
    [3, size - 4],
  ])
    rings(x, y, 4, [2, 4]);
  if (version > 1) rings(size - 7, size - 7, 2, [1]);
  for (let at = 0; at <= 8; at += 1) {
    if (at !== 6) {
      set(at, 8, false);
      set(8, at, false);
    }
    if (at < 8) {
      set(size - 1 - at, 8, false);
      set(8, size - 1 - at, false);
    }
  }
  return { modules, fixed };
}

/** Bits run up and down in columns of two from the right edge, past the upright timing line. */
function fill(modules: boolean[][], fixed: boolean[][], bytes: number[]): void {
  const size = modules.length;
  const bits = bytes.flatMap((byte) => bitsOf(byte, 8));
  let next = 0;
  let upwards = true;
  for (let right = size - 1; right > 0; right -= 2) {
    if (right === 6) right = 5;
    for (let step = 0; step < size; step += 1) {
      const y = upwards ? size - 1 - step : step;
      for (const x of [right, right - 1]) {
        if (fixed[y][x]) continue;
        modules[y][x] = bits[next] === 1;
        next += 1;
      }
    }
    upwards = !upwards;
  }
}

const MASKS: ((x: number, y: number) => boolean)[] = [
  (x, y) => (x + y) % 2 === 0,
  (_, y) => y % 2 === 0,
  (x) => x % 3 === 0,
  (x, y) => (x + y) % 3 === 0,
  (x, y) => (Math.floor(x / 3) + Math.floor(y / 2)) % 2 === 0,
  (x, y) => ((x * y) % 2) + ((x * y) % 3) === 0,
  (x, y) => (((x * y) % 2) + ((x * y) % 3)) % 2 === 0,
  (x, y) => (((x + y) % 2) + ((x * y) % 3)) % 2 === 0,
];

/** Level M and the mask as 15 bits, ten of them the remainder by 10100110111, the whole crossed with a fixed pattern. */
export function formatBits(mask: number): number {
  let left = mask << 10;
  for (let bit = 14; bit >= 10; bit -= 1) if (left & (1 << bit)) left ^= 0x537 << (bit - 10);
  return ((mask << 10) | left) ^ 0x5412;
}

function writeFormat(code: QrCode, mask: number): void {
  const size = code.length;
  const bits = bitsOf(formatBits(mask), 15).map((bit) => bit === 1);
  bits.forEach((dark, index) => {
    if (index < 6) code[8][index] = dark;
    else if (index === 6) code[8][7] = dark;
    else if (index === 7) code[8][8] = dark;
    else if (index === 8) code[7][8] = dark;
    else code[14 - index][8] = dark;
    if (index < 7) code[size - 1 - index][8] = dark;
    else code[8][size - 15 + index] = dark;
  });
  code[size - 8][8] = true;
}

/** Runs of one colour, blocks, shapes like a finder, and how far from half of it is dark. */
function penaltyOf(code: QrCode): number {
  const size = code.length;
  const columns = code.map((_, x) => code.map((row) => row[x]));
  let penalty = 0;
  for (const line of [...code, ...columns]) {
    const text = line.map((dark) => (dark ? '1' : '0')).join('');
    for (const run of text.match(/0{5,}|1{5,}/g) ?? []) penalty += run.length - 2;
    for (let at = 0; at + 11 <= size; at += 1)
      if (['10111010000', '00001011101'].includes(text.slice(at, at + 11))) penalty += 40;
  }
  for (let y = 0; y + 1 < size; y += 1)
    for (let x = 0; x + 1 < size; x += 1)
      if (code[y][x] === code[y][x + 1] && code[y][x] === code[y + 1][x] && code[y][x] === code[y + 1][x + 1])
        penalty += 3;
  const dark = code.flat().filter(Boolean).length / (size * size);
  return penalty + 10 * Math.floor(Math.abs(dark - 0.5) * 20);
}
