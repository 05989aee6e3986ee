"""A reckoning in words: what it asks for, its answer with sources and marks, an answer redone."""

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction

from crewboard.logbook.acts import Reckoned
from crewboard.logbook.entry import Entry
from crewboard.order.board import Board
from crewboard.order.reckoning.plan_says import PlanSays
from crewboard.order.reckoning.released import FormByNow
from crewboard.order.said import day_in_words, person, quoted_title
from crewboard.plan.hazard import Hazard
from crewboard.plan.length import shown
from crewboard.plan.units import how_many
from crewboard.telling.line import GAP, Line, title
from crewboard.trade.given import Ask, Known
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.kinds import KINDS
from crewboard.trade.reckoning import Reckoning


def kind_lines(fitting: Iterable[str] = ()) -> list[Line]:
    """All kinds in a line each, those that fit a task first."""
    first = [name for name in fitting if name in KINDS]
    rest = [name for name in KINDS if name not in first]
    lines = [Line(KINDS[name].says, "plain", 2, f"{name}:") for name in rest]
    if not first:
        return [title("What can be reckoned"), *lines]
    fits = [Line(KINDS[name].says, "safe", 2, f"{name}:") for name in first]
    return [title("What fits this task"), *fits, GAP, title("What else can be reckoned"), *lines]


def asked_lines(kind: KindOfReckoning, known: Mapping[str, Known]) -> Iterator[Line]:
    """What a kind asks for, and what stands already."""
    yield title(f"{kind.title}: what is asked")
    for asked in kind.asks:
        yield Line(asked_for(asked, known.get(asked.name)), "plain", 2, f"{asked.name}=")


def asked_for(asked: Ask, known: Known | None) -> str:
    """What is asked, and what is taken where nobody says it."""
    text = f"{asked.what} ({' or '.join(asked.words)})" if asked.words else asked.what
    if known is not None:
        return f"{text}; {known.typed}, {known.where}"
    if asked.otherwise:
        return f"{text}; otherwise {asked.otherwise}"
    return text if asked.needed else f"{text}; optional"


def answer_lines(
    kind: KindOfReckoning, answer: Reckoning, sheets: Mapping[str, Hazard], of_task: Iterable[str]
) -> Iterator[Line]:
    """Result, whether any of it is unverified, how it came, what it assumes, cautions, what the
    sheets of its hazards and of its task's say in a line, then each source with its mark."""
    yield title(kind.title)
    yield from _result(answer, (*answer.result, *answer.further), " below")
    yield from (Line(line, "faint", 0, "how:") for line in answer.how)
    yield from (Line(line, "faint", 0, "assumes:") for line in answer.assumes)
    yield from (Line(line, "caution", 0, "caution:") for line in answer.cautions)
    yield from _hazards(answer, sheets, of_task)
    yield from (Line(source.in_words, "faint", 0, "source:") for source in answer.sources)


def card_lines(
    kind: KindOfReckoning, answer: Reckoning, sheets: Mapping[str, Hazard], of_task: Iterable[str]
) -> Iterator[Line]:
    """The same in few lines: one paragraph of each sort, the first source and how many more."""
    yield title(kind.title)
    yield from _result(answer, answer.result, "")
    for lead, tone, said in (
        ("how:", "faint", answer.how),
        ("assumes:", "faint", answer.assumes),
        ("caution:", "caution", answer.cautions),
    ):
        if said:
            yield Line("; ".join(said), tone, 0, lead)
    yield from _hazards(answer, sheets, of_task)
    if answer.sources:
        first, *more = answer.sources
        also = f"; {how_many(len(more), 'more source')}" if more else ""
        yield Line(f"{first.in_words}{also}", "faint", 0, "source:")


def _result(answer: Reckoning, lines: Iterable[str], where: str) -> Iterator[Line]:
    first, *rest = lines
    yield Line(first, "strong", 2)
    yield from (Line(line, "plain", 2) for line in rest)
    if any(source.mark == "from memory" for source in answer.sources):
        yield Line(f"in part, as its sources say{where}", "caution", 0, "unverified:")


def _hazards(
    answer: Reckoning, sheets: Mapping[str, Hazard], of_task: Iterable[str]
) -> Iterator[Line]:
    for one in dict.fromkeys((*answer.hazards, *of_task)):
        if one in sheets:
            kills = sheets[one].told(sheets[one].card.kills)
            goes_first = "What its sheet says goes before this."
            text = f"{sheets[one].short}: {f'{kills} ' if kills else ''}{goes_first}"
            yield Line(text, "warning", 0, "hazard:")


def plan_lines(said: Iterable[PlanSays]) -> Iterator[Line]:
    """What the plan has to say to an answer."""
    for one in said:
        yield Line(one.says, "warning" if one.asks else "faint", 0, "the plan:")


def redone_lines(
    board: Board, before: Entry, now: Reckoning, because: Iterable[str]
) -> Iterator[Line]:
    """Both answers, and what was learned between them."""
    act = before.act
    assert isinstance(act, Reckoned)
    yield Line(f"{act.answer} ({_by(board, before)})", "plain", 0, "before:")
    first = now.result[0]
    yield Line("the same" if first == act.answer else first, "strong", 0, "now:")
    yield from (Line(reason, "faint", 0, "because:") for reason in because)


def form_by_now(board: Board, form: FormByNow) -> str:
    """ "form for "Bend the ribs: Rib 3": rise was 355 mm, now 352 mm, because ..." """
    units = board.plan.vehicle.units
    what, was = _form(form.before, units)
    what_now, now = _form(form.now, units)
    name = f"form for {quoted_title(board.plan, form.task)}"
    if was == now:
        return f"{name}: {what_now} stays {now}" if now else f"{name}: {form.now.result[0]}"
    because = "; ".join(line.replace("new: bend = ", "bent ") for line in form.because)
    return f"{name}: {what or what_now} was {was or 'not known'}, now {now or 'not known'}, " + (
        f"because {because}" if because else "as it is reckoned now"
    )


def _form(answer: Reckoning, units: str) -> tuple[str, str]:
    """By what a form is measured, and how much that is; empty where none was reckoned."""
    for name, what in (("form_rise_mm", "rise"), ("form_radius_mm", "radius")):
        mm = answer.figures.get(name)
        if isinstance(mm, Fraction):
            return what, shown(mm, units)
    return "", ""


def kept_line(board: Board, entry: Entry) -> Line:
    """An answer as a task's sheet shows it."""
    act = entry.act
    assert isinstance(act, Reckoned)
    anew = ", reckoned anew" if act.before else ""
    given = f" ({'; '.join(act.given)})" if act.given else ""
    note = f"; {act.note}" if act.note else ""
    way = f"; {act.way}" if act.way else ""
    text = f"{act.answer}{given}{way}, {_by(board, entry)}{anew}{note}"
    return Line(text, "plain", 2, f"{_called(act)}:")


def _called(act: Reckoned) -> str:
    """By what people call the kind; as it is written where no kind is called so any more."""
    return act.about.replace("-", " ")


def _by(board: Board, entry: Entry) -> str:
    by = f", {person(board.plan, entry.by)}" if entry.by else ""
    return f"{day_in_words(entry.at.date())}{by}"
