import { type GateRuleName, gateRuleNames, ruleBook } from '@ribband/crew';
import { registerEnumType } from '@nestjs/graphql';

const nameOf = (rule: GateRuleName): string => rule.toUpperCase().replaceAll('-', '_');

/** Every rule of the gates, by its name in GraphQL. */
export const GateRule = Object.fromEntries(gateRuleNames.map((rule) => [nameOf(rule), rule]));

registerEnumType(GateRule, {
  name: 'GateRule',
  description: 'A rule of the gates.',
  valuesMap: Object.fromEntries(
    gateRuleNames.map((rule) => [nameOf(rule), { description: ruleBook[rule].says }]),
  ),
});
