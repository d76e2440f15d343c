import { HullRefusal } from '@ribband/hull';
import { refuse } from '@ribband/platform';

/**
 * What the hull's arithmetic refuses, as a refusal of the yard.
 * @param prefix what stands before its field in the path of the input field, such as `outline.`
 */
export function refusingAs<T>(prefix: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof HullRefusal)) throw error;
    const { field, fault, wouldBeRight } = error;
    return refuse('BAD_INPUT', `${capital(fault)}.`, {
      field: `${prefix}${field}`,
      remedy: `${capital(wouldBeRight)}.`,
    });
  }
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
