"""What is to be asked about the crew list: ages that nobody said, papers that nobody looked at."""

from collections.abc import Iterator

from crewboard.folder.read.fault import KeyPath, Remark
from crewboard.folder.read.files import CREW
from crewboard.order.board import Board
from crewboard.order.may.needs import looked_at_until
from crewboard.order.may.people import ages_unsaid
from crewboard.order.said import day_in_words


def papers_to_see(board: Board) -> Iterator[Remark]:
    """Certificates without an end that nobody looked at for a year."""
    day = board.at.date()
    for volunteer in board.plan.crew.values():
        for paper in volunteer.certificates if volunteer.with_us_on(day) else ():
            until = looked_at_until(paper)
            if paper.until is not None or (until is not None and day <= until):
                continue
            last = f"since {day_in_words(until)}" if until else "yet, and has no date"
            sentence = f'{volunteer.name}\'s certificate "{paper.kind}" was not looked at {last}'
            path = ("people", volunteer.id, "certificates", paper.kind)
            yield _question(path, "paper", sentence, "look at it, then: crewboard seen")


def ages(board: Board) -> Iterator[Remark]:
    """Ages that nobody said, and dates of birth that need not be kept."""
    day = board.at.date()
    for volunteer in board.plan.crew.values():
        path, of_age = ("people", volunteer.id), volunteer.eighteen_on
        if of_age is not None and of_age <= day:
            sentence = f"{volunteer.name} is 18 or older, and the date of birth is kept"
            hint = "it is kept of under-18s only: write adult = true in its place"
            yield _question(path, "age", sentence, hint)
        elif of_age is not None and volunteer.adult:
            sentence = f"{volunteer.name} is called an adult, and comes of age only later"
            yield _question(path, "age", sentence, "mend the one that is wrong")
    dangerous = any(task.hazards for task in board.plan.tasks.values())
    crew = [v.id for v in board.plan.crew.values() if v.with_us_on(day)]
    for who in ages_unsaid(board, crew) if dangerous else ():  # elsewhere nobody needs to know
        sentence = f"nobody has said whether {board.plan.crew[who].name} is 18 or older"
        hint = "write adult = true, or false: till then they do nothing dangerous"
        yield _question(("people", who), "age", sentence, hint)


def _question(path: KeyPath, code: str, sentence: str, hint: str) -> Remark:
    return Remark(CREW, path, code, sentence, hint, rests_on=(CREW,))
