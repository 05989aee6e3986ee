"""For each gate a short day on which it alone stands between the crew and something dangerous.

Each script yields what became of every step; the last is the one that the gate is there for.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import datetime

from crewboard.logbook.acts import Begun, CheckSigned, ClosedDay, Finished, SignOut
from crewboard.workbench import Outcome
from tests.safety_machine.played import Played
from tests.safety_machine.small_shop import keep, open_shop, prepare, signatures_for

Script = Callable[[Played], Iterator[Outcome]]
SCRIPTS: dict[str, Script] = {}
HERE = ("ada", "ben", "cleo", "dov", "kit")


def at(hour: int, minute: int = 0) -> datetime:
    return datetime(2026, 5, 2, hour, minute)


def script(gate: str) -> Callable[[Script], Script]:
    def kept(play: Script) -> Script:
        SCRIPTS[gate] = play
        return play

    return kept


def begin(
    played: Played,
    moment: datetime,
    task: str,
    *crew: str,
    watch: str = "",
    adult: str = "",
    but: str = "",
) -> Outcome:
    """All is signed, `but` one check; then it is begun."""
    bench = played.benches[0]
    people = tuple(filter(None, (*crew, watch)))
    prepare(bench, moment, f"{task}/do", *people, but=but)
    act = Begun(f"{task}/do", crew, watch=tuple(filter(None, (watch,))), adult=adult)
    return keep(bench, moment, act)


def opened(played: Played, *who: str) -> None:
    open_shop(played.benches[0], at(9), *(who or HERE))


def ended(played: Played, moment: datetime, task: str) -> Outcome:
    """The first check after the work: it has ended, and its clock begins."""
    bench = played.benches[0]
    line = signatures_for(bench, moment, f"{task}/do", (), "after")[0]
    return keep(bench, moment, line)


@script("_not_used")
def what_no_crew_uses(played: Played) -> Iterator[Outcome]:
    opened(played)
    played.shop.hazards = '[manual-handling]\ndo_not_use = "The carriers carry it."\n'
    played.shop.write()
    yield begin(played, at(10), "carry", "ada", "ben")


@script("_closed")
def day_closed(played: Played) -> Iterator[Outcome]:
    opened(played)
    prepare(played.benches[0], at(10), "carry/do", "ada", "ben")
    closing = ClosedDay(despite="all go to the fair")
    yield keep(played.benches[0], at(11), closing, despite="all go to the fair")
    yield keep(played.benches[0], at(11, 30), Begun("carry/do", ("ada", "ben")))


@script("_never_begun")
def finished_without(played: Played) -> Iterator[Outcome]:
    opened(played)
    yield keep(played.benches[0], at(10), Finished("grind/do", crew=("ada",), began=at(9, 30)))
    yield begin(played, at(12), "carry", "ada", "ben")


@script("_together")
def two_dangers_of_one_task(played: Played) -> Iterator[Outcome]:
    opened(played)
    played.shop.tasks["weld"] = (["hot-work", "solvent-strippers"], "bay")
    played.shop.write()
    yield begin(played, at(10), "weld", "ada", "cleo", watch="ben")


@script("_near")
def stripping_beside_sparks(played: Played) -> Iterator[Outcome]:
    opened(played)
    yield begin(played, at(10), "grind", "ada", watch="ben")
    yield begin(played, at(10, 30), "strip", "cleo", "dov")


@script("_place_closed")
def into_a_closed_place(played: Played) -> Iterator[Outcome]:
    opened(played)
    yield begin(played, at(10), "scrape", "ada", "ben")
    yield begin(played, at(10, 30), "carry", "cleo", "dov")


@script("_place_taken")
def closing_a_place_in_use(played: Played) -> Iterator[Outcome]:
    opened(played)
    yield begin(played, at(10), "carry", "cleo", "dov")
    yield begin(played, at(10, 30), "scrape", "ada", "ben")


@script("_too_early")
def sparks_in_the_airing_time(played: Played) -> Iterator[Outcome]:
    opened(played)
    yield begin(played, at(10), "strip", "cleo", "dov")
    yield ended(played, at(10, 30), "strip")
    yield begin(played, at(11), "grind", "ada", watch="ben")


@script("_too_late")
def no_time_for_the_watch(played: Played) -> Iterator[Outcome]:
    opened(played)
    yield begin(played, at(15, 10), "weld", "ada", watch="ben")


@script("ends_late")
def longer_than_the_day(played: Played) -> Iterator[Outcome]:
    played.shop.hours["weld"] = 6.0
    played.shop.write()
    opened(played)
    yield begin(played, at(12), "weld", "ada", watch="ben")


@script("unsigned")
def one_check_unsigned(played: Played) -> Iterator[Outcome]:
    opened(played)
    yield begin(played, at(10), "weld", "ada", watch="ben", but="extinguisher")


@script("not_opened")
def shop_not_opened(played: Played) -> Iterator[Outcome]:
    opened(played)
    for line in list(played.benches[0].logbook.days[at(9).date()].counting):
        if isinstance(line.act, CheckSigned) and line.act.check == "ways-out":
            yield played.benches[0].take_back(line.id, by="ada", now=at(9, 30), why="not looked")
    yield begin(played, at(10), "carry", "ada", "ben")


@script("too_young")
def a_child_at_the_torch(played: Played) -> Iterator[Outcome]:
    opened(played)
    yield begin(played, at(10), "weld", "ada", "cleo", "kit", watch="ben", adult="ada")


@script("of_unknown_age")
def nobody_said_how_old(played: Played) -> Iterator[Outcome]:
    opened(played, *HERE, "eli")
    yield begin(played, at(10), "carry", "ada", "ben", "eli")


@script("without_certificate")
def no_paper(played: Played) -> Iterator[Outcome]:
    opened(played)
    yield begin(played, at(10), "weld", "dov", watch="cleo")


@script("not_here")
def not_signed_in(played: Played) -> Iterator[Outcome]:
    opened(played, "ada", "ben", "cleo")
    yield begin(played, at(10), "carry", "ada", "ben", "dov")


@script("left_by")
def the_watcher_called_away(played: Played) -> Iterator[Outcome]:
    opened(played)
    yield begin(played, at(10), "weld", "ada", watch="ben")
    yield begin(played, at(10, 30), "carry", "ben", "cleo")


@script("_too_few")
def one_for_two(played: Played) -> Iterator[Outcome]:
    opened(played)
    yield begin(played, at(10), "carry", "ada")


@script("_nobody_watches")
def both_at_the_torch(played: Played) -> Iterator[Outcome]:
    opened(played)
    yield begin(played, at(10), "weld", "ada", "ben")


@script("_no_adult_beside")
def no_adult_named(played: Played) -> Iterator[Outcome]:
    opened(played)
    yield begin(played, at(10), "carry", "ada", "ben", "kit")


def _welded(played: Played) -> Iterator[Outcome]:
    opened(played)
    yield begin(played, at(14), "weld", "ada", watch="ben")
    yield ended(played, at(14, 40), "weld")


@script("close_refusals")
def closed_inside_the_watch(played: Played) -> Iterator[Outcome]:
    yield from _welded(played)
    yield keep(played.benches[0], at(15), ClosedDay(), by="ben", despite="we are all tired")


@script("_who_stays")
def nobody_stays(played: Played) -> Iterator[Outcome]:
    yield from _welded(played)
    closing = ClosedDay(despite="we are all tired")
    yield keep(played.benches[0], at(15), closing, despite="we are all tired")


@script("leave_refusals")
def gone_before_the_end(played: Played) -> Iterator[Outcome]:
    yield from _welded(played)
    closing = ClosedDay(despite="we are all tired", stays="ben")
    yield keep(played.benches[0], at(15), closing, despite="we are all tired")
    yield keep(played.benches[0], at(15, 10), SignOut("ben"), by="ben")


@script("unnamed")
def a_danger_that_nobody_named(played: Played) -> Iterator[Outcome]:
    played.shop.tasks["weld"] = ([], "bay")
    played.shop.write()
    opened(played)
    yield begin(played, at(10), "weld", "ada", "ben")


@script("undermined")
def a_signature_taken_from_under_the_work(played: Played) -> Iterator[Outcome]:
    opened(played)
    bench = played.benches[0]
    yield begin(played, at(10), "weld", "ada", watch="ben")
    lines = bench.logbook.days[at(10).date()].counting
    signed = [e.id for e in lines if getattr(e.act, "check", "") == "extinguisher"]
    yield bench.take_back(signed[0], by="cleo", now=at(10, 30), why="I only thought so")


@script("may_answer_for")
def signed_by_nobody_who_may(played: Played) -> Iterator[Outcome]:
    opened(played)
    bench = played.benches[0]
    prepare(bench, at(10), "strip/do", "cleo", "ben", but="no-methylene-chloride")
    line = CheckSigned("solvent-strippers", "no-methylene-chloride", "cleo", "strip/do")
    keep(bench, at(10), line)
    yield keep(bench, at(10), Begun("strip/do", ("cleo", "ben")))


@script("signed_for_themselves")
def shown_to_oneself(played: Played) -> Iterator[Outcome]:
    opened(played)
    bench = played.benches[0]
    prepare(bench, at(10), "plane/do", "ada", "ben", but="shown")
    for who in ("ada", "ben"):
        shown = CheckSigned("woodworking-machines", "shown", "ada", "plane/do", concerns=who)
        keep(bench, at(10), shown)
    yield keep(bench, at(10), Begun("plane/do", ("ada", "ben")))


@script("is_waived")
def waived_though_it_always_applies(played: Played) -> Iterator[Outcome]:
    opened(played)
    bench = played.benches[0]
    prepare(bench, at(10), "weld/do", "ada", "ben", but="extinguisher")
    why = "there is nothing here that burns"
    keep(bench, at(10), CheckSigned("hot-work", "extinguisher", "dov", "weld/do", False, why))
    yield keep(bench, at(10), Begun("weld/do", ("ada",), watch=("ben",)))
