"""Why something is refused, and how to mend it."""

from typing import NamedTuple


class Refusal(NamedTuple):
    """Why an act is refused. `yields` means: a named person's recorded reason overrules it."""

    code: str
    says: str
    mend: str = ""
    yields: bool = False

    def __str__(self) -> str:
        return f"{self.says}; {self.mend}" if self.mend else self.says
