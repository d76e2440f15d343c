import { Field, ObjectType, registerEnumType } from '@nestjs/graphql';
import { hazardCatalogue, hazardCodes, type HazardCode } from './hazard-catalogue.js';

/** HOT_WORK is 'hot-work' inside. */
export const HazardCodeEnum = Object.fromEntries(
  hazardCodes.map((code) => [code.replaceAll('-', '_').toUpperCase(), code]),
) as Record<string, HazardCode>;

registerEnumType(HazardCodeEnum, {
  name: 'HazardCode',
  description: 'What can hurt someone: a closed list.',
  valuesMap: Object.fromEntries(
    hazardCodes.map((code) => [
      code.replaceAll('-', '_').toUpperCase(),
      { description: `${hazardCatalogue[code].name}.` },
    ]),
  ),
});

@ObjectType({ description: 'Something that can hurt, the usual caution, and where that comes from.' })
export class Hazard {
  @Field(() => HazardCodeEnum, { description: 'Which hazard.' })
  code!: HazardCode;

  @Field(() => String, { description: 'Its name in plain words.' })
  name!: string;

  @Field(() => String, { description: 'What is usually done about it.' })
  caution!: string;

  @Field(() => String, { description: 'A citation, or that there is none.' })
  basis!: string;
}

@ObjectType({
  description: 'What to read before starting, and where it comes from. It never says that work is safe.',
})
export class Caution {
  @Field(() => String, { description: 'The line.' })
  words!: string;

  @Field(() => String, { description: 'A citation, or that there is none.' })
  basis!: string;
}

export const hazardOf = (code: HazardCode): Hazard => ({ code, ...hazardCatalogue[code] });
