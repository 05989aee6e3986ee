"""The vehicle as a whole, its shop and the days on which the crew meets."""

from collections.abc import Mapping
from datetime import datetime, time
from typing import NamedTuple

from crewboard.plan.duration import Duration
from crewboard.plan.hold import Conditions
from crewboard.plan.workdays import WorkDays

# The format of the folder that this program writes; older ones are read, newer ones only shown.
FORMAT = 1
# What a folder that does not say its format is written in.
FIRST_FORMAT = 1
# The jurisdictions for which the hazard sheets quote law.
WRITTEN_FOR = ("US", "GB", "EU")


class LoggerColumns(NamedTuple):
    """How the columns of the data logger's files are headed; empty: not said, or not there."""

    moment: str = ""
    temperature: str = ""
    humidity: str = ""


class Break(NamedTuple):
    """A time of the day at which nobody works: lunch, tea."""

    begins: time
    ends: time
    name: str = ""


class Shop(NamedTuple):
    """The place the work is done in, and what to know there in an emergency."""

    emergency: str = ""  # whom to call
    hospital: str = ""  # the nearest with an emergency department, and its telephone
    address: str = ""  # what to tell them
    meeting_place: str = ""
    first_aid: str = ""  # where the kit is
    places: tuple[str, ...] = ()
    conditions: Conditions = Conditions()
    readings_good_for: Duration = Duration(days=7)  # how long a reading speaks for the shop
    logger: LoggerColumns = LoggerColumns()
    room: Mapping[str, int] = {}  # how many jobs at a time a place has room for, where said
    breaks: tuple[Break, ...] = ()  # in the order of the day, none over another
    small_jobs: tuple[str, ...] = ()  # what whoever is left over can do: sweep, sort screws


class Jig(NamedTuple):
    """A jig, form or stand that work and its hold occupy."""

    id: str
    name: str
    number: int = 1  # how many there are
    kept: str = ""  # where it lies when it is free


class Period(NamedTuple):
    """A time in the vehicle's life: its years in words or figures, as the crew writes them."""

    id: str
    name: str
    since: str = ""
    until: str = ""


class Vehicle(NamedTuple):
    """What `vehicle.toml` says."""

    name: str
    what: str = ""
    units: str = "metric"
    currency: str = ""
    timezone: str = ""  # a zone of the IANA database, empty for a clock that never changes
    work_days: WorkDays = WorkDays()
    shop: Shop = Shop()
    shown_at: datetime | None = None  # an example folder: the moment it is shown at
    copies_days: int = 30  # how many daily copies are kept, and for how many days at least
    format: int = FORMAT
    jigs: Mapping[str, Jig] = {}
    other_work: tuple[str, ...] = ()  # kinds of work beside the tasks: driving, meetings
    periods: Mapping[str, Period] = {}
    shows: str = ""  # the id of the period that the restoration shows
    standard: str = ""  # the standard of finish that was agreed on
    jurisdiction: str = ""  # whose law is shown first: one of WRITTEN_FOR, or any other
    shares_crew_with: tuple[str, ...] = ()  # folders of other vehicles that the same people work on

    def time_in_words(self, period: str) -> str:
        """The name of a period where it is one of the vehicle's, else what was written."""
        known = self.periods.get(period)
        return known.name if known else period
