import { lexicographicSortSchema, printSchema } from 'graphql';
import { writeOrCheck } from './committed.js';

await writeOrCheck(
  {
    name: 'schema.graphql',
    command: 'npm run schema',
    make: ({ schema }) => `${printSchema(lexicographicSortSchema(schema))}\n`,
  },
  process.argv[2],
);
