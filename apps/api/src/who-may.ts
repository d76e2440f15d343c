import { WhoMay, whoMayTable } from '@ribband/access';
import { writeOrCheck } from './committed.js';

await writeOrCheck(
  {
    name: 'who-may.md',
    command: 'npm run who-may',
    make: ({ app }) => whoMayTable(app.get(WhoMay).operations()),
  },
  process.argv[2],
);
