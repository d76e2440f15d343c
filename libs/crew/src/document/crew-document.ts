import type { ComingException, ComingRule } from '../availability/availability.types.js';
import type { ConsentKind } from '../gates/consent.js';
import type { CardPurpose, SkillPurpose } from '../purposes/purposes.js';
import type { VolunteerKind } from '../volunteers/volunteer.entity.js';

/** The crew's part of a yard document. Things are named by `ref`, the document's own key. */
export interface CrewDocument {
  /** Older documents say nothing of purposes: what is there stays, else it goes by the name. */
  skills: { ref: string; name: string; purpose?: SkillPurpose | null | undefined }[];
  cardKinds: { ref: string; name: string; purpose?: CardPurpose | null | undefined }[];
  volunteers: VolunteerDocument[];
}

export interface VolunteerDocument {
  ref: string;
  name: string;
  bornOn: string | null;
  kind: VolunteerKind;
  email: string | null;
  /** Only read, of older documents and for a yard of invented people: never written out. */
  showUpChance?: number | undefined;
  minutesAWeek: number | null;
  minutesATurnout: number | null;
  skills: { skill: string; level: number; signedOffBy: string | null }[];
  cards: { kind: string; issuer: string; expiresOn: string | null }[];
  availability: { rules: ComingRule[]; exceptions: ComingException[] };
  /** Written out for the coordinator only; a document that is silent leaves what is there. */
  phone?: string | undefined;
  /** Older documents have neither of the two. */
  turnoutsAMonth?: number | null | undefined;
  /** Document keys of skills that they would like to learn; a silent document leaves what is there. */
  wouldLearn?: string[] | undefined;
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
