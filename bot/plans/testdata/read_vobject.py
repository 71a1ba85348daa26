"""Reads a calendar from standard input with vobject and prints its events as JSON."""
import datetime
import json
import sys

import vobject


def when(value):
    if isinstance(value, datetime.datetime):
        return value.astimezone(datetime.timezone.utc).strftime("%Y-%m-%dT%H:%M:%SZ")
    return value.isoformat()


calendar = vobject.readOne(sys.stdin.buffer.read().decode())
calendar.validate(raiseException=True)
text = lambda event, name: getattr(event, name).value if hasattr(event, name) else ""
print(json.dumps([{
    "uid": e.uid.value, "sequence": int(e.sequence.value), "start": when(e.dtstart.value), "end": when(e.dtend.value), "summary": e.summary.value,
    "description": text(e, "description"), "location": text(e, "location"), "status": e.status.value,
} for e in calendar.vevent_list]))
