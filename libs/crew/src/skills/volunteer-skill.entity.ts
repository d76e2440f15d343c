import { Organisation } from '@ribband/access';
import { IdColumn, InstantColumn, IntegerColumn, RefColumn, TextColumn } from '@ribband/platform';
import { Check, Entity, Unique } from 'typeorm';
import { Volunteer } from '../volunteers/volunteer.entity.js';
import { Skill } from './skill.entity.js';

/** How far a volunteer has come in one skill, and on whose word. */
@Entity('volunteer_skill')
@Unique(['volunteerId', 'skillId'])
@Check('"level" BETWEEN 0 AND 4')
export class VolunteerSkill {
  @IdColumn()
  id!: string;

  @RefColumn(() => Organisation, { onDelete: 'CASCADE' })
  organisationId!: string;

  @RefColumn(() => Volunteer, { onDelete: 'CASCADE', indexed: false })
  volunteerId!: string;

  @RefColumn(() => Skill)
  skillId!: string;

  /** 0 to 4, see `levelWords`. */
  @IntegerColumn()
  level!: number;

  @TextColumn({ nullable: true })
  signedOffBy!: string | null;

  @InstantColumn({ nullable: true })
  signedOffAt!: number | null;
}
