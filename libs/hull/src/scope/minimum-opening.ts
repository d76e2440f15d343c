import { STARTING_BOOK } from '../methods/book/book.js';
import { rateMinutes } from '../methods/likely.js';
import { type MethodBook } from '../methods/method.js';
import { planksBetween, plankOf, planksOver } from '../model/ask.js';
import { type Bolt, type Hull, type Plank } from '../model/hull.js';
import { girthAt } from '../framing/girth.js';
import {
  boltsToFree,
  type Drawn,
  type DrawnPart,
  drawnParts,
  endJoints,
  type EndJoint,
  heldBy,
} from './drawn.js';
import { cheapestWays, type Weight, type Ways } from './cheapest-ways.js';
import { cutInPlace, offAndBack } from './plank-hours.js';

/**
 * Which planks come off so that frame pieces can come out: every joint with wood that stays can be seen and worked
 * at, every piece has a way out, and every fastening through it is freed, by lifting its plank or by cutting it in
 * place. Exact for the aim chosen (see cheapest-ways).
 */
export interface OpeningWish {
  drawn: Drawn[];
  aim: OpeningAim;
  /** Ceiling in way of what is drawn: all of it off, none of it, or as the aim has it. */
  ceiling: 'strip in way' | 'leave' | 'as the aim has it';
  /** Strakes under whose frame heads a piece can be slid out while they stay on. */
  stayOverHead?: number;
  /** Planks that must not come off. */
  stays?: string[];
  /** Planks that come off anyway. */
  offAnyway?: string[];
  /** The yard's methods and rates, by which hours are reckoned. */
  book?: MethodBook;
}

export type OpeningAim = 'fewest planks' | 'least hours' | 'fewest fastenings cut';

/** Common practice, no source; the shipwright says what can be slid out under what. */
export const STRAKES_THAT_STAY_OVER_HEAD = 2;

export interface MinimumOpening {
  aim: OpeningAim;
  off: Plank[];
  joints: { joint: EndJoint; seenFrom: 'outside' | 'inside'; face: string }[];
  waysOut: { piece: string; way: 'outward' | 'inward' }[];
  bolts: Bolt[];
  /** Fastenings of planks that stay, cut behind them; each leaves a stub to punch. */
  cut: { plank: Plank; count: number; frames: number[] }[];
  personMinutes: number;
}

export type OpeningAnswer =
  | { kind: 'found'; opening: MinimumOpening }
  /** What cannot be reached with the planks that must stay. */
  | { kind: 'none'; unmet: string[] };

interface Need {
  says: string;
  ways: { name: 'outside' | 'inside'; planks: Plank[] }[];
}

export function minimumOpening(hull: Hull, wish: OpeningWish): OpeningAnswer {
  const parts = drawnParts(hull, wish.drawn);
  const joints = endJoints(hull, parts);
  const held = heldBy(hull, parts);
  const book = wish.book ?? STARTING_BOOK;
  for (const key of [...(wish.stays ?? []), ...(wish.offAnyway ?? [])]) plankOf(hull, key);
  const mayNot = new Set(wish.stays ?? []);
  const must = new Set(wish.offAnyway ?? []);
  if (wish.ceiling === 'strip in way')
    for (const part of parts) for (const plank of over(hull, part, 'ceiling')) must.add(plank.key);
  const allowed = (plank: Plank): boolean =>
    must.has(plank.key) ||
    (!mayNot.has(plank.key) && !(wish.ceiling === 'leave' && plank.skin === 'ceiling'));

  const jointNeeds = joints.map((joint) => jointNeed(hull, joint));
  const outNeeds = parts.map((part) => outNeed(hull, part, wish.stayOverHead ?? STRAKES_THAT_STAY_OVER_HEAD));
  const needs = [...jointNeeds, ...outNeeds];
  const possible = needs.map((need) => need.ways.filter((way) => way.planks.every(allowed)));
  const unmet = needs.filter((_, index) => possible[index].length === 0).map((need) => need.says);
  if (unmet.length > 0) return { kind: 'none', unmet };

  const things = [
    ...new Map(
      [
        ...possible.flat().flatMap((way) => way.planks),
        ...[...held.values()].map((one) => one.plank).filter(allowed),
        ...hull.planks.filter((plank) => must.has(plank.key)),
      ].map((plank) => [plank.key, plank]),
    ).values(),
  ];
  const index = new Map(things.map((plank, at) => [plank.key, at]));
  const weights = things.map((plank) =>
    weightOf(hull, book, plank, held.get(plank.key)?.count ?? 0, wish.aim),
  );
  const ways: Ways[] = possible.map((list) =>
    list.map((way) => way.planks.map((plank) => index.get(plank.key)!)),
  );
  const anyway: Ways[] = [...must].flatMap((key) => (index.has(key) ? [[[index.get(key)!]]] : []));
  const taken = new Set(cheapestWays([...ways, ...anyway], weights)!.map((at) => things[at].key));

  const met = (need: Need): 'outside' | 'inside' =>
    need.ways.find((way) => way.planks.every((plank) => taken.has(plank.key)))!.name;
  const off = hull.planks.filter((plank) => taken.has(plank.key));
  const cut = [...held.values()].filter((one) => !taken.has(one.plank.key));
  const bolts = boltsToFree(hull, parts);
  return {
    kind: 'found',
    opening: {
      aim: wish.aim,
      off,
      joints: joints.map((joint, at) => ({ joint, seenFrom: met(jointNeeds[at]), face: faceOf(joint) })),
      waysOut: parts.map((part, at) => ({
        piece: part.piece.key,
        way: met(outNeeds[at]) === 'outside' ? 'outward' : 'inward',
      })),
      bolts,
      cut,
      personMinutes:
        off.reduce((sum, plank) => sum + offAndBack(hull, book, plank), 0) +
        cut.reduce((sum, one) => sum + cutInPlace(book, one.plank.skin, one.count), 0) +
        rateMinutes(book, 'bolts-out', bolts.length) +
        rateMinutes(book, 'bolts-in', bolts.length),
    },
  };
}

/** The opening by each aim, ceiling stripped or not, each kind once, cheapest in hours first. */
export function openingAlternatives(
  hull: Hull,
  wish: Omit<OpeningWish, 'aim' | 'ceiling'>,
): MinimumOpening[] {
  const found = new Map<string, MinimumOpening>();
  for (const ceiling of ['as the aim has it', 'strip in way', 'leave'] as const)
    for (const aim of ['fewest planks', 'least hours', 'fewest fastenings cut'] as const) {
      const answer = minimumOpening(hull, { ...wish, aim, ceiling });
      if (answer.kind === 'none') continue;
      const key = answer.opening.off.map((plank) => plank.key).join(' ');
      if (!found.has(key)) found.set(key, answer.opening);
    }
  return [...found.values()].sort((a, b) => a.personMinutes - b.personMinutes);
}

/** What taking a plank off adds, compared with leaving it and cutting the fastenings it has in what is drawn. */
function weightOf(hull: Hull, book: MethodBook, plank: Plank, held: number, aim: OpeningAim): Weight {
  const minutes = offAndBack(hull, book, plank) - (held > 0 ? cutInPlace(book, plank.skin, held) : 0);
  if (aim === 'fewest planks') return [1, minutes];
  if (aim === 'least hours') return [minutes, 1];
  return [-held, minutes];
}

const over = (hull: Hull, { piece, from, to }: DrawnPart, skin: Plank['skin']): Plank[] =>
  planksBetween(hull, piece.frame, piece.side, skin, from, to);

/** A joint is worked from outside through the strakes over it, or from inside where no timber lies over it. */
function jointNeed(hull: Hull, { piece, at }: EndJoint): Need {
  const touching = (skin: Plank['skin']): Plank[] =>
    planksOver(hull, piece.frame, piece.side, skin).filter((plank) => plank.from <= at && at <= plank.to);
  const ways: Need['ways'] = [{ name: 'outside', planks: touching('planking') }];
  if (!behindMember(hull, piece.side, at, at)) ways.push({ name: 'inside', planks: touching('ceiling') });
  return { says: `${piece.name}: the joint at ${at} cannot be reached`, ways };
}

/** A piece comes outward past open planking, its head slid from under strakes that stay, or inward past open ceiling. */
function outNeed(hull: Hull, part: DrawnPart, stayOverHead: number): Need {
  const { piece, from, to } = part;
  const planking = over(hull, part, 'planking');
  const slid = to === headOf(hull, part) ? stayOverHead : 0;
  const ways: Need['ways'] = [
    { name: 'outside', planks: planking.slice(0, Math.max(planking.length - slid, 0)) },
  ];
  if (!behindMember(hull, piece.side, from, to))
    ways.push({ name: 'inside', planks: over(hull, part, 'ceiling') });
  return { says: `${piece.name} has no way out`, ways };
}

const headOf = (hull: Hull, { piece }: DrawnPart): number =>
  hull.frames.find((frame) => frame.number === piece.frame && frame.side === piece.side)!.head;

function behindMember(hull: Hull, side: 'port' | 'starboard', from: number, to: number): boolean {
  const [low, high] = [girthAt(hull, side, from), girthAt(hull, side, to)];
  return hull.outline.members.some((member) => {
    const middle = girthAt(hull, side, member.at);
    return middle + member.width / 2 > low && middle - member.width / 2 < high;
  });
}

/** The forward layer is worked from the bay before the frame, the after layer from the bay behind it. */
const faceOf = ({ piece }: EndJoint): string =>
  piece.layer === 'forward'
    ? `forward face, from the bay between frames ${piece.frame - 1} and ${piece.frame}`
    : `after face, from the bay between frames ${piece.frame} and ${piece.frame + 1}`;
