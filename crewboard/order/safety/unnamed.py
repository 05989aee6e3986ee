"""Hazards that nobody named: words of a task's title and method that point to a sheet which the
task does not name. A lead answers: the hazard is added, or "none" is signed with the reason.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from typing import NamedTuple

from crewboard.logbook.acts import HazardRuledOut
from crewboard.order.admit.refusal import Refusal
from crewboard.order.board import Board
from crewboard.order.safety.reason import MEND, is_a_reason
from crewboard.order.safety.waiving import may_waive
from crewboard.order.said import listed, person, quoted_title
from crewboard.plan.hazard import Hazard
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task

_PART = re.compile(r"([^\W_]+)(-?)")
_ENDINGS = ("", "s", "es", "d", "ed", "ing", "er", "ers")
_VOWELS = "aeiou"


class Unnamed(NamedTuple):
    """A word of a task that points to hazards of which the task names none."""

    task: str
    word: str
    hazards: tuple[str, ...]


class _Part(NamedTuple):
    """A word of a text. `joined`: the next one is joined to it by a hyphen, and is its head."""

    text: str
    joined: bool


def unnamed_hazards(plan: Plan, task: Task) -> list[Unnamed]:
    """What the words of the task's title and method ask, whoever has answered it or not."""
    asked: dict[str, list[str]] = {}
    for text in (task.title, task.method):
        words = _Words(text)
        for sheet in _telling_sheets(plan.sheets):
            for word in _words_in(words, sheet):
                asked.setdefault(word, []).append(sheet.id)
    return [
        Unnamed(task.id, word, tuple(dict.fromkeys(sheets)))
        for word, sheets in asked.items()
        if not set(sheets) & set(task.hazards)
    ]


def unanswered(board: Board, tasks: Iterable[Task] | None = None) -> Iterator[Unnamed]:
    """The questions that no lead has answered; of all tasks that are to be done, or of these."""
    answered = _answered(board)
    for task in board.plan.tasks.values() if tasks is None else tasks:
        if not board[task.id].work_done:
            for question in unnamed_hazards(board.plan, task):
                if (task.series or task.id, question.word) not in answered:
                    yield question


def _answered(board: Board) -> set[tuple[str, str]]:
    """What leads have signed: there is no such hazard behind this word in this task."""
    plan, answered = board.plan, set()
    for entry in board.logbook.counting():
        act = entry.act
        if not isinstance(act, HazardRuledOut) or entry.at > board.at:
            continue
        if is_a_reason(act.why) and may_waive(plan.crew.get(act.who), entry.at.date()):
            known = plan.tasks.get(act.task)
            name = known.series or known.id if known else act.task
            answered.add((name, act.word.lower()))
    return answered


def question_in_words(plan: Plan, question: Unnamed) -> str:
    """'"Weld the bracket" says "weld", and names no hazard such as hot work'."""
    shorts = [plan.sheets[hazard].short for hazard in question.hazards]
    names = listed(f'"{short}"' for short in shorts) if len(shorts) > 1 else shorts[0]
    title = quoted_title(plan, question.task)
    return f'{title} says "{question.word}", and names no hazard such as {names}'


ANSWER = "name the hazard in the plan, or a lead signs that there is none (no-hazard)"


def rule_out_refusals(board: Board, act: HazardRuledOut) -> list[Refusal]:
    """What stands against the answer "none": whose word it is, its reason, that it was asked."""
    words = [question.word for question in unnamed_hazards(board.plan, board.plan.tasks[act.task])]
    if act.word.lower() not in words:
        asked = listed(f'"{word}"' for word in words) or "nothing"
        sentence = f'the words of {quoted_title(board.plan, act.task)} ask nothing of "{act.word}"'
        return [Refusal("no-question", sentence, f"asked is {asked}")]
    refusals = []
    if not is_a_reason(act.why):
        refusals.append(Refusal("why", "say why there is no such hazard", MEND))
    if not may_waive(board.plan.crew.get(act.who), board.at.date()):
        name = person(board.plan, act.who)
        sentence = f"that there is no such hazard is signed by a lead who is of age, not by {name}"
        refusals.append(Refusal("lead", sentence, "ask a lead"))
    return refusals


# --- words ---------------------------------------------------------------------------------------


def _telling_sheets(sheets: Mapping[str, Hazard]) -> tuple[Hazard, ...]:
    return tuple(sheet for sheet in sheets.values() if sheet.words)


def _parts(text: str) -> list[_Part]:
    return [_Part(word, bool(hyphen)) for word, hyphen in _PART.findall(text.casefold())]


@lru_cache(maxsize=1024)
def _wanted(phrase: str) -> tuple[str, ...]:
    return tuple(part.text for part in _parts(phrase))


class _Words:
    """The words of a text, and where each begins: looked up, since a text may be as long as a book
    and the sheets have hundreds of phrases."""

    def __init__(self, text: str) -> None:
        self.parts = _parts(text)
        self.places: dict[str, list[int]] = {}
        for place, part in enumerate(self.parts):
            self.places.setdefault(part.text, []).append(place)

    def begin(self, word: str, beginning: bool) -> Iterator[int]:
        """Where a word is a form of this one."""
        among = self.places if beginning else _forms(word) & self.places.keys()
        for text in among:
            if _is_form(text, word, beginning):
                yield from self.places[text]


def _words_in(words: _Words, sheet: Hazard) -> Iterator[str]:
    """The words of the sheet that stand in the text and mean what the sheet means."""
    meaning_else = {
        place
        for phrase in sheet.words_not
        for start in _places(words, phrase, whole=False)
        for place in range(start, start + len(_wanted(phrase)))
    }
    for word in sheet.words:
        if any(place not in meaning_else for place in _places(words, word, whole=True)):
            yield word.lower()


def _places(words: _Words, phrase: str, *, whole: bool) -> Iterator[int]:
    """Where the phrase begins. Of words joined by hyphens the last is the head ("bead-blasting" is
    blasting, "lift-out" no lifting): with `whole` one that leads on to another is not meant."""
    wanted = _wanted(phrase)
    beginning = phrase.endswith("-")
    for start in words.begin(wanted[0], beginning) if wanted else ():
        there = words.parts[start : start + len(wanted)]
        if len(there) < len(wanted) or (whole and there[-1].joined and not beginning):
            continue
        pairs = zip(there, wanted, strict=True)
        if all(_is_form(part.text, word, beginning) for part, word in pairs):
            yield start


def _is_form(text: str, word: str, beginning: bool) -> bool:
    if text == word or (beginning and text.startswith(word)):
        return True
    return text.startswith(word[:-1]) and text in _forms(word)


@lru_cache(maxsize=1024)
def _forms(word: str) -> frozenset[str]:
    """The forms of an English word: "strips", "stripped", "stripping", "batteries"."""
    if not word.isalpha() or len(word) < 3:
        return frozenset((word,))
    stems = {word}
    dropped = {word[:-1] + ending for ending in _ENDINGS if ending[:1] in _VOWELS and ending}
    if word[-1] not in _VOWELS and word[-2] in _VOWELS and word[-1] not in "wxy":
        stems.add(word + word[-1])
    forms = {stem + ending for stem in stems for ending in _ENDINGS}
    if word.endswith("e"):
        forms |= dropped - {word[:-1] + "es"}
    if word.endswith("y") and word[-2] not in _VOWELS:
        forms |= {f"{word[:-1]}ies", f"{word[:-1]}ied"}
    return frozenset(forms)
