import type { SchemaClass } from '@ribband/platform';
import { AvailabilityExceptionEntity } from './availability/availability-exception.entity.js';
import { AvailabilityRuleEntity } from './availability/availability-rule.entity.js';
import { CardKind } from './cards/card-kind.entity.js';
import { CardEntity } from './cards/card.entity.js';
import { GuardianConsent } from './consent/consent.entity.js';
import { Wishes1764100200002 } from './migrations/1764100200002-wishes.js';
import { PersonWish } from './wishes/wish.entity.js';
import { Crew1764000003000 } from './migrations/1764000003000-crew.js';
import { Skill } from './skills/skill.entity.js';
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
];
export const crewMigrations: SchemaClass[] = [Crew1764000003000, Wishes1764100200002];
