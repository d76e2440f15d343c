import { Inject, Injectable } from '@nestjs/common';
import { DiscoveryService, MetadataScanner } from '@nestjs/core';
import type { GraphQLSchema } from 'graphql';
import { type Role, roles } from '../caller.js';
import { type Leave, leaveKey } from './allow.js';

type OperationKind = 'Query' | 'Mutation' | 'Subscription' | 'Route';

/** An operation and who may call it. */
export interface DeclaredOperation {
  kind: OperationKind;
  name: string;
  /** Undefined when it does not say. */
  leave: Leave | undefined;
}

// Where @nestjs/graphql and @nestjs/common keep what their decorators were given.
const resolverTypeKey = 'graphql:resolver_type';
const resolverNameKey = 'graphql:resolver_name';
const routePathKey = 'path';
const rootKinds = new Set<string>(['Query', 'Mutation', 'Subscription']);

/** Knows all operations of the server and who may call each. */
@Injectable()
export class WhoMay {
  private readonly scanner = new MetadataScanner();

  constructor(@Inject(DiscoveryService) private readonly discovery: DiscoveryService) {}

  /** All operations, sorted by kind and name. */
  operations(): DeclaredOperation[] {
    const found: DeclaredOperation[] = [];
    for (const { kind, name, leave } of this.methods()) found.push({ kind, name, leave });
    const order: OperationKind[] = ['Query', 'Mutation', 'Subscription', 'Route'];
    return found.sort(
      (a, b) =>
        order.indexOf(a.kind) - order.indexOf(b.kind) || (a.name < b.name ? -1 : a.name > b.name ? 1 : 0),
    );
  }

  /**
   * Sees to it that every operation of the schema, and every route, says who may call it.
   * @throws naming those that do not: the server must not start
   */
  check(schema: GraphQLSchema): void {
    const operations = this.operations();
    const silent = operations
      .filter((one) => one.leave === undefined)
      .map((one) => `${one.kind} ${one.name}`);
    const declared = new Set(operations.map((one) => `${one.kind} ${one.name}`));
    for (const type of [schema.getQueryType(), schema.getMutationType(), schema.getSubscriptionType()]) {
      for (const name of Object.keys(type?.getFields() ?? {})) {
        const operation = `${type?.name} ${name}`;
        if (!declared.has(operation)) silent.push(operation);
      }
    }
    if (silent.length > 0) {
      throw new Error(
        `Cannot start: nobody has said who may call ${silent.join(', ')} (@Allow, @AllowSignedIn, @AllowAnyone)`,
      );
    }
  }

  private *methods(): Generator<DeclaredOperation> {
    for (const wrapper of [...this.discovery.getProviders(), ...this.discovery.getControllers()]) {
      const prototype = wrapper.metatype?.prototype as object | undefined;
      if (!prototype) continue;
      for (const methodName of this.scanner.getAllMethodNames(prototype)) {
        const method = (prototype as Record<string, unknown>)[methodName];
        if (typeof method !== 'function') continue;
        const leave = Reflect.getMetadata(leaveKey, method) as Leave | undefined;
        const kind = Reflect.getMetadata(resolverTypeKey, method) as string | undefined;
        const name = Reflect.getMetadata(resolverNameKey, method) as string | undefined;
        const path = Reflect.getMetadata(routePathKey, method) as string | undefined;
        if (kind && rootKinds.has(kind))
          yield { kind: kind as OperationKind, name: name ?? methodName, leave };
        else if (path !== undefined) {
          const base = Reflect.getMetadata(routePathKey, wrapper.metatype as object) as string | undefined;
          yield {
            kind: 'Route',
            name: `/${[base, path].filter(Boolean).join('/')}`.replaceAll(/\/+/g, '/'),
            leave,
          };
        }
      }
    }
  }
}

/** The operations as a table in Markdown, for people and for the check that compares it with the one last agreed. */
export function whoMayTable(operations: DeclaredOperation[]): string {
  const rows = operations.map((operation) => {
    const who = operation.leave?.who ?? [];
    const cells = [
      who === 'anyone' ? 'yes' : '',
      ...roles.map((role: Role) => (typeof who === 'string' || who.includes(role) ? 'yes' : '')),
    ];
    return [operation.kind, `\`${operation.name}\``, ...cells];
  });
  const head = [
    'Kind',
    'Operation',
    'Nobody signed in',
    ...roles.map((role) => role.charAt(0).toUpperCase() + role.slice(1)),
  ];
  const widths = head.map((title, column) =>
    Math.max(title.length, ...rows.map((row) => row[column]?.length ?? 0)),
  );
  const line = (cells: string[]): string =>
    `| ${cells.map((cell, column) => cell.padEnd(widths[column] ?? 0)).join(' | ')} |`;
  return [
    '# Who may call what',
    '',
    'Made from the operations themselves (`npm run schema`); what a role may see and change within an operation is',
    'decided on the first line of its use case.',
    '',
    line(head),
    line(widths.map((width) => '-'.repeat(width))),
    ...rows.map(line),
    '',
  ].join('\n');
}
