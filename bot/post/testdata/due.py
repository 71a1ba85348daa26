# Prints the body of due.txt: python3 due.py
from zoneinfo import ZoneInfo
from datetime import datetime, timedelta, timezone, date
Z=ZoneInfo
cases=[]
def add(zone, days, ats):
    for d in days:
        for a in ats: cases.append((zone,d,a))
S="00:00 00:30 01:30 02:00 02:15 02:30 03:00 06:30 23:30 23:59".split()
add("Europe/Berlin",["2026-03-29","2026-10-25"],S)
add("Europe/Lisbon",["2026-03-29","2026-10-25"],S)
add("America/New_York",["2026-03-08","2026-11-01"],S)
add("Australia/Lord_Howe",["2026-04-05","2026-10-04"],S+["01:45"])
add("Australia/Adelaide",["2026-04-05","2026-10-04"],S)
add("Pacific/Chatham",["2026-04-05","2026-09-27"],S+["02:45","03:15","03:45"])
add("Asia/Kathmandu",["2026-06-13"],S)
add("Pacific/Kiritimati",["2026-06-13"],S)
add("Pacific/Pago_Pago",["2026-06-13"],S)
add("America/Santiago",["2026-04-04","2026-04-05","2026-09-05","2026-09-06"],S)
add("Africa/Cairo",["2026-04-23","2026-04-24","2026-10-29","2026-10-30"],S)
add("America/Havana",["2026-03-08","2026-11-01"],S)
add("America/Nuuk",["2024-03-30","2024-03-31","2024-10-26","2024-10-27"],S)
add("Asia/Beirut",["2026-03-29","2026-10-24","2026-10-25"],S)
add("America/St_Johns",["2010-11-06","2010-11-07"],S)
add("Pacific/Apia",["2011-12-29","2011-12-30","2011-12-31"],S)
add("Africa/Casablanca",["2025-02-23","2025-04-06"],S)
cache={}
def table(zone,d):
    k=(zone,d)
    if k in cache: return cache[k]
    y,m,dd=map(int,d.split("-")); z=Z(zone)
    t0=datetime(y,m,dd,tzinfo=timezone.utc)-timedelta(hours=30)
    rows=[]; over=False
    for i in range(60*84):
        t=t0+timedelta(minutes=i); l=t.astimezone(z)
        if l.date()>date(y,m,dd): over=True
        if l.date()==date(y,m,dd) : rows.append((t,l.hour*60+l.minute,over))
    cache[k]=rows; return rows
out=[]
for zone,d,a in cases:
    h,mi=map(int,a.split(":")); want=h*60+mi
    rows=table(zone,d)
    if not rows: out.append(f"{zone} {d} {a} never"); continue
    first=next((t for t,w,o in rows if w>=want and not o),None)
    # a jump that took the rest of the day: the last minute
    if first is None: first=[t for t,w,o in rows if not o][-1]
    out.append(f"{zone} {d} {a} {first:%Y-%m-%dT%H:%MZ}")
print("\n".join(out))
