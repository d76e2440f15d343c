import { isDay } from '@ribband/platform';

/** A content line as it stands in the file, folds undone. */
export interface ContentLine {
  /** Of its first physical line, from 1. */
  number: number;
  text: string;
}

/** What is wrong with a file, and where. */
export interface IcsFault {
  line: number;
  message: string;
}

/** Undoes the folds of RFC 5545, section 3.1; lines may end with LF alone, as many programs write them. */
export function unfold(text: string): ContentLine[] {
  const lines: ContentLine[] = [];
  text
    .replace(/^\uFEFF/, '')
    .split(/\r?\n/)
    .forEach((physical, at) => {
      const last = lines.at(-1);
      if (/^[ \t]/.test(physical) && last) last.text += physical.slice(1);
      else if (physical !== '') lines.push({ number: at + 1, text: physical });
    });
  return lines;
}

const lineShape = /^[A-Za-z0-9-]+(;[A-Za-z0-9-]+=("[^"]*"|[^";:,]*)(,("[^"]*"|[^";:,]*))*)*:/;
const timeNames = new Set(['DTSTART', 'DTEND', 'RECURRENCE-ID', 'EXDATE', 'RDATE']);
const timeShape = /^(\d{4})(\d{2})(\d{2})(T([01]\d|2[0-3])[0-5]\d([0-5]\d|60)Z?)?$/;
const durationShape = /^[+-]?P(\d+W|(\d+D)?(T(?=\d)(\d+H)?(\d+M)?(\d+S)?)?)$/;

/** The first line that cannot be read, or null when each can. */
export function icsFault(lines: readonly ContentLine[]): IcsFault | null {
  const open: string[] = [];
  if (lines[0]?.text.toUpperCase() !== 'BEGIN:VCALENDAR')
    return {
      line: lines[0]?.number ?? 1,
      message: 'This is no calendar file: it begins with BEGIN:VCALENDAR',
    };
  for (const { number, text } of lines) {
    const said = (message: string): IcsFault => ({ line: number, message });
    if (!lineShape.test(text)) return said(`"${shortened(text)}" is no line of a calendar`);
    const { name, parameters, value } = partsOf(text);
    if (open.length === 0 && name !== 'BEGIN') return said('Nothing stands outside BEGIN and END');
    if (name === 'BEGIN') open.push(value.toUpperCase());
    else if (name === 'END') {
      const begun = open.pop();
      if (begun !== value.toUpperCase())
        return said(`END:${shortened(value)} ends nothing that was begun${begun ? ` (BEGIN:${begun})` : ''}`);
    } else {
      const message = open.at(-1) === 'VEVENT' ? valueFault(name, parameters, value) : null;
      if (message !== null) return said(message);
    }
  }
  const left = open.at(-1);
  return left
    ? { line: lines.at(-1)?.number ?? 1, message: `The file breaks off: BEGIN:${left} has no end` }
    : null;
}

function partsOf(text: string): { name: string; parameters: string; value: string } {
  const head = lineShape.exec(text)?.[0] ?? '';
  const cut = head.indexOf(';') < 0 ? head.length - 1 : head.indexOf(';');
  return {
    name: text.slice(0, cut).toUpperCase(),
    parameters: head.slice(cut, -1).toUpperCase(),
    value: text.slice(head.length).trim(),
  };
}

function valueFault(name: string, parameters: string, value: string): string | null {
  if (name === 'DURATION')
    return durationShape.test(value) ? null : `"${shortened(value)}" is no duration, such as PT2H`;
  if (!timeNames.has(name) || parameters.includes('VALUE=PERIOD')) return null;
  const wrong = value.split(',').find((one) => {
    const [, year, month, day] = timeShape.exec(one) ?? [];
    return year === undefined || !isDay(`${year}-${month ?? ''}-${day ?? ''}`);
  });
  return wrong === undefined
    ? null
    : `${name} has "${shortened(wrong)}", which is no day or time, such as 20270306T090000`;
}

const shortened = (text: string): string => (text.length > 40 ? `${text.slice(0, 40)}…` : text);
