// Reads a calendar from standard input with ical.js and prints its events as JSON.
import { readFileSync } from "node:fs";
import ICAL from "ical.js";

const calendar = new ICAL.Component(ICAL.parse(readFileSync(0, "utf8")));
for (const zone of calendar.getAllSubcomponents("vtimezone")) ICAL.TimezoneService.register(zone);
const when = (t) => t.isDate ? t.toString() : new Date(t.toUnixTime() * 1000).toISOString().replace(".000", "");
const events = calendar.getAllSubcomponents("vevent").map((component) => {
  const event = new ICAL.Event(component);
  return {
    uid: event.uid, sequence: event.sequence, start: when(event.startDate), end: when(event.endDate), summary: event.summary,
    description: event.description ?? "", location: event.location ?? "", status: component.getFirstPropertyValue("status"),
  };
});
console.log(JSON.stringify(events));
