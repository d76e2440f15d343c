import type { z } from 'zod';

/** One thing wrong in a yard document. */
export interface YardFault {
  /** Where it stands, such as `tasks[12].seats[0].skill`. */
  path: string;
  message: string;
  wouldBeRight: string;
}

/** Shape faults in the same words as the others. */
export function faultsOfShape(error: z.ZodError): YardFault[] {
  return error.issues.flatMap(inWords);
}

function inWords(issue: z.core.$ZodIssue): YardFault[] {
  const path = pathOf(issue.path);
  switch (issue.code) {
    case 'unrecognized_keys':
      return issue.keys.map((key) => ({
        path: pathOf([...issue.path, key]),
        message: 'is not a known key',
        wouldBeRight: 'only the keys of the format ribband-yard/1',
      }));
    case 'invalid_type':
      return [
        {
          path,
          message: issue.input === undefined ? 'is missing' : 'is of the wrong kind',
          wouldBeRight: kindInWords(issue.expected),
        },
      ];
    case 'invalid_value':
      return [
        {
          path,
          message: 'is not one of the values allowed',
          wouldBeRight: issue.values.map(String).join(', '),
        },
      ];
    case 'invalid_union':
      return [{ path, message: 'is not one of the kinds allowed', wouldBeRight: 'count, work or time' }];
    case 'too_small':
      return [{ path, message: 'is too small', wouldBeRight: `${String(issue.minimum)} or more` }];
    case 'too_big':
      return [{ path, message: 'is too large', wouldBeRight: `${String(issue.maximum)} or less` }];
    case 'custom': {
      const right: unknown = issue.params?.wouldBeRight;
      return [{ path, message: issue.message, wouldBeRight: typeof right === 'string' ? right : '' }];
    }
    default:
      return [{ path, message: issue.message, wouldBeRight: 'a value of the format ribband-yard/1' }];
  }
}

function kindInWords(expected: string): string {
  switch (expected) {
    case 'int':
      return 'a whole number';
    case 'number':
      return 'a number';
    case 'string':
      return 'a text';
    case 'boolean':
      return 'true or false';
    case 'array':
      return 'a list, which may be empty';
    default:
      return 'an object with all the keys of the format ribband-yard/1, null where there is nothing';
  }
}

function pathOf(parts: readonly PropertyKey[]): string {
  return parts.reduce<string>(
    (path, part) =>
      typeof part === 'number'
        ? `${path}[${String(part)}]`
        : path === ''
          ? String(part)
          : `${path}.${String(part)}`,
    '',
  );
}
