import { HullRefusal } from '@ribband/hull';
import { refuse } from '@ribband/platform';
import { capital } from '../words.js';

/**
 * What the hull's arithmetic refuses, as a refusal of the yard.
 * @param prefix path of the input field in which its own fields lie, '' where its own fields are the input's; null
 * where they are none of the input's
 */
export function refusingAs<T>(prefix: string | null, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof HullRefusal)) throw error;
    const { field, fault, wouldBeRight } = error;
    return refuse('BAD_INPUT', `${capital(fault)}.`, {
      ...(prefix === null ? {} : { field: prefix === '' ? field : `${prefix}.${field}` }),
      remedy: `${capital(wouldBeRight)}.`,
      facts: { where: field },
    });
  }
}
