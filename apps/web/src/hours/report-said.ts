interface Sum {
  name: string;
  minutes: number;
  cents: number;
}

/** What the document of a report holds, as the schema describes it. */
export interface ReportSaid {
  organisation: string;
  grant: { name: string; funder: string; awardNumber: string | null };
  from: string;
  to: string;
  madeBy: string;
  madeOn: string;
  lines: {
    entry: string;
    on: string;
    person: string;
    kind: string;
    task: string | null;
    start: string | null;
    end: string | null;
    minutes: number;
    cents: number;
    reason: string | null;
  }[];
  byKind: Sum[];
  byPerson: Sum[];
  byDay: Sum[];
  rates: { kind: string; centsAnHour: number; source: string }[];
  minutes: number;
  cents: number;
  leftOut: { why: string; minutes: number }[];
}
