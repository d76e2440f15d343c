import { type Side } from '../model/names.js';
import { type Counts, type ElementKind } from './method.js';

/** What is to be done, element by element: what methods are expanded over. */
export interface ScopedElement {
  /** Key of the hull's element; 'vessel' for the vessel as a whole. */
  key: string;
  name: string;
  kind: ElementKind;
  method: string;
  side: Side | null;
  frame: number | null;
  strake: number | null;
  counts: Counts;
  /** Keys of further hull elements that are open and shut with this one: the other side of a floor timber. */
  alsoOpens: string[];
  /** Keys of scoped elements that touch this one. */
  touching: {
    planksOver: string[];
    ceilingOver: string[];
    framesUnder: string[];
    strakeBelow: string[];
    strakeAbove: string[];
  };
}

export const TOUCHING_NOTHING: ScopedElement['touching'] = {
  planksOver: [],
  ceilingOver: [],
  framesUnder: [],
  strakeBelow: [],
  strakeAbove: [],
};
