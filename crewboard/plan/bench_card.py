"""The bench card of a hazard sheet: what is read in half a minute before the work."""

from collections.abc import Callable, Iterator, Mapping
from typing import NamedTuple

from crewboard.plan.vehicle import WRITTEN_FOR

# Words on a card, its name and headings counted: what is read aloud in some thirty seconds, at
# 200 words a minute (common practice of speakers, no source).
MOST_WORDS = 100
KILLS, WEAR, CHECK, WRONG = "What kills or maims", "Wear", "Check", "If it goes wrong"
LOOK_UP, DO_NOT = "Look up where you are", "Do not use"


class BenchCard(NamedTuple):
    """What stands on the card; each text may hold `{number-id}` of the sheet."""

    kills: str = ""
    wear: tuple[str, ...] = ()
    check: tuple[str, ...] = ()
    wrong: tuple[str, ...] = ()  # first things first
    look_up: tuple[str, ...] = ()  # what the crew's own place must look up itself
    law: Mapping[str, str] = {}  # the law in a few words, by jurisdiction: only the crew's is shown

    def __bool__(self) -> bool:
        return bool(self.kills)

    def chapters(self, here: str, do_not_use: str = "") -> Iterator[tuple[str, tuple[str, ...]]]:
        """Each heading of the card with what stands under it, as it is read; none is empty.

        `here` is the reader's jurisdiction, `do_not_use` what the sheet says instead of a use.
        """
        law = self.law.get(here, "")
        unwritten = "" if law or here in ("", *WRITTEN_FOR) else f"{here}'s law"
        chapters = (
            (DO_NOT, (do_not_use,)),
            (KILLS, (self.kills,)),
            (WEAR, self.wear),
            (CHECK, self.check),
            (WRONG, self.wrong),
            (f"Law, {here}", (law,)),
            (LOOK_UP, (unwritten, *self.look_up)),
        )
        for heading, texts in chapters:
            said = tuple(filter(None, texts))
            if said:
                yield heading, said

    def texts(self) -> Iterator[str]:
        """Every text of it."""
        yield from filter(None, (self.kills, *self.wear, *self.check, *self.wrong, *self.look_up))
        yield from self.law.values()

    def words(
        self, name: str, told: Callable[[str], str], here: str = "", do_not_use: str = ""
    ) -> int:
        """How many words are read on it: name, headings, texts with their figures."""
        chapters = self.chapters(here, do_not_use)
        said = [name, *(text for heading, texts in chapters for text in (heading, *texts))]
        return sum(len(told(text).split()) for text in said)
