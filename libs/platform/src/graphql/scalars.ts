import { GraphQLError, GraphQLScalarType, Kind, type ValueNode, valueFromASTUntyped } from 'graphql';
import { isDay } from '../calendar/days.js';
import { isTime } from '../calendar/zones.js';

function wrong(name: string, should: string): GraphQLError {
  return new GraphQLError(`${name} must be ${should}.`, { extensions: { code: 'BAD_USER_INPUT' } });
}

function textScalar<T>(options: {
  name: string;
  description: string;
  should: string;
  read: (text: string) => T | null;
  show: (value: unknown) => string;
}): GraphQLScalarType<T, string> {
  const read = (value: unknown): T => {
    const inside = typeof value === 'string' ? options.read(value) : null;
    if (inside === null) throw wrong(options.name, options.should);
    return inside;
  };
  return new GraphQLScalarType<T, string>({
    name: options.name,
    description: options.description,
    serialize: options.show,
    parseValue: read,
    parseLiteral: (node: ValueNode) => read(node.kind === Kind.STRING ? node.value : null),
  });
}

const instantShape = /^\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d(\.\d{1,9})?)?(Z|[+-]\d\d:\d\d)$/i;

/** An instant; epoch milliseconds inside. */
export const DateTime = textScalar<number>({
  name: 'DateTime',
  description: 'An instant, as RFC 3339 text in UTC, such as 2027-04-03T14:30:00.000Z.',
  should: 'an RFC 3339 instant with its offset, such as 2027-04-03T14:30:00Z',
  read(text) {
    const instant = instantShape.test(text) && isDay(text.slice(0, 10)) ? Date.parse(text) : Number.NaN;
    return Number.isNaN(instant) ? null : instant;
  },
  show(value) {
    if (typeof value === 'number' && Number.isFinite(value)) return new Date(value).toISOString();
    throw new TypeError('A DateTime must be given as epoch milliseconds');
  },
});

function shown(name: string, isRight: (text: string) => boolean): (value: unknown) => string {
  return (value) => {
    if (typeof value === 'string' && isRight(value)) return value;
    throw new TypeError(`Not a ${name}`);
  };
}

/** A day of the calendar where the vessel stands; text YYYY-MM-DD inside. */
export const LocalDate = textScalar<string>({
  name: 'LocalDate',
  description: 'A day at the yard, as YYYY-MM-DD.',
  should: 'a day of the calendar as YYYY-MM-DD',
  read: (text) => (isDay(text) ? text : null),
  show: shown('LocalDate', isDay),
});

/** A time of day where the vessel stands; text HH:MM inside. */
export const LocalTime = textScalar<string>({
  name: 'LocalTime',
  description: 'A time of day at the yard, as HH:MM on the 24-hour clock.',
  should: 'a time of day as HH:MM on the 24-hour clock',
  read: (text) => (isTime(text) ? text : null),
  show: shown('LocalTime', isTime),
});

/** A whole JSON value, taken and given as it is. Whoever takes one checks its shape. */
export const JSONDocument = new GraphQLScalarType<unknown, unknown>({
  name: 'JSONDocument',
  description: 'A whole JSON document, such as a yard file.',
  serialize: (value) => value,
  parseValue: (value) => value,
  parseLiteral: (node, variables) => valueFromASTUntyped(node, variables),
});
