export * from './calendar/index.js';
