import { feet, type Millimetres } from '../measure.js';
import { need, needPositive } from '../refusal.js';

/** A point of a section: height above the base line and breadth from the centre line. */
export interface SectionPoint {
  height: Millimetres;
  breadth: Millimetres;
}

/** Points of one section from the rabbet up to the sheer, at a distance aft of frame 1 (forward of it is negative). */
export interface Section {
  at: Millimetres;
  points: SectionPoint[];
}

/** The hull's shape at full size. */
export interface Offsets {
  sections: Section[];
  /** What was measured: the outside of the planking (a model of the hull, the hull herself) or of the frames. */
  surface: 'outside of planking' | 'outside of frames';
}

/** A half model measured with rule and square: readings in model millimetres, sections every so many feet full size. */
export interface HalfModel {
  /** 24 for a model at 1 to 24. */
  scale: number;
  /** Full-size distance from section to section. */
  every: Millimetres;
  /** Full-size distance of the first section aft of frame 1. */
  firstAt: Millimetres;
  sections: SectionPoint[][];
  surface: Offsets['surface'];
}

/** Full-size offsets of a measured half model. */
export function offsetsOfModel(model: HalfModel): Offsets {
  need(
    model.scale >= 1 && model.scale <= LARGEST_SCALE,
    'scale',
    `${model.scale} is no scale of a half model`,
    `1 to ${LARGEST_SCALE} (24 for a model at 1 to 24)`,
  );
  needPositive(model.every, 'every', 'millimetres');
  const offsets: Offsets = {
    surface: model.surface,
    sections: model.sections.map((points, index) => ({
      at: model.firstAt + index * model.every,
      points: points.map(({ height, breadth }) => ({
        height: height * model.scale,
        breadth: breadth * model.scale,
      })),
    })),
  };
  checkOffsets(offsets);
  return offsets;
}

/** Sizes at which the model or the tape was surely misread, for wooden vessels. Common practice, no source. */
const LARGEST_SCALE = 200;
const LONGEST = feet(450);
const [SHALLOWEST, DEEPEST] = [feet(1), feet(60)];
const [NARROWEST, BROADEST] = [feet(1), feet(40)];

/** Refuses sections that make no hull, at the first field that does not hold. */
export function checkOffsets({ sections }: Offsets): void {
  need(sections.length >= 2, 'sections', `${sections.length} sections give no shape`, 'two or more');
  sections.forEach((section, index) => {
    need(
      index === 0 || section.at > sections[index - 1].at,
      `sections[${index}].at`,
      'sections go backwards',
      'sections in order from forward',
    );
    need(
      Math.abs(section.at) <= LONGEST,
      `sections[${index}].at`,
      `${round(section.at)} mm from frame 1 is longer than a wooden vessel`,
      `at most ${round(LONGEST)} mm`,
    );
    need(
      section.points.length >= 3,
      `sections[${index}].points`,
      `${section.points.length} points give no curve`,
      'three or more, from the rabbet to the sheer',
    );
    section.points.forEach((point, at) => {
      const before = at === 0 ? undefined : section.points[at - 1];
      need(
        before === undefined || point.height !== before.height || point.breadth !== before.breadth,
        `sections[${index}].points[${at}]`,
        'the same point twice',
        'each point once, in order up the side',
      );
      need(
        point.breadth >= 0,
        `sections[${index}].points[${at}].breadth`,
        'a breadth across the centre line',
        '0 or more',
      );
    });
    const rise = section.points.at(-1)!.height - section.points[0].height;
    need(
      rise > 0 && rise <= DEEPEST,
      `sections[${index}].points`,
      `a section that rises ${round(rise)} mm is none of a hull`,
      `points up the side, at most ${round(DEEPEST)} mm from the rabbet to the sheer`,
    );
  });
  const points = sections.flatMap((section) => section.points);
  points.forEach(({ height }) => {
    need(
      Math.abs(height) <= 2 * DEEPEST,
      'sections',
      `a height of ${round(height)} mm is none of a hull`,
      'heights from a base line near the keel',
    );
  });
  const broad = Math.max(...points.map((point) => point.breadth));
  need(
    broad >= NARROWEST && broad <= BROADEST,
    'sections',
    `she would be ${round(broad)} mm broad from the centre line`,
    `${round(NARROWEST)} to ${round(BROADEST)} mm at full size`,
  );
  const deep = Math.max(
    ...sections.map((section) => section.points.at(-1)!.height - section.points[0].height),
  );
  need(
    deep >= SHALLOWEST,
    'sections',
    `she would be ${round(deep)} mm deep`,
    `at least ${round(SHALLOWEST)} mm at full size`,
  );
}

const round = Math.round;
