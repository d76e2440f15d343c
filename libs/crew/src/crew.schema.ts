import type { SchemaClass } from '@ribband/platform';
import { AvailabilityExceptionEntity } from './availability/availability-exception.entity.js';
import { AvailabilityRuleEntity } from './availability/availability-rule.entity.js';
import { CardKind } from './cards/card-kind.entity.js';
import { CardEntity } from './cards/card.entity.js';
import { GuardianConsent } from './consent/consent.entity.js';
import { Wishes1764100200002 } from './migrations/1764100200002-wishes.js';
import { Phones1764418000001 } from './migrations/1764418000001-phones.js';
import { WishToLearn1764419000003 } from './migrations/1764419000003-wish-to-learn.js';
import { PhoneEntity } from './phones/phone.entity.js';
import { PersonWish } from './wishes/wish.entity.js';
import { Crew1764000003000 } from './migrations/1764000003000-crew.js';
import { Skill } from './skills/skill.entity.js';
import { Purposes1764423000001 } from './migrations/1764423000001-purposes.js';
import { VolunteerSkill } from './skills/volunteer-skill.entity.js';
import { Volunteer } from './volunteers/volunteer.entity.js';

export const crewEntities: SchemaClass[] = [
  Skill,
  CardKind,
  Volunteer,
  VolunteerSkill,
  CardEntity,
  AvailabilityRuleEntity,
  AvailabilityExceptionEntity,
  PersonWish,
  GuardianConsent,
  PhoneEntity,
];
export const crewMigrations: SchemaClass[] = [
  Crew1764000003000,
  Wishes1764100200002,
  Phones1764418000001,
  WishToLearn1764419000003,
  Purposes1764423000001,
];
