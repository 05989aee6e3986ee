"""Why something is refused, and how to mend it."""

from datetime import date
from typing import NamedTuple

from crewboard.plan.volunteer import Volunteer


class Refusal(NamedTuple):
    """Why an act is refused. `yields` means: a named person's recorded reason overrules it; with
    `lead`, only that of a lead who is of age does; those of `not_by` cannot overrule it themselves.

    `steps` are those of a loop in the order of work.
    """

    code: str
    says: str
    mend: str = ""
    yields: bool = False
    steps: tuple[str, ...] = ()
    lead: bool = False
    not_by: tuple[str, ...] = ()

    def overruled_by(self, volunteer: Volunteer | None, day: date) -> bool:
        """Whether this member of the crew may overrule it on that day by giving the reason."""
        if not self.yields or volunteer is None or volunteer.id in self.not_by:
            return False
        return not self.lead or volunteer.leads_on(day)

    def __str__(self) -> str:
        sentence = f"{self.says}: {', then '.join(self.steps)}" if self.steps else self.says
        return f"{sentence}; {self.mend}" if self.mend else sentence
