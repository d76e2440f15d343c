import { checkRule } from './check-calendar.js';
import type { Add, Refs } from './refs.js';
import type { YardDocument } from './yard-document.js';

/** Volunteers, what they hold and when they can come; places and tallies that name them. */
export function checkPeople(document: YardDocument, refs: Refs, add: Add): void {
  const emails = new Set<string>();
  document.volunteers.forEach((volunteer, i) => {
    const path = `volunteers[${String(i)}]`;
    const email = volunteer.email?.toLowerCase();
    if (email !== undefined) {
      if (emails.has(email))
        add(`${path}.email`, 'is used twice', 'an address that nobody else has, or null');
      emails.add(email);
    }
    if (volunteer.bornOn !== null && volunteer.bornOn >= document.haulOut.hauledOutOn)
      add(`${path}.bornOn`, 'is after the haul-out', `a day before ${document.haulOut.hauledOutOn}, or null`);
    const skills = volunteer.skills.map((held) => held.skill);
    skills.forEach((skill, s) => {
      refs.check('skills', skill, `${path}.skills[${String(s)}].skill`);
      if (skills.indexOf(skill) < s)
        add(`${path}.skills[${String(s)}].skill`, `${skill} comes twice`, 'each skill once');
    });
    volunteer.wouldLearn?.forEach((skill, s, all) => {
      refs.check('skills', skill, `${path}.wouldLearn[${String(s)}]`);
      if (all.indexOf(skill) < s)
        add(`${path}.wouldLearn[${String(s)}]`, `${skill} comes twice`, 'each skill once');
    });
    volunteer.cards.forEach((card, c) => {
      refs.check('cardKinds', card.kind, `${path}.cards[${String(c)}].kind`);
    });
    volunteer.availability.rules.forEach((span, r) => {
      const at = `${path}.availability.rules[${String(r)}]`;
      checkRule(span, document.haulOut.timeZone, at, add);
      checkTimes(span, at, add);
    });
    volunteer.availability.exceptions.forEach((exception, e) => {
      const at = `${path}.availability.exceptions[${String(e)}]`;
      if (exception.toOn < exception.fromOn)
        add(`${at}.toOn`, 'is before the first day', `${exception.fromOn} or later`);
      checkTimes(exception, at, add);
    });
  });
  checkPlaces(document, refs, add);
  checkTallies(document, refs, add);
}

/** Times of a day; an end before the start means the next morning. */
function checkTimes(part: { from: string | null; to: string | null }, path: string, add: Add): void {
  if (part.from !== null && part.from === part.to)
    add(`${path}.to`, 'ends when it starts', 'another time, or null for the whole turnout');
}

/** From and to: either both or neither, in order. */
function checkPart(part: { from: string | null; to: string | null }, path: string, add: Add): void {
  if ((part.from === null) !== (part.to === null))
    add(`${path}.to`, 'only one end of the time is given', 'both from and to, or null for the whole turnout');
  else if (part.from !== null && part.to !== null && part.to <= part.from)
    add(`${path}.to`, 'is not after the start', `a time after ${part.from.replace(/^\d /, '')}`);
}

function checkPlaces(document: YardDocument, refs: Refs, add: Add): void {
  const kinds = new Map(document.tasks.map((task) => [task.ref, task.kind]));
  const held = new Map<string, { from: string; to: string }[]>();
  const watches = new Set(
    document.singleTurnouts.flatMap(({ kind, on, startTime }) =>
      kind === 'watch' ? [`${on} ${startTime}`] : [],
    ),
  );
  document.places.forEach((place, i) => {
    const path = `places[${String(i)}]`;
    refs.check('tasks', place.task, `${path}.task`);
    if (kinds.get(place.task) === 'elapsed')
      add(`${path}.task`, 'time that passes by itself has no places', 'a task with a crew');
    if (place.skill !== null) refs.check('skills', place.skill, `${path}.skill`);
    if (place.card !== undefined) refs.check('cardKinds', place.card, `${path}.card`);
    // On a watch what is earlier than its start is on the next day.
    const isNext = (time: string) => watches.has(`${place.on} ${place.startTime}`) && time < place.startTime;
    const onClock = (time: string | null) => time && `${isNext(time) ? 1 : 0} ${time}`;
    const part = { from: onClock(place.from), to: onClock(place.to) };
    checkPart(part, path, add);
    if (place.state === 'taken' && place.volunteer === null)
      add(`${path}.volunteer`, 'is taken by nobody', 'the volunteer who has it');
    if (place.teacher !== undefined) {
      refs.check('volunteers', place.teacher, `${path}.teacher`);
      if (place.volunteer === null || place.volunteer === place.teacher)
        add(
          `${path}.teacher`,
          'is on a place of nobody else',
          'leave it out, or name who learns as volunteer',
        );
    }
    if (place.volunteer === null) return;
    refs.check('volunteers', place.volunteer, `${path}.volunteer`);
    if (place.state === 'left') return;
    const key = `${place.volunteer} ${place.on} ${place.startTime}`;
    const span = { from: part.from ?? '0 00:00', to: part.to ?? '2 00:00' };
    const others = held.get(key) ?? [];
    if (others.some((other) => other.from < span.to && span.from < other.to))
      add(path, `${place.volunteer} is in two places at once`, "places that don't overlap");
    held.set(key, [...others, span]);
  });
}

function checkTallies(document: YardDocument, refs: Refs, add: Add): void {
  const tasks = new Map(document.tasks.map((task) => [task.ref, task]));
  document.tallies.forEach((tally, i) => {
    const path = `tallies[${String(i)}]`;
    refs.check('tasks', tally.task, `${path}.task`);
    if (tally.volunteer !== null) refs.check('volunteers', tally.volunteer, `${path}.volunteer`);
    const estimate = tasks.get(tally.task)?.estimate;
    if (tally.count !== null && estimate && estimate.by !== 'count')
      add(`${path}.count`, 'this task is not counted', 'null');
  });
}
