import {
  type GraphQLArgument,
  type GraphQLField,
  type GraphQLInputType,
  type GraphQLOutputType,
  getNamedType,
  isCompositeType,
  isEnumType,
  isInputObjectType,
  isInterfaceType,
  isListType,
  isNonNullType,
  isObjectType,
  isUnionType,
} from 'graphql';

/** Gives a value for an input of a named scalar, such as `ID` or `LocalDate`. */
export type ScalarValues = (name: string, field: string) => unknown;

/** A well-formed document for an operation, with all of its arguments as variables. */
export function documentFor(
  kind: 'query' | 'mutation',
  field: GraphQLField<unknown, unknown>,
  scalars: ScalarValues,
  depth: number,
): { query: string; variables: Record<string, unknown> } {
  const declared = field.args.map((arg) => `$${arg.name}: ${String(arg.type)}`).join(', ');
  const passed = field.args.map((arg) => `${arg.name}: $${arg.name}`).join(', ');
  const selection = selectionOf(field.type, depth);
  return {
    query: `${kind} Try${declared && `(${declared})`} { ${field.name}${passed && `(${passed})`} ${selection} }`,
    variables: Object.fromEntries(
      field.args.map((arg: GraphQLArgument) => [arg.name, valueFor(arg.type, scalars, arg.name)]),
    ),
  };
}

function valueFor(type: GraphQLInputType, scalars: ScalarValues, field: string): unknown {
  if (isNonNullType(type)) return valueFor(type.ofType, scalars, field);
  if (isListType(type)) return [valueFor(type.ofType, scalars, field)];
  if (isEnumType(type)) return type.getValues()[0]?.name;
  if (isInputObjectType(type)) {
    return Object.fromEntries(
      Object.values(type.getFields()).map((inner) => [inner.name, valueFor(inner.type, scalars, inner.name)]),
    );
  }
  return scalars(type.name, field);
}

/** Everything that can be asked of a type without arguments, so many levels down. */
function selectionOf(type: GraphQLOutputType, depth: number): string {
  const named = getNamedType(type);
  if (!isCompositeType(named)) return '';
  if (isUnionType(named)) {
    const members = named.getTypes().map((member) => `... on ${member.name} ${selectionOf(member, depth)}`);
    return `{ __typename ${members.join(' ')} }`;
  }
  if (isObjectType(named) || isInterfaceType(named)) {
    const fields = Object.values(named.getFields())
      .filter((inner) =>
        inner.args.every((arg) => !isNonNullType(arg.type) || arg.defaultValue !== undefined),
      )
      .filter((inner) => depth > 1 || !isCompositeType(getNamedType(inner.type)))
      // Two members of a union may have fields of the same name and of different types.
      .map((inner) => `${inner.name} ${selectionOf(inner.type, depth - 1)}`);
    return `{ __typename ${fields.join(' ')} }`;
  }
  return '';
}
