import { Controller, Get, Module } from '@nestjs/common';
import { DiscoveryModule, NestFactory } from '@nestjs/core';
import { Mutation, Query, ResolveField, Resolver } from '@nestjs/graphql';
import { buildSchema } from 'graphql';
import { Allow, AllowAnyone, AllowSignedIn } from './allow.js';
import { WhoMay, whoMayTable } from './who-may.js';

@Resolver('Plank')
class Planks {
  @AllowSignedIn()
  @Query(() => String)
  planks(): string {
    return '';
  }

  @Allow('shipwright', 'director')
  @Mutation(() => String, { name: 'removePlank' })
  remove(): string {
    return '';
  }

  @ResolveField(() => String)
  wood(): string {
    return '';
  }
}

@Resolver()
class Careless {
  @Query(() => String)
  secrets(): string {
    return '';
  }
}

@Controller('gate')
class Gate {
  @AllowAnyone()
  @Get('open')
  open(): string {
    return '';
  }
}

async function whoMay(providers: (new () => object)[]): Promise<WhoMay> {
  @Module({ imports: [DiscoveryModule], providers: [WhoMay, ...providers], controllers: [Gate] })
  class Room {}
  const app = await NestFactory.createApplicationContext(Room, { logger: false });
  return app.get(WhoMay);
}

describe('who may call what', () => {
  const schema = buildSchema('type Query { planks: String } type Mutation { removePlank: String }');

  it('is known of every operation and route', async () => {
    const known = await whoMay([Planks]);
    expect(() => {
      known.check(schema);
    }).not.toThrow();
    expect(whoMayTable(known.operations()).split('\n').slice(5)).toEqual([
      '| Kind     | Operation     | Nobody signed in | Director | Coordinator | Shipwright | Volunteer |',
      '| -------- | ------------- | ---------------- | -------- | ----------- | ---------- | --------- |',
      '| Query    | `planks`      |                  | yes      | yes         | yes        | yes       |',
      '| Mutation | `removePlank` |                  | yes      |             | yes        |           |',
      '| Route    | `/gate/open`  | yes              | yes      | yes         | yes        | yes       |',
      '',
    ]);
  });

  it('must be said, or the server does not start', async () => {
    const known = await whoMay([Planks, Careless]);
    expect(() => {
      known.check(schema);
    }).toThrow('nobody has said who may call Query secrets');
  });

  it('must be said of whatever the schema has, however it came in', async () => {
    const known = await whoMay([Planks]);
    const more = buildSchema(
      'type Query { planks: String back: String } type Mutation { removePlank: String }',
    );
    expect(() => {
      known.check(more);
    }).toThrow('Query back');
  });
});
