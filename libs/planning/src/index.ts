export { readYard } from './yard/checks.js';
export type { YardFault } from './yard/faults.js';
export { yardDocument, type YardDocument } from './yard/yard-document.js';
