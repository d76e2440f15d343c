import { instantToLocal, zoneChanges, type ZoneChange } from '@ribband/platform';
import ICAL from 'ical.js';
import type { KnownEvent } from './events.js';

/** A calendar as it is written: whose, where, and what is in it. */
export interface CalendarToWrite {
  name: string;
  timeZone: string;
  events: readonly KnownEvent[];
}

/** How often a calendar program should look again; RFC 7986, section 5.7. */
const lookAgain = 'PT1H';
const day = 24 * 60 * 60_000;

/** The calendar as text: RFC 5545, with the name and the refresh interval of RFC 7986. */
export function writeCalendar({ name, timeZone, events }: CalendarToWrite): string {
  const calendar = new ICAL.Component('vcalendar');
  calendar.addPropertyWithValue('prodid', '-//Ribband//Turnouts//EN');
  calendar.addPropertyWithValue('version', '2.0');
  calendar.addPropertyWithValue('calscale', 'GREGORIAN');
  calendar.addPropertyWithValue('method', 'PUBLISH');
  calendar.addPropertyWithValue('name', name);
  // What older programs read for the same two.
  calendar.addPropertyWithValue('x-wr-calname', name);
  calendar.addPropertyWithValue('x-published-ttl', lookAgain);
  const refresh = new ICAL.Property('refresh-interval');
  refresh.resetType('duration');
  refresh.setValue(ICAL.Duration.fromString(lookAgain));
  calendar.addProperty(refresh);
  if (events.length > 0) calendar.addSubcomponent(zoneOf(timeZone, events));
  for (const event of events) calendar.addSubcomponent(eventOf(event, timeZone));
  // The library counts 75 octets without the blank that begins a line folded on.
  const lines = calendar.toString().replaceAll('\r\n ', '').split('\r\n');
  return lines.map((line) => `${folded(line)}\r\n`).join('');
}

const mostOctets = 75;

/** RFC 5545, section 3.1: no line beyond 75 octets, and no character torn apart. */
function folded(line: string): string {
  let text = '';
  let octets = 0;
  for (const character of line) {
    const size = Buffer.byteLength(character);
    if (octets + size > mostOctets) {
      text += '\r\n ';
      octets = 1;
    }
    text += character;
    octets += size;
  }
  return text;
}

/** The part of a place's id that is a UUID, as RFC 7986, section 5.3, wants it. */
export const uidOf = (placeId: string): string => placeId.slice(placeId.lastIndexOf('_') + 1);

function eventOf({ placeId, sequence, shown, changedAt }: KnownEvent, timeZone: string): ICAL.Component {
  const event = new ICAL.Component('vevent');
  event.addPropertyWithValue('uid', uidOf(placeId));
  event.addPropertyWithValue('dtstamp', inUtc(changedAt));
  event.addPropertyWithValue('last-modified', inUtc(changedAt));
  event.addPropertyWithValue('sequence', sequence);
  event.addProperty(atYard('dtstart', shown.startsAt, timeZone));
  event.addProperty(atYard('dtend', shown.endsAt, timeZone));
  event.addPropertyWithValue('summary', shown.summary);
  if (shown.description) event.addPropertyWithValue('description', shown.description);
  if (shown.location) event.addPropertyWithValue('location', shown.location);
  event.addPropertyWithValue('status', shown.status);
  event.addPropertyWithValue('transp', shown.status === 'CANCELLED' ? 'TRANSPARENT' : 'OPAQUE');
  return event;
}

const inUtc = (instant: number): ICAL.Time => ICAL.Time.fromJSDate(new Date(instant), true);

function atYard(name: string, instant: number, timeZone: string): ICAL.Property {
  const local = instantToLocal(instant, timeZone);
  const property = new ICAL.Property(name);
  property.setValue(ICAL.Time.fromDateTimeString(`${local.day}T${local.time}:00`));
  property.setParameter('tzid', timeZone);
  return property;
}

/** Every change of the yard's clocks over the events, each by itself: no rule that a year might break. */
function zoneOf(timeZone: string, events: readonly KnownEvent[]): ICAL.Component {
  const from = Math.min(...events.map(({ shown }) => shown.startsAt));
  const to = Math.max(...events.map(({ shown }) => shown.endsAt));
  const zone = new ICAL.Component('vtimezone');
  zone.addPropertyWithValue('tzid', timeZone);
  for (const change of zoneChanges(timeZone, from - day, to + day)) zone.addSubcomponent(changeOf(change));
  return zone;
}

function changeOf(change: ZoneChange): ICAL.Component {
  const part = new ICAL.Component(change.isDaylight ? 'daylight' : 'standard');
  part.addPropertyWithValue('dtstart', ICAL.Time.fromDateTimeString(`${change.on}T${change.at}`));
  part.addPropertyWithValue('tzoffsetfrom', ICAL.UtcOffset.fromSeconds(change.fromMinutes * 60));
  part.addPropertyWithValue('tzoffsetto', ICAL.UtcOffset.fromSeconds(change.toMinutes * 60));
  part.addPropertyWithValue('tzname', change.name);
  return part;
}
