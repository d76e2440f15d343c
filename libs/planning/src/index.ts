export { rooms, schema } from './house.js';
export { DemoYard, type DemoPerson } from './demo/demo-yard.service.js';
export { replay } from './compute/replay.js';
export { readYard } from './yard/checks.js';
export type { YardFault } from './yard/faults.js';
export type { YardDocument } from './yard/yard-document.js';
