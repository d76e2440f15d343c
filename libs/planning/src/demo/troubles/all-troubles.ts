import { heatDay, minorAtTheBandMill } from './at-the-gates.js';
import { breadthOpens, floorRotten } from './on-the-hull.js';
import { fourOnSteamDay, traysMixed } from './steam-day.js';
import { firstAidExpired, plankStockLate, sawyerAway } from './stock-and-people.js';
import type { Trouble } from './trouble.js';

/** The troubles of the demo yard, each to be played once. */
export const allTroubles: Trouble[] = [
  plankStockLate,
  sawyerAway,
  floorRotten,
  traysMixed,
  breadthOpens,
  heatDay,
  minorAtTheBandMill,
  firstAidExpired,
  fourOnSteamDay,
];
