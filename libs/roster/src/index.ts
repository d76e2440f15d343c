export { rosterEntities, rosterMigrations } from './roster.schema.js';
