/** What is told when a plan comes in force. */
export interface PlanNews {
  planId: string;
  revision: number;
  /** Epoch milliseconds, or null where there is no plan. */
  readyAt: number | null;
}

export const planTopic = (organisationId: string): string => `plan:${organisationId}`;
