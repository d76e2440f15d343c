import { hazardCatalogue, hazardCodes, type HazardCode } from './hazard-catalogue.js';

/** A line to read before starting, and where it comes from. */
export interface CautionLine {
  words: string;
  basis: string;
}

/** What the rules below look at. */
export interface CautionedTask {
  title: string;
  kind: string;
  hazards: HazardCode[];
  /** The shipwright's own lines. */
  cautions: string[];
  crewMin: number;
  /** How many hull elements it opens. */
  opens: number;
}

/**
 * Words in a title that mean old paint is disturbed. Read generously: a caution too many costs a minute. The lead
 * shipwright may not have ticked lead; the old paint is there all the same.
 */
const disturbsOldPaint =
  /\b(scrap(e|es|ing)|reef\w*|punch\w*|(dig|digs|digging)\b.*\bbungs?|cut(s|ting)?|grind\w*|sand(s|ing)?\b|strip\w*|burn(s|ing)? off|fair(s|ing)? (the )?hull)\b/i;

/** Words in a title that mean a timber is freed or taken down. */
const takesDown = /\b(draw(s|ing)?|lift(s|ing)? off|back(s|ing)? out|cut(s|ting)?)\b/i;

/** Ticked hazards and those that the work brings with it whether ticked or not, in the catalogue's order. */
export function hazardsOf(task: Pick<CautionedTask, 'title' | 'hazards'>): HazardCode[] {
  const found = new Set(task.hazards);
  if (disturbsOldPaint.test(task.title)) found.add('lead');
  return hazardCodes.filter((code) => found.has(code));
}

type CautionRule = (task: CautionedTask, hazards: HazardCode[]) => CautionLine | null;

const commonPractice = 'common practice, no source';

const lastFastening: CautionRule = (task, hazards) =>
  takesDown.test(task.title) && (task.opens > 0 || hazards.includes('crush') || hazards.includes('lifting'))
    ? {
        words:
          'Before the last fastening goes: a named person has seen the sling and the cleared zone. Every fastening ' +
          'through the piece is freed first, the ones in planks and clamps that stay as well.',
        basis: commonPractice,
      }
    : null;

const manyCarriers: CautionRule = (task, hazards) =>
  hazards.includes('lifting') && task.crewMin > 4
    ? {
        words: `${task.crewMin} carriers are more than four: use lifting gear, not people.`,
        basis: commonPractice,
      }
    : null;

const fireWatch: CautionRule = (_task, hazards) =>
  hazards.includes('hot-work')
    ? {
        words:
          'The fire watch is one person more than the crew, has no other duty and stays 60 minutes after the last spark; ' +
          'the say-so waits for it.',
        basis: '29 CFR 1915.504(c)(1), (c)(2): at least 30 minutes; 60 after NFPA 51B, from memory',
      }
    : null;

const notAlone: CautionRule = (task) =>
  task.crewMin === 1
    ? {
        words:
          'Nobody works alone: somebody within sight or earshot, and a word at set times and at the end.',
        basis: '29 CFR 1915.84; two persons is common practice',
      }
    : null;

const shoresFirst: CautionRule = (task) =>
  task.opens > 0
    ? {
        words: 'This opens the hull: shores, braces and ribbands stand first, and the opening limits hold.',
        basis: commonPractice,
      }
    : null;

const rules: CautionRule[] = [lastFastening, shoresFirst, fireWatch, manyCarriers, notAlone];

/** Everything to read before starting, the shipwright's own lines first, then what follows from the kind of work. */
export function cautionsOf(task: CautionedTask): CautionLine[] {
  const own = task.cautions.map((words) => ({ words, basis: 'the lead shipwright' }));
  if (task.kind === 'elapsed' || task.kind === 'hold') return own;
  const hazards = hazardsOf(task);
  return [...own, ...rules.flatMap((rule) => rule(task, hazards) ?? [])];
}

/** The own lines, the derived ones and the catalogue's, for a page that shows one list. */
export function allCautionsOf(task: CautionedTask): CautionLine[] {
  const named = hazardsOf(task).map((code) => ({
    words: hazardCatalogue[code].caution,
    basis: hazardCatalogue[code].basis,
  }));
  return [...cautionsOf(task), ...named];
}
