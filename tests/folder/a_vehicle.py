"""A small vehicle's folder, as bytes by path, for tests that damage it."""

from __future__ import annotations

from pathlib import Path

FILES: dict[str, str] = {
    "vehicle.toml": """\
format = 1
name = "Test van"   # the name on the door
timezone = "CET"

[work_days]
every = ["first saturday", "third saturday"]
opens = 09:00:00
closes = 16:00:00
also = [2026-05-09, { date = 2026-05-10, opens = 10:00:00, closes = 13:00:00 }]
closed = [2026-08-01]

[shop]
emergency = "112"
places = ["bench", "pit"]
conditions = { at_least_c = 10, at_most_humidity = 85 }
""",
    "crew.toml": """\
[people.ada]
name = "Ada Test"
adult = true
lead = true
skills = ["joinery"]
certificates = { "hot work" = 2027-01-31, "first aid" = { until = 2026-12-31, note = "card" } }

[people.tom]
name = "Tom [M8] Test"
eighteen_on = 2027-03-04
""",
    "supplies.toml": """\
[supplies.oak]
name = "Oak boards"
lead_time = "6 weeks"
ordered = 2026-04-01
due = 2026-05-20
""",
    "hazards.toml": """\
[lead-paint]
gear = ["a second pair of gloves"]
""",
    "components/frame.toml": """\
name = "Frame"

# scrape first
[tasks.scrape]
title = "Scrape the sills"
hours = [2, 4, 8]
hazards = ["lead-paint"]

[tasks.prime]
title = "Prime the sills"
after = ["scrape"]
hold = { kind = "dry", lasts = "36 hours", conditions = "shop" }
""",
    "components/deck.toml": """\
name = "Deck"
after = ["frame"]

[parts.boards]
name = "Boards"

[tasks.lay]
title = "Lay the boards"
part = "boards"
supplies = ["oak"]
people = [2, 4]

[tasks.trim]
title = "Trim the boards"
after = ["lay"]
during = ["lay"]
""",
    "days/2026/2026-05-02.toml": """\
date = 2026-05-02

[entries]
k7f3q2mh = { at = 2026-05-02T09:10:00, by = "ada", kind = "sign-in", who = "ada" }
k7f3q2mj = { at = 2026-05-02T09:20:00, by = "ada", kind = "begun", task = "frame/scrape", crew = ["ada"] }
k7f3q2mk = { at = 2026-05-02T12:00:00, by = "ada", kind = "finished", task = "frame/scrape" }
k7f3q2mm = { at = 2026-05-02T12:10:00, by = "ada", kind = "hours", who = "ada", hours = 2.5, task = "frame/scrape" }
k7f3q2mn = { at = 2026-05-02T15:00:00, by = "ada", kind = "finished", task = "frame/prime" }
k7f3q2mp = { at = 2026-05-02T15:10:00, by = "ada", kind = "extended", hold = "k7f3q2mn", lasts = "1 day", why = "damp" }
k7f3q2mq = { at = 2026-05-02T15:20:00, by = "ada", kind = "reading", celsius = 12.5, humidity = 70 }
k7f3q2mr = { at = 2026-05-02T12:10:00, by = "ada", kind = "hours", who = "ada", hours = 3, task = "frame/scrape", written = 2026-05-03T09:00:00, replaces = "k7f3q2mm" }
""",
}


def make(root: Path, files: dict[str, bytes] | None = None) -> Path:
    """Write the folder; `files` takes the place of the usual ones."""
    for path, data in (files or {p: t.encode() for p, t in FILES.items()}).items():
        target = root / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(data)
    return root
