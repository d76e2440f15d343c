import { type JointSettings, partingsOf } from '../framing/new-joint.js';
import { nearJoint, scarfAt } from '../framing/scarfs.js';
import { toInches } from '../measure.js';
import { OPENING_RULES } from '../openings/settings.js';
import { frameOf, plankOf, planksOver } from '../model/ask.js';
import { type FramePiece, type Hull, type Plank } from '../model/hull.js';
import { pieceKey, SIDES } from '../model/names.js';
import { need, needWhole } from '../refusal.js';
import { checkSisters, leastPastDamage, type SisterFault } from '../planking/sisters.js';
import { type ScopedElement, TOUCHING_NOTHING } from '../methods/scope.js';
import { type Drawn } from './drawn.js';
import { type MinimumOpening, minimumOpening, type OpeningWish } from './minimum-opening.js';
import { type ScopeCounts, scopeCounts } from './scope-counts.js';
import { frameElements, plankElements } from './scoped-elements.js';
import { type FrameFinding, type Survey } from './survey.js';
import { plankSquareFeet } from './plank-hours.js';

/** The shipwright's choices between survey and scope. */
export interface ScopeChoices extends Pick<
  OpeningWish,
  'aim' | 'ceiling' | 'stayOverHead' | 'stays' | 'offAnyway' | 'book'
> {
  joints?: JointSettings;
  /** Key of the ceiling plank that stays open through the float watch. */
  inspectionStrake?: string;
}

export interface Scope {
  elements: ScopedElement[];
  drawn: Drawn[];
  opening: MinimumOpening;
  counts: ScopeCounts;
  /** Where she is not put back as she was: for the record. */
  departures: string[];
  /** Repairs whose cause has no task. */
  temporary: string[];
  /** To be looked at again when open. */
  doubtful: string[];
  sisterFaults: SisterFault[];
}

/** What is to be done about what the survey found. Refuses choices under which a piece cannot come out. */
export function scopeOfSurvey(hull: Hull, survey: Survey, choices: ScopeChoices): Scope {
  checkSurvey(hull, survey);
  const departures: string[] = [];
  const drawn = survey.frames.flatMap((finding) => drawnBy(hull, finding, choices.joints ?? {}, departures));
  const renewed = survey.planks.filter((one) => one.finding === 'renew').map((one) => one.plank);
  const answer = minimumOpening(hull, {
    ...choices,
    drawn,
    offAnyway: [...(choices.offAnyway ?? []), ...renewed],
  });
  need(
    answer.kind === 'found',
    'choices',
    answer.kind === 'none' ? answer.unmet.join('; ') : '',
    'fewer planks that must stay, or another place to part the pieces',
  );
  const { opening } = answer;
  const counts = scopeCounts(hull, drawn, opening);
  const elements = [
    ...frameElements(hull, survey, drawn, opening),
    ...plankElements(hull, opening, new Set(renewed), choices.inspectionStrake ?? null),
    ...survey.causes
      .filter((cause) => cause.hasTask)
      .map((cause) => ({
        ...nowhere,
        key: cause.key,
        name: cause.name,
        kind: 'cause' as const,
        method: 'mend-cause',
      })),
  ];
  return {
    elements: [...touching(hull, elements), vesselElement(hull, opening, counts, elements, renewed.length)],
    drawn,
    opening,
    counts,
    departures,
    temporary: temporaryRepairs(survey),
    doubtful: [
      ...survey.frames.filter((one) => one.finding === 'doubtful').flatMap(pieceKeys),
      ...survey.planks.filter((one) => one.finding === 'doubtful').map((one) => one.plank),
    ],
    sisterFaults: sisterFaults(hull, survey),
  };
}

const nowhere = {
  side: null,
  frame: null,
  strake: null,
  counts: {},
  alsoOpens: [],
  touching: TOUCHING_NOTHING,
};

const numbers = ([first, last]: [number, number]): number[] =>
  Array.from({ length: last - first + 1 }, (_, index) => first + index);

const pieceKeys = (finding: FrameFinding): string[] =>
  numbers(finding.frames).flatMap((frame) =>
    finding.pieces.map((piece) => pieceKey(frame, finding.side, piece)),
  );

function checkSurvey(hull: Hull, survey: Survey): void {
  const causes = new Set(survey.causes.map((cause) => cause.key));
  const known = (cause: string | null, field: string): void => {
    need(
      cause === null || causes.has(cause),
      `${field}.cause`,
      `there is no cause "${cause ?? ''}"`,
      'the key of a cause of this survey',
    );
  };
  survey.frames.forEach((finding, index) => {
    const field = `survey.frames[${index}]`;
    needWhole(finding.frames[0], `${field}.frames[0]`, 1, hull.outline.frames.count);
    needWhole(finding.frames[1], `${field}.frames[1]`, finding.frames[0], hull.outline.frames.count);
    need(
      finding.pieces.length > 0,
      `${field}.pieces`,
      'no piece is named',
      'numbers of pieces, 0 for the floor',
    );
    known(finding.cause, field);
  });
  survey.planks.forEach((finding, index) => {
    plankOf(hull, finding.plank);
    known(finding.cause, `survey.planks[${index}]`);
  });
}

function drawnBy(hull: Hull, finding: FrameFinding, joints: JointSettings, departures: string[]): Drawn[] {
  if (finding.finding === 'doubtful' || finding.finding === 'sister') return [];
  return numbers(finding.frames).flatMap((number) =>
    finding.pieces.map((at) => {
      const key = pieceKey(number, finding.side, at);
      const piece = frameOf(hull, number, finding.side).pieces.find((one) => one.key === key);
      need(
        piece !== undefined,
        'survey.frames',
        `there is no piece ${key}`,
        'numbers of pieces of this frame',
      );
      if ('decidedBy' in finding) return parted(hull, finding, piece, departures);
      if (finding.finding !== 'renew' || finding.decay === undefined) return { piece: key };
      const { lower, upper } = partingsOf(hull, piece, finding.decay, joints);
      for (const end of [lower, upper]) if (end.kind === 'new joint') departures.push(end.departure);
      return {
        piece: key,
        from: lower.kind === 'new joint' ? lower.at : piece.from,
        to: upper.kind === 'new joint' ? upper.at : piece.to,
      };
    }),
  );
}

/** What comes out beyond a cut that the shipwright decided on: at a butt joint, or with a scarf into what stays. */
function parted(
  hull: Hull,
  finding: Extract<FrameFinding, { decidedBy: string }>,
  piece: FramePiece,
  departures: string[],
): Drawn {
  const { at, part, why, decidedBy } = finding;
  const kind = finding.finding === 'scarf' ? finding.scarf : null;
  const cut = kind && scarfAt(hull, piece, { at, part, kind });
  const said = cut ? `${kind} scarf, ${toInches(cut.length).toFixed(0)} in long,` : 'new joint';
  const near = [at, ...(cut ? [cut.toe] : [])].flatMap((end) => nearJoint(hull, piece, end) ?? []).at(0);
  departures.push(
    `${said} in ${piece.name} at ${String(Math.round(at * 100) / 100)}: ${why}${near === undefined ? '' : `; it lies ${near}`} (decided by ${decidedBy})`,
  );
  const end = cut?.toe ?? at;
  return {
    piece: piece.key,
    ...(part === 'above' ? { from: end } : { to: end }),
    ...(cut ? { scarfed: true } : {}),
  };
}

function temporaryRepairs(survey: Survey): string[] {
  const mended = new Set(survey.causes.filter((cause) => cause.hasTask).map((cause) => cause.key));
  const open = (cause: string | null): boolean => cause !== null && !mended.has(cause);
  return [
    ...survey.frames.filter((one) => one.finding !== 'doubtful' && open(one.cause)).flatMap(pieceKeys),
    ...survey.planks.filter((one) => one.finding === 'renew' && open(one.cause)).map((one) => one.plank),
  ];
}

function sisterFaults(hull: Hull, survey: Survey): SisterFault[] {
  return SIDES.flatMap((side) => {
    const sisters = survey.frames.filter((one) => one.finding === 'sister' && one.side === side);
    if (sisters.length === 0) return [];
    const plankWidth = hull.outline.strakes.width;
    const reach = leastPastDamage(plankWidth);
    return checkSisters({
      frames: sisters.flatMap((one) => numbers(one.frames)),
      cause: sisters.some((one) => one.cause !== null) ? 'decay' : 'damage',
      // How long the sister is made is settled at the pattern, by the same rule.
      pastDamage: [reach, reach],
      plankWidth,
    });
  });
}

/** Tells each plank which scoped frames and planks it touches; frames know theirs. */
function touching(hull: Hull, elements: ScopedElement[]): ScopedElement[] {
  const scoped = new Set(elements.map((element) => element.key));
  const under = new Map<string, string[]>();
  for (const { key, touching: near } of elements)
    for (const plank of new Set([...near.planksOver, ...near.ceilingOver]))
      under.set(plank, [...(under.get(plank) ?? []), key]);
  const strakeOf = ({ skin, side }: Plank, strake: number): string => `${skin} ${side} ${strake}`;
  const strakes = new Map<string, Plank[]>();
  for (const plank of hull.planks.filter(({ key }) => scoped.has(key))) {
    const key = strakeOf(plank, plank.strake);
    strakes.set(key, [...(strakes.get(key) ?? []), plank]);
  }
  return elements.map((element) => {
    if (element.kind !== 'plank' && element.kind !== 'ceiling') return element;
    const plank = plankOf(hull, element.key);
    const framesUnder = under.get(element.key) ?? [];
    const next = (way: 1 | -1): string[] =>
      (strakes.get(strakeOf(plank, plank.strake + way)) ?? [])
        .filter((other) => other.firstFrame <= plank.lastFrame && plank.firstFrame <= other.lastFrame)
        .map((other) => other.key);
    const around = { framesUnder, strakeBelow: next(-1), strakeAbove: next(1) };
    return { ...element, touching: { ...TOUCHING_NOTHING, ...around } };
  });
}

function vesselElement(
  hull: Hull,
  opening: MinimumOpening,
  counts: ScopeCounts,
  elements: ScopedElement[],
  renewedPlanks: number,
): ScopedElement {
  const planking = opening.off.filter((plank) => plank.skin === 'planking');
  return {
    ...nowhere,
    key: 'vessel',
    name: 'the vessel',
    kind: 'vessel',
    method: 'whole-job',
    counts: {
      bungs: counts.plankNails + counts.stubs,
      'saved nails': counts.plankNails + counts.ceilingNails,
      plugs: counts.plugs,
      'seam feet': Math.round(counts.seamFeet),
      'square feet': Math.round(planking.reduce((sum, plank) => sum + plankSquareFeet(hull, plank), 0)),
      planks: planking.length,
      frames: elements.filter((element) => element.kind === 'frame').length,
      'renewed planks': renewedPlanks,
      'long strake runs': longStrakeRuns(hull, planking),
    },
  };
}

/** Sides on which more neighbouring strakes open at one frame than may be without ribbands. */
function longStrakeRuns(hull: Hull, off: Plank[]): number {
  const keys = new Set(off.map((plank) => plank.key));
  return SIDES.filter((side) =>
    numbers([1, hull.outline.frames.count]).some((frame) => {
      let run = 0;
      return planksOver(hull, frame, side).some((plank) => {
        run = keys.has(plank.key) ? run + 1 : 0;
        return run > OPENING_RULES.strakeRun.value.without;
      });
    }),
  ).length;
}
