/**
 * Statements for both databases that make learners' places of what was kept before such places named their teacher, or
 * while they told of a wish. Beside whom somebody learns stood in the sentence of the place and nowhere else: the teacher
 * is who is named there and was on the same work, or, where they go by another name now, who was there for the same
 * skill at a higher level. Where there is neither, the place stays what it was. Doing it again changes nothing.
 */
export const formerLearners: readonly string[] = [
  `UPDATE "place" SET "why" = replace(
      replace("why", 'Second hand: wished to learn ', 'Second hand: learns '),
      ', and learns it beside ', ' beside ')
    WHERE "why" LIKE 'Second hand: wished to learn %'`,
  `UPDATE "place" SET "teacherId" = COALESCE(${teacherWho(
    `"place"."why" LIKE '% beside ' || (SELECT "name" FROM "volunteer" WHERE "id" = "other"."volunteerId")
      || ', over and above the crew.'`,
  )}, ${teacherWho('"other"."skillId" = "place"."skillId" AND "other"."level" > "place"."level"')})
    WHERE "teacherId" IS NULL AND "volunteerId" IS NOT NULL AND "why" LIKE 'Second hand: learns %'`,
];

/** Of the others on the work of a place the one of whom something is true; of several always the same. */
function teacherWho(isSo: string): string {
  return `(SELECT MIN("other"."volunteerId") FROM "place" "other"
    WHERE "other"."turnoutId" = "place"."turnoutId" AND "other"."taskId" = "place"."taskId"
      AND "other"."volunteerId" <> "place"."volunteerId" AND ${isSo})`;
}
