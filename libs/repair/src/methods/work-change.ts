import { type HullOutline, type Method, type MethodBook, whatChanged } from '@ribband/hull';
import { refuse } from '@ribband/platform';
import type { z } from 'zod';
import { firstFault } from '../first-fault.js';
import { outlineShape } from '../hull/outline-shape.js';
import { refuseSenseless } from '../openings/opening-rules.js';
import { type SurveyDocument, surveyShape } from '../survey/survey-shape.js';
import { type MethodsDocument, methodsShape } from './methods-shape.js';

/** New outline, survey or methods, each with the version that was read: null when there was none. Absent: as it is. */
export interface WorkChange {
  outline?: { value: unknown; version: number | null };
  survey?: { value: unknown; version: number | null };
  methods?: { value: unknown; version: number | null };
  /** Why: wanted where methods change. */
  reason: string | null;
}

export const readOutline = (value: unknown): HullOutline => readAs(outlineShape, value, 'outline');
export function readSurvey(value: unknown): SurveyDocument {
  const survey = readAs(surveyShape, value, 'survey');
  refuseSenseless(survey.choices.openings, 'survey.choices.openings');
  return survey;
}
export const readMethods = (value: unknown): MethodsDocument => readAs(methodsShape, value, 'methods');

/** @throws RefusalError BAD_INPUT naming the first field that has another shape */
function readAs<T>(shape: z.ZodType<T>, value: unknown, name: string): T {
  const read = shape.safeParse(value);
  if (read.success) return read.data;
  const { path, message } = firstFault(read.error, name);
  return refuse('BAD_INPUT', `There is no right value at ${path}: ${message}.`, {
    field: path,
    ...(remedies[name] ? { remedy: remedies[name] } : {}),
  });
}

const remedies: Record<string, string> = {
  outline: 'Sizes in millimetres, heights in strakes from the rabbet, counts in whole numbers.',
  survey: 'A finding names frames, a side and pieces, or a plank; its condition; who looked, and when.',
  methods: 'A book as the page shows it, with only what you mean to change changed.',
};

/**
 * The book as it is to be: each method that differs goes up by one version, with a name and a reason. Whoever sends a
 * book does not number it. What differs is named.
 */
export function changedBook(
  old: MethodBook | null,
  wanted: MethodBook,
  written: { by: string; reason: string },
): { book: MethodBook; changed: string[] } {
  const changed: string[] = [];
  const methods = wanted.methods.map((method) => {
    const before = old?.methods.find((one) => one.key === method.key);
    // A yard's first book comes as it is.
    if (!old || (before && content(before) === content(method))) return before ?? method;
    changed.push(method.title);
    const version = (before?.version ?? 0) + 1;
    const what = whatChanged(before ?? null, method);
    const changes = [...(before?.changes ?? []), { version, ...written, what }].slice(-mostVersions);
    return { ...method, version, changed: written, changes };
  });
  for (const rate of wanted.rates) {
    const before = old?.rates.find((one) => one.key === rate.key);
    if (old && JSON.stringify(before) !== JSON.stringify(rate)) changed.push(rate.says);
  }
  for (const part of ['methods', 'rates'] as const)
    for (const { key } of old?.[part] ?? [])
      if (!wanted[part].some((one) => one.key === key)) changed.push(`without ${key}`);
  return { book: { ...wanted, methods }, changed };
}

/** So many earlier versions are told of. */
const mostVersions = 50;

/** What a method says, whoever changed it last. */
const content = ({ version: _version, changed: _changed, changes: _changes, ...method }: Method): string =>
  JSON.stringify(method);
