"""The form of a person, and the certificates they hold."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from crewboard.folder.edit.as_written import written_table
from crewboard.folder.edit.plan_edits import Add, Change, Key, PlanEdit, Remove, Rename
from crewboard.folder.read.files import id_from
from crewboard.order.admit.refusal import Refusal
from crewboard.plan.volunteer import Certificate, Volunteer
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.forms.fields import Field, FieldLine, Typed, YesNo
from crewboard.terminal.forms.form import Form
from crewboard.terminal.forms.picked import OneOf, SomeOf
from crewboard.terminal.forms.reading import A_DAY, Wrong, day, needed, typed_day
from crewboard.terminal.planning import choices
from crewboard.terminal.planning.written import (
    NAME,
    change_here,
    changed_meanwhile,
    take_out_here,
)

FOR_GOOD = "for good"
_OLDER_KEYS = ("under_18", "eighteen_on")


async def add_person(app: BoardApp) -> str:
    """The new person's id, empty where it was left."""
    return await _ask(app, None)


async def edit_person(app: BoardApp, who: str) -> str:
    """The person's id afterwards, empty where it was left."""
    volunteer = app.board.plan.crew.get(who)
    if volunteer is None:
        app.tell(f'"{who}" is not in crew.toml: a adds a person', warning=True)
        return ""
    return await _ask(app, volunteer)


async def renew(app: BoardApp, who: str) -> None:
    """Add a certificate, or give one a new last day."""
    volunteer = app.board.plan.crew.get(who)
    if volunteer is None:
        return
    board = app.board
    fields: list[Field] = [
        _NewOrKnown("kind", "certificate", "", lambda: choices.certificate_choices(board)),
        Typed("until", "good until", "", _last_day, f"2027-01-31, or {FOR_GOOD}"),
        Typed("note", "note", ""),
    ]

    def keep(answers: Mapping[Key, Any]) -> Sequence[Refusal]:
        kind = answers.get("kind", "")
        if not kind or "until" not in answers:
            return [Refusal("empty", f"say which certificate, and until when (or {FOR_GOOD})")]
        until = None if answers["until"] is True else answers["until"]
        seen = board.at.date() if until is None else None  # it is asked for again in a year
        edit = Change(
            "person",
            who,
            {("certificates", kind): Certificate(kind, until, None, answers.get("note", ""), seen)},
        )
        return change_here(app, [edit], f"the certificates of {volunteer.name}")

    if await app.push_screen_wait(Form(f"Certificate: {volunteer.name}", fields, keep, whole=True)):
        app.tell("saved in crew.toml")


async def remove_person(app: BoardApp, who: str) -> None:
    """Take out somebody whom the logbook does not name; the others have a day they left."""
    name = app.board.plan.crew[who].name if who in app.board.plan.crew else who
    edit, lines = Remove("person", who), [f"{name} is removed from crew.toml."]
    await take_out_here(app, edit, lines, f"removing {name}")


async def _ask(app: BoardApp, person: Volunteer | None) -> str:
    kept_as = [person.id if person else ""]
    folder = app.workbench.folder
    shown = written_table(folder, "person", person.id) if person else {}

    def keep(answers: Mapping[Key, Any]) -> Sequence[Refusal]:
        values = dict(answers)
        short = values.pop(NAME, None)
        if person is None and "adult" not in values:
            return [Refusal("age", "say whether they are 18 or older", "yes or no: Enter turns it")]
        if "adult" in values and person is not None:  # older folders said it in other words
            values.update({key: None for key in _OLDER_KEYS if key in shown})
        if values.get("adult") is True and ("born" in shown or "born" in values):
            values["born"] = None
        edits: list[PlanEdit] = []
        if person is None:
            first = str(values["name"]).split()[0]
            kept_as[0] = short or id_from(first, app.board.plan.crew)
            edits.append(Add("person", kept_as[0], values))
        else:
            if new := changed_meanwhile(folder, "person", person.id, shown, values):
                return new
            if values:
                edits.append(Change("person", person.id, values))
            if short and short != person.id:
                edits.append(Rename("person", person.id, short))
                kept_as[0] = short
        return change_here(app, edits, "the crew list")

    title = f"Edit: {person.name}" if person else "A new person"
    form = Form(title, _fields(app, person), keep, whole=person is None)
    if not await app.push_screen_wait(form):
        return ""
    app.tell("saved in crew.toml")
    return kept_as[0]


def _fields(app: BoardApp, person: Volunteer | None) -> list[Field | str]:
    board = app.board
    who = person.id if person else ""
    born = typed_day(written_table(app.workbench.folder, "person", who).get("born")) if who else ""
    papers: list[Field | str] = [*map(_paper, person.certificates)] if person else []
    return [
        Typed("name", "name", person.name if person else "", needed),
        SomeOf(
            "skills",
            "skills",
            person.skills if person else (),
            lambda: choices.skill_choices(board),
            new="another skill",
        ),
        YesNo("lead", "lead", bool(person and person.lead)),
        _OfAge("adult", "18 or older", person.adult if person else None),
        Typed("born", "born, if under 18", born, day, "2009-03-04"),
        OneOf(
            "needs_beside",
            "works only with",
            person.needs_beside if person else "",
            lambda: choices.beside_choices(board, who),
        ),
        Typed("joined", "joined on", typed_day(person and person.joined), day, A_DAY),
        Typed("left", "last day with the crew", typed_day(person and person.left), day, A_DAY),
        SomeOf(
            "was_guest",
            "came as a guest",
            person.was_guest if person else (),
            lambda: choices.guest_choices(board),
        ),
        Typed("note", "note", person.note if person else ""),
        Typed(NAME, "short name", who, hint="made from the first name"),
        *(["Certificates, each with its last good day", *papers] if papers else []),
    ]


class _OfAge(YesNo):
    """Yes, no, or that nobody has said it: Delete leaves it unsaid."""

    def shown(self) -> str:
        return {True: "yes", False: "no", None: "no answer"}[self.now]

    async def change(self, line: FieldLine) -> None:  # noqa: ARG002
        self.now = not self.now

    def clear(self, line: FieldLine) -> None:  # noqa: ARG002
        self.now = None

    def answer(self) -> bool | None:
        answer: bool | None = self.now
        return answer


def _paper(certificate: Certificate) -> Field:
    inline = certificate.since is not None or certificate.seen is not None or certificate.note
    key: Key = ("certificates", certificate.kind)
    if inline:
        key = (*key, "until")
    until = certificate.until.isoformat() if certificate.until else FOR_GOOD
    if inline and certificate.until is None:
        until = ""
    hint = "empty removes it" if not inline else "empty: does not lapse"
    return Typed(key, certificate.kind, until, day if inline else _last_day_or_none, hint)


def _last_day(typed: str) -> date | bool:
    last = _last_day_or_none(typed)
    if last is None:
        raise Wrong(f"write the last day it is good for, such as 2027-01-31, or {FOR_GOOD}")
    return last


def _last_day_or_none(typed: str) -> date | bool | None:
    return True if typed.strip().lower() == FOR_GOOD else day(typed)


class _NewOrKnown(SomeOf):
    """One kind of certificate: known, or a new word."""

    def __init__(self, key: Key, label: str, value: str, known: Any) -> None:
        super().__init__(key, label, (value,) if value else (), known, new="another certificate")

    def answer(self) -> Any:
        return self.now[-1] if self.now else None
