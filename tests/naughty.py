"""Classes of text that steer a program that lets them, and a folder that has one in every field."""

from __future__ import annotations

from pathlib import Path

from crewboard.folder.toml.values import toml_key, toml_value
from crewboard.logbook.fields import EntryField
from crewboard.logbook.kinds import KINDS_OF_ENTRY

CLASSES: dict[str, str] = {
    "brackets": "[M8] bolt [/] [bold]x[/bold]",
    "action link": "[@click=app.quit]leave[/] [link=https://example.org]x[/link]",
    "colour code": "a\x1b[31mred\x1b[0m",
    "clear the screen": "a\x1b[2J\x1b[H\x1bc",
    "hyperlink code": "a\x1b]8;;https://example.org\x1b\\x\x1b]8;;\x1b\\",
    "clipboard code": "a\x1b]52;c;ZWNobyBoaQ==\x07",
    "window title code": "a\x1b]0;title\x07\x1bP0;1|17/ab\x9c",
    "C1 controls": "a\x9b31m\x9d52;c;eA==\x9c\x85\x90q\x9c",
    "zero bytes": "a\x00b\x00",
    "backspaces": "paid\x08\x08\x08\x08owed\x7f\r!",
    "zero-width": "a\u200bb\u200cc\u200dd\u2060e\ufefff\u00adg",
    "right to left override": "a\u202egnp.exe\u202c\u2066b\u2069\u200f\u061c",
    "line and paragraph separators": "a\u2028b\u2029c\x0bd\x0ce\x1cf",
    "tag characters": "a\U000e0041\U000e0042\ufe0f\U000e0100",
    "fillers": "\u3164\u115f\uffa0\u2800 a",
    "right to left": "مرحبا بالعالم שלום",
    "combining marks": "Z\u0351\u036b\u0343\u036a\u0302a\u0300\u0301\u0302\u0303lgo",
    "lone combining marks": "\u0300\u20e3 \u0489",
    "emoji": "\U0001f469\u200d\U0001f469\u200d\U0001f467 \U0001f1e9\U0001f1f0 \U0001f44d\U0001f3fd",
    "wide letters": "表ポあA鷗ŒéＢ逍Üßªąñ丂㐀𠀀",
    "formula": "=HYPERLINK(\"https://example.org\",\"x\")",
    "formula plus": "+1+cmd|' /C calc'!A0",
    "formula minus": "-2+3",
    "formula at": "@SUM(1+1)*cmd|' /C calc'!A0",
    "formula after a tab": "\t=1+1",
    "formula after a return": "\r=1+1",
    "formula after blanks": "  =1+1",
    "script": "<script>alert(1)</script><img src=x onerror=alert(1)>",
    "attribute": "\" onmouseover=\"alert(1)\" x='y' `z`",
    "entities": "&lt;b&gt; &amp; &#x3c; &nbsp;",
    "document parts": "</title></style></text></svg>]]><!--<![CDATA[<!DOCTYPE x>",
    "javascript address": "javascript:alert(1) data:text/html,<b>x</b>",
    "calendar parts": "a;b,c\\n\\;d\r\nEND:VEVENT\r\nBEGIN:VEVENT\nATTACH:x",
    "paths": "../../../../etc/passwd\\..\\..\\x file:///etc/passwd C:\\nul",
    "TOML signs": "a\"\"\"b'''c # = [t] {k = 1} \\u0041 \\",
    "one quote": "it's 6\" and \u201ctwo\u201d",
    "new lines": "one\ntwo\n\n[entries]\nk = 1\n",
    "shell": "$(reboot) `id` ; rm -rf / | cat && %PATH% ${HOME} !!",
    "format": "%s %n {0} {self.__class__} {{x}} %(a)s",
    "dates and numbers": "2026-05-02 1e400 NaN 0x1F ٣",
    "very long": "x" * 3000,
    "long without a blank": "ü" * 1500 + "\u202e",
}  # fmt: skip


def folder_full_of(text: str, root: Path) -> Path:
    """A vehicle's folder in which every text that a person can write is this one."""
    spelled, key, names = toml_value(text), toml_key(text), toml_value([text, f"b {text}"])
    files = {
        "vehicle.toml": f"""\
format = 1
name = {spelled}
what = {spelled}
other_work = {names}
currency = {spelled}
standard = {spelled}
shows = "second"
timezone = "CET"
[work_days]
every = ["first saturday"]
[shop]
emergency = {spelled}
address = {spelled}
meeting_place = {spelled}
first_aid = {spelled}
places = {names}
[shop.room]
{key} = 2
[periods.second]
name = {spelled}
since = {spelled}
until = {spelled}
[jigs.form]
name = {spelled}
kept = {spelled}
""",
        "crew.toml": f"""\
[people.ada]
name = {spelled}
skills = {names}
lead = true
note = {spelled}
certificates = {{ {key} = {{ until = 2026-06-01, note = {spelled} }}, "hot work" = 2030-01-01 }}
[people.tom]
name = {toml_value("Tom " + text)}
needs_beside = {spelled}
""",
        "supplies.toml": f"""\
[supplies.oak]
name = {spelled}
quantity = {spelled}
source = {spelled}
note = {spelled}
due = 2026-05-20
""",
        "hazards.toml": f"""\
[odd]
name = {spelled}
harm = {names}
gear = {names}
if_wrong = {names}
prevail = {names}
under_18_why = {spelled}
[odd.checks.look]
when = "before"
text = {toml_value(text.replace("{", "("))}
[odd.numbers.n]
value = 3
unit = {spelled}
says = {spelled}
source = {spelled}
where = {spelled}
edition = {spelled}
[[odd.laws]]
where = {spelled}
says = {toml_value(text.replace("{", "("))}
source = {spelled}
edition = {spelled}
borrowed = {spelled}
[[odd.first_aid]]
says = {spelled}
source = {spelled}
[odd.card]
kills = {spelled}
wear = {names}
check = {names}
wrong = {names}
look_up = {names}
law = {{ EU = {spelled} }}
""".replace(toml_value(text), toml_value(text.replace("{", "("))),
        "components/frame.toml": f"""\
name = {spelled}
about = {spelled}
pictures = {names}
standard = {spelled}
[parts.rail]
name = {spelled}
about = {spelled}
pictures = {names}
standard = {spelled}
[pieces.ribs]
name = {spelled}
count = 2
spares = 1
kind = {spelled}
material = {spelled}
size = {spelled}
place = {spelled}
period = {spelled}
condition = {spelled}
intended = {spelled}
why = {spelled}
runs_from = {spelled}
runs_to = {spelled}
serves = {spelled}
live = true
extent = "2.4 m"
finding = {spelled}
[pieces.ribs.2]
name = {spelled}
as_found = "original"
keep = true
[pieces.one]
name = {spelled}
pictures = {names}
[tasks.a]
title = {spelled}
uses = ["form"]
pieces = ["ribs"]
method = {spelled}
place = {spelled}
skills = [{spelled}]
hazards = ["odd"]
pictures = {names}
hours = [1, 2, 3]
hold = {{ kind = "glue", lasts = "2 days", note = {spelled}, source = {spelled} }}
[tasks.b]
title = {spelled}
after = ["a"]
supplies = ["oak"]
due = 2026-08-01
finding = {spelled}
changes = "strips"
hours = [1, 2, 3]
[tasks.c]
title = {spelled}
each = ["one"]
set_aside = {spelled}
[tasks.d]
title = {toml_value("d " + text)}
hazards = ["odd", "hot-work"]
hours = [1, 2, 3]
""",
        "days/2026/2026-05-02.toml": "date = 2026-05-02\n\n[entries]\n" + entries(spelled, names),
    }
    for path, content in files.items():
        (root / path).parent.mkdir(parents=True, exist_ok=True)
        (root / path).write_bytes(content.encode())
    return root


def entries(spelled: str, names: str) -> str:
    """A line of every kind, each text of it the one that was spelled."""
    lines = [
        f'kind = "sign-in", who = "ada", note = {spelled}',
        f'kind = "sign-in", who = {spelled}',
        f'kind = "expected", who = "tom", note = {spelled}',
        f'kind = "begun", task = "frame/a", crew = {names}, despite = {spelled}, note = {spelled}',
        f'kind = "hours", who = "ada", hours = 2, task = "frame/a", note = {spelled}',
        f'kind = "hours", who = {spelled}, hours = 2, task = {spelled}',
        f'kind = "hours left", task = "frame/b", hours = 4, why = {spelled}',
        f'kind = "finished", task = "frame/a", note = {spelled}',
        f'kind = "extended", hold = "eaaaaaah", lasts = "1 day", why = {spelled}',
        f'kind = "extended", hold = {spelled}, lasts = "1 day", why = {spelled}',
        f'kind = "hold", hold = "decision", component = "frame", why = {spelled}',
        f'kind = "check", hazard = "odd", check = "look", who = "ada", task = "frame/a", '
        f"applies = false, why = {spelled}",
        f'kind = "check", hazard = {spelled}, check = {spelled}, who = {spelled}',
        f'kind = "reading", celsius = 12, humidity = 60, note = {spelled}',
        f'kind = "ordered", supply = "oak", due = 2026-05-21, note = {spelled}',
        f'kind = "arrived", supply = {spelled}, note = {spelled}',
        f'kind = "set aside", task = "frame/c", why = {spelled}',
        f'kind = "note", text = {spelled}, task = "frame/b"',
        f'kind = "note", text = {spelled}, component = {spelled}',
        f'kind = "incident", what = {spelled}, place = {spelled}, injury = true, '
        f'who = ["ada"], seen_by = {names}, done = {spelled}, task = "frame/a"',
        f'kind = "released", hold = {spelled}, why = {spelled}',
        f'kind = "reopened", task = {spelled}, why = {spelled}',
        f'kind = "sign-out", who = "ada", note = {spelled}',
        f'kind = "taken back", entry = "eaaaaaae", why = {spelled}',
        f'kind = "taken back", entry = {spelled}, why = {spelled}',
        f'kind = "day closed", despite = {spelled}, note = {spelled}',
    ]
    return "".join(
        f"eaaaaaa{chr(ord('a') + number)} = {{ at = 2026-05-02T09:{number:02}:00, "
        f"by = {spelled if number % 3 else chr(34) + 'ada' + chr(34)}, {line} }}\n"
        for number, line in enumerate(lines)
    ) + "".join(
        f"faaaaa{number:02} = {{ at = 2026-05-02T10:{number:02}:00, by = {spelled}, {line} }}\n"
        for number, line in enumerate(entries_of_record(spelled, names))
    )


RECORD = [kind for kind in KINDS_OF_ENTRY.values() if "crewboard.logbook.record" in str(kind.act)]
# What a field of each kind holds where it cannot be any text; of others it is the one asked about.
_HOLDS = {
    "flag": "true", "number": "80", "moment": "2026-05-01T12:00:00", "length": '"2 m"',
    "piece": '"frame/one"', "component": '"frame"', "task": '"frame/b"',
}  # fmt: skip


def entries_of_record(spelled: str, names: str) -> list[str]:
    """Two lines of every kind of the record: what each names is there, and is nowhere."""
    return [
        f'kind = "{kind.word}", '
        + ", ".join(f"{f.name} = {_held(f, spelled, names, anywhere)}" for f in kind.fields)
        for kind in RECORD
        for anywhere in (False, True)
    ]


def _held(field: EntryField, spelled: str, names: str, anywhere: bool) -> str:
    if field.kind == "one of":
        return toml_value(next(iter(field.words)))
    if field.many:
        return names
    return spelled if anywhere and field.names else _HOLDS.get(field.kind, spelled)
