import { type Millimetres } from '../measure.js';
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
  needPositive(model.scale, 'scale', '(24 for a model at 1 to 24)');
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
  });
}
