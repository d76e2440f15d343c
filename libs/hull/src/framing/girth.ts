import { type Millimetres } from '../measure.js';
import { type Frame, type Hull } from '../model/hull.js';
import { strakeExceptions } from '../model/exceptions.js';
import { type Side } from '../model/names.js';

/** Length along the frame from the rabbet to a height in strakes, by the widths of the strakes below. */
export function girthAt(hull: Hull, side: Side, height: number): Millimetres {
  let girth = 0;
  for (let strake = 1; strake <= Math.ceil(height); strake += 1)
    girth += strakeWidth(hull, side, strake) * Math.min(height - (strake - 1), 1);
  return girth;
}

/** The height in strakes at a length along the frame; the reverse of `girthAt`. */
export function heightAt(hull: Hull, side: Side, girth: Millimetres): number {
  let left = girth;
  for (let strake = 1; strake <= hull.outline.strakes.count; strake += 1) {
    const width = strakeWidth(hull, side, strake);
    if (left <= width) return strake - 1 + Math.max(left, 0) / width;
    left -= width;
  }
  return hull.outline.strakes.count;
}

const strakeWidth = (hull: Hull, side: Side, strake: number): Millimetres =>
  strakeExceptions(hull.outline, strake, side).findLast((one) => one.width !== undefined)?.width ??
  hull.outline.strakes.width;

/** In-and-out size of a frame at a height: it tapers evenly from heel to head. */
export const mouldedAt = (frame: Frame, height: number): Millimetres =>
  frame.moulded.heel +
  (frame.moulded.head - frame.moulded.heel) * Math.min(Math.max(height / frame.head, 0), 1);
