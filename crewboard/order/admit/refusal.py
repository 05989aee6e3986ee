"""Why something is refused, and how to mend it."""

from typing import NamedTuple


class Refusal(NamedTuple):
    """Why an act is refused. `yields` means: a named person's recorded reason overrules it.

    `steps` are those of a loop in the order of work.
    """

    code: str
    says: str
    mend: str = ""
    yields: bool = False
    steps: tuple[str, ...] = ()

    def __str__(self) -> str:
        sentence = f"{self.says}: {', then '.join(self.steps)}" if self.steps else self.says
        return f"{sentence}; {self.mend}" if self.mend else sentence
