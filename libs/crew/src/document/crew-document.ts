import type { ComingException, ComingRule } from '../availability/availability.types.js';
import type { ConsentKind } from '../gates/consent.js';
import type { VolunteerKind } from '../volunteers/volunteer.entity.js';

/** The crew's part of a yard document. Things are named by `ref`, the document's own key. */
export interface CrewDocument {
  skills: { ref: string; name: string }[];
  cardKinds: { ref: string; name: string }[];
  volunteers: VolunteerDocument[];
}

export interface VolunteerDocument {
  ref: string;
  name: string;
  bornOn: string | null;
  kind: VolunteerKind;
  email: string | null;
  showUpChance: number;
  minutesAWeek: number | null;
  minutesATurnout: number | null;
  skills: { skill: string; level: number; signedOffBy: string | null }[];
  cards: { kind: string; issuer: string; expiresOn: string | null }[];
  availability: { rules: ComingRule[]; exceptions: ComingException[] };
  /** Older documents have neither of the two. */
  turnoutsAMonth?: number | null | undefined;
  consents?: ConsentDocument[] | undefined;
}

/** A parent's yes for somebody under 18. */
export interface ConsentDocument {
  guardianName: string;
  guardianEmail: string | null;
  kinds: ConsentKind[];
  how: string;
  givenOn: string;
  writtenBy: string;
  withdrawnOn: string | null;
}
