import { Audit, permit, type Caller } from '@ribband/access';
import { OPENING_RULES, openingLimits } from '@ribband/hull';
import { Database, RealClock, refuse, Revisions } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { HullRecords } from '../hull/hull-records.service.js';
import { refusingAs } from '../hull/hull-refusals.js';
import { SurveyRecord } from '../survey/survey.entity.js';
import { layLimits, surveyOf } from './limit-rows.js';
import { type LimitRule, limitRules, ruleInWords, type RuleWish, withRule } from './opening-rules.js';
import { wordsGiven } from '../words.js';

/** A rule of openings with the value that counts at this yard. */
export interface RuleInForce {
  rule: LimitRule;
  says: string;
  /** The default of the trade and what counts here, in words. */
  usual: string;
  here: string;
  changedBy: string | null;
  reason: string | null;
}

/** The numbers behind the limits: the trade's defaults, or the shipwright's own in writing among the survey's choices. */
@Injectable()
export class LimitSettings {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(HullRecords) private readonly hulls: HullRecords,
  ) {}

  async inForce(caller: Caller): Promise<RuleInForce[]> {
    const survey = await surveyOf(this.database.read, caller.organisationId);
    const settings = survey?.survey.choices.openings ?? {};
    return limitRules.map((rule) => ({
      rule,
      says: OPENING_RULES[rule].says,
      usual: ruleInWords(rule, {}),
      here: ruleInWords(rule, settings),
      changedBy: settings[rule]?.by ?? null,
      reason: settings[rule]?.reason ?? null,
    }));
  }

  /** Puts the shipwright's value in place of a default, or the default back (null). The limits are laid anew. */
  async change(
    caller: Caller,
    rule: LimitRule,
    wish: RuleWish | null,
    reason: string,
  ): Promise<RuleInForce[]> {
    permit(caller, 'shipwright');
    const why = wordsGiven(reason, 'reason', 10, 1000, 'What holds the hull instead.');
    await this.database.write(async (manager) => {
      const { organisationId } = caller;
      const record =
        (await surveyOf(manager, organisationId)) ??
        refuse('NOT_FOUND', 'The limits follow from a survey, and there is none.', {
          field: 'rule',
          remedy: 'Enter the survey first; a limit that was entered by hand is set aside by itself.',
        });
      const { survey } = record;
      const openings = withRule(survey.choices.openings, rule, wish, { by: caller.name, reason: why });
      const hull = await this.hulls.hullOf(manager, record.haulOutId);
      if (hull) refusingAs(null, () => openingLimits(hull, [], openings));
      await manager.save(SurveyRecord, {
        ...record,
        survey: { ...survey, choices: { ...survey.choices, openings } },
        version: record.version + 1,
        changedBy: caller.name,
        changedAt: this.clock.now(),
      });
      if (hull) await layLimits(manager, organisationId, hull, this.clock.now());
      await this.revisions.requestPlan(manager, organisationId, `changeOpeningRule: ${rule}`);
      await this.audit.note(manager, caller, 'changeOpeningRule', record.id, { rule, wish, reason: why });
    });
    return this.inForce(caller);
  }
}
