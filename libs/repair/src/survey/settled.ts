import {
  checkReplacement,
  type FrameFinding,
  type Hull,
  HullRefusal,
  pieceKey,
  type PlankFinding,
  type Survey,
} from '@ribband/hull';
import type { Finding, SurveyDocument } from './survey-shape.js';

type OnFrames = Extract<Finding, { frames: unknown }>;

/** What the survey says of one element: the latest finding that names it. */
export interface Found {
  /** Key of a frame piece or a plank. */
  element: string;
  finding: Finding;
}

/** Frame by frame and piece by piece, each by its latest finding, in the order of the hull. */
export function settledFindings(hull: Hull, { findings }: Pick<SurveyDocument, 'findings'>): Found[] {
  const last = new Map<string, Finding>();
  for (const finding of findings)
    for (const element of elementsOf(finding)) {
      last.delete(element);
      last.set(element, finding);
    }
  const order = new Map(
    [...hull.frames.flatMap((frame) => frame.pieces), ...hull.planks].map(({ key }, at) => [key, at]),
  );
  const place = ({ element }: Found): number => order.get(element) ?? -1;
  return [...last].map(([element, finding]) => ({ element, finding })).sort((a, b) => place(a) - place(b));
}

export function elementsOf(finding: Finding): string[] {
  if ('plank' in finding) return [finding.plank];
  const [first, last] = finding.frames;
  return Array.from({ length: Math.max(last - first + 1, 0) }, (_, at) => first + at).flatMap((frame) =>
    finding.pieces.map((piece) => pieceKey(frame, finding.side, piece)),
  );
}

/**
 * The survey as the hull's arithmetic takes it: one finding to a piece, nothing said twice.
 * @throws HullRefusal for a frame, piece or plank that the hull does not have
 */
export function settledSurvey(hull: Hull, survey: SurveyDocument): Survey {
  checkNames(hull, survey.findings);
  const found = settledFindings(hull, survey);
  const pieces = new Map(hull.frames.flatMap((frame) => frame.pieces).map((piece) => [piece.key, piece]));
  return {
    frames: found.flatMap(({ element, finding }): FrameFinding[] => {
      const piece = pieces.get(element);
      if (!piece || !('frames' in finding) || finding.condition === 'sound') return [];
      return [onePiece(finding, piece.frame, piece.number)];
    }),
    planks: found.flatMap(({ element, finding }): PlankFinding[] => {
      if (!('plank' in finding) || finding.condition === 'sound') return [];
      return [{ plank: element, finding: finding.condition, cause: finding.cause }];
    }),
    causes: survey.causes,
  };
}

function onePiece(finding: OnFrames, frame: number, piece: number): FrameFinding {
  const { side, cause } = finding;
  const where = { frames: [frame, frame] as [number, number], side, pieces: [piece], cause };
  switch (finding.condition) {
    case 'renew':
      return { ...where, finding: 'renew', ...(finding.decay ? { decay: finding.decay } : {}) };
    case 'new joint': {
      const { at, part, why, decidedBy } = finding;
      return { ...where, finding: 'new joint', at, part, why, decidedBy };
    }
    case 'scarf': {
      const { at, part, why, decidedBy, scarf } = finding;
      return { ...where, finding: 'scarf', at, part, why, decidedBy, scarf };
    }
    case 'doubtful':
    case 'sister':
      return { ...where, finding: finding.condition };
    case 'sound':
      throw new Error('What is sound asks for no work');
  }
}

/** Each range lies on the hull, and each piece and plank is one of hers; the first fault names its finding. */
function checkNames(hull: Hull, findings: readonly Finding[]): void {
  const known = new Set(
    [...hull.frames.flatMap((frame) => frame.pieces), ...hull.planks].map(({ key }) => key),
  );
  const { count } = hull.outline.frames;
  findings.forEach((finding, at) => {
    const field = `survey.findings[${at}]`;
    if ('frames' in finding) {
      const [first, last] = finding.frames;
      if (!(first >= 1 && first <= last && last <= count))
        throw new HullRefusal(
          `${field}.frames`,
          `frames ${first} to ${last} are no range of hers`,
          `two numbers from 1 to ${count}, the smaller first`,
        );
    }
    checkPart(hull, finding, field);
    const missing = elementsOf(finding).find((element) => !known.has(element));
    if (missing !== undefined)
      throw new HullRefusal(
        'plank' in finding ? `${field}.plank` : `${field}.pieces`,
        `there is no ${missing}`,
        'frames' in finding
          ? 'numbers of pieces that each of these frames has, 0 for the floor'
          : `a plank such as ${hull.planks[0]?.key ?? ''}`,
      );
  });
}

/** A part of a plank is only renewed where the rule for replacement planks lets it; what stands against it is named. */
function checkPart(hull: Hull, finding: Finding, field: string): void {
  if (!('plank' in finding) || finding.condition !== 'renew' || finding.part === undefined) return;
  const plank = hull.planks.find(({ key }) => key === finding.plank);
  if (!plank) return;
  const [first, last] = finding.part;
  const { firstFrame, lastFrame, name, skin } = plank;
  if (skin !== 'planking')
    throw new HullRefusal(`${field}.part`, `the rule is for planking, not for ${name}`, 'the whole plank');
  if (!(first >= firstFrame && first <= last && last <= lastFrame))
    throw new HullRefusal(
      `${field}.part`,
      `frames ${first} to ${last} are no part of ${name}`,
      `two of its frames, ${firstFrame} to ${lastFrame}, the smaller first`,
    );
  const { faults, buttFaults } = checkReplacement(hull, plank, first, last);
  const [fault] = [...faults, ...buttFaults];
  if (fault) throw new HullRefusal(`${field}.part`, fault.says, 'another part of it, or the whole plank');
}
