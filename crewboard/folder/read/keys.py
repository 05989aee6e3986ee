"""Every key of the plan's files: how its value is written, and what it says, in a line each.

The one table that `crewboard plan-keys` prints and that the files `crewboard new` writes are made
of. A test holds it against what the readers beside it accept. NAME is a short name of the crew's
own choice; keys under a key stand within the { } of its value.
"""

from __future__ import annotations

from typing import NamedTuple, get_args

from crewboard.plan.hold import KINDS
from crewboard.plan.piece import AsFound
from crewboard.plan.task import Changes, Faces


class PlanKey(NamedTuple):
    """`key` with the tables that lead to it; `value` an example, as TOML; `says` for a person."""

    key: str
    value: str
    says: str


_CONDITIONS = (
    ("at_least_c", "10", "no colder than this, in °C"),
    ("at_most_c", "30", "no warmer than this, in °C"),
    ("at_least_humidity", "30", "no drier than this, in % relative humidity"),
    ("at_most_humidity", "85", "no damper than this, in % relative humidity"),
)


def _keys(*rows: tuple[str, str, str], under: str = "") -> tuple[PlanKey, ...]:
    return tuple(PlanKey(f"{under}{key}", value, says) for key, value, says in rows)


VEHICLE_KEYS = (
    *_keys(
        ("format", "1", "the form of the folder's files; written by the program"),
        ("name", '"Our bus"', "what the vehicle is called"),
        ("what", '"a bus with a wooden body"', "what it is, in a few words"),
        ("units", '"metric"', 'how measures are shown: "metric" or "imperial"'),
        ("jurisdiction", '"EU"', 'whose law is shown first: "US", "GB", "EU" or another'),
        ("currency", '"EUR"', "what prices are counted in"),
        ("timezone", '"CET"', "the shop's zone, for clock changes; without it there are none"),
        ("shown_at", "2026-05-02T09:00:00", "only for an example: the moment it is shown at"),
        (
            "copies_days",
            "30",
            "how many daily copies are kept, and for so many days; 0: none",
        ),
        ("shows", '"second"', "the period that the restoration shows"),
        (
            "standard",
            '"as it ran, worn but whole"',
            "the standard of finish agreed on",
        ),
        ("other_work", '["driving", "meetings"]', "kinds of work beside the tasks"),
        ("shares_crew_with", '["../other-bus"]', "another vehicle's folder with the same crew"),
    ),
    *_keys(
        ("every", '["first saturday"]', 'when the crew meets; also "wednesday", "last friday"'),
        ("opens", "09:00:00", "when the shop opens"),
        ("closes", "16:00:00", "when it closes"),
        ("also", "[2026-05-09]", "more days; { date = ..., opens = ..., closes = ... } has hours"),
        ("also.date", "2026-05-10", "the day; on a work day it opens the shop once more"),
        ("also.opens", "18:00:00", "when it opens on that day"),
        ("also.closes", "21:00:00", "when it closes on that day"),
        ("closed", "[2026-08-01]", 'days left out; { date = ..., why = "..." } gives the reason'),
        ("closed.date", "2026-08-15", "the day"),
        ("closed.why", '"the hall is let"', "why the crew does not meet"),
        ("since", "2026-01-01", "since when these rules hold"),
        (
            "holidays",
            "[{ from = 2026-12-20, until = 2027-01-06 }]",
            "weeks in which the rules do not hold",
        ),
        ("holidays.from", "2026-12-20", "the first day"),
        ("holidays.until", "2027-01-06", "the last day"),
        ("holidays.each_year", "true", "on the same dates of every year from then on"),
        ("holidays.why", '"winter break"', "why the crew does not meet"),
        under="work_days.",
    ),
    *_keys(
        ("emergency", '"the number to call"', "whom to call, and what to tell them"),
        ("hospital", '"where it is, its telephone"', "the nearest with an emergency department"),
        ("address", '"1 Shed Lane"', "where the shop is, for whoever comes to help"),
        ("meeting_place", '"the gate"', "where everybody meets after an alarm"),
        ("first_aid", '"by the door"', "where the first-aid box is"),
        ("places", '["bench", "pit", "yard"]', "where work is done"),
        (
            "readings_good_for",
            '"1 week"',
            "how long a reading is believed; then a look is due",
        ),
        ("conditions", "{ at_least_c = 10 }", "what the shop keeps to; holds may refer to it"),
        ("breaks", '["12:30-13:00 lunch"]', "when nobody works; the plan of a day keeps to it"),
        ("small_jobs", '["sweep", "sort screws"]', "what the plan of a day gives whoever is left"),
        ("logger", '{ moment = "Time" }', "the columns of the data logger's files, by their heads"),
        ("logger.moment", '"Time"', "the column with date and time"),
        ("logger.temperature", '"Temp"', "the column with the temperature"),
        ("logger.humidity", '"RH"', "the column with the relative humidity, where there is one"),
        ("room.NAME", "1", "how many jobs at a time that place has room for"),
        under="shop.",
    ),
    *_keys(
        ("periods.NAME.name", '"second body"', "a time in the vehicle's life"),
        ("periods.NAME.since", '"about 1931"', "since when"),
        ("periods.NAME.until", '"1948"', "until when"),
    ),
    *_keys(
        ("jigs.NAME.name", '"Bending form"', "a jig, form or stand that work and its hold occupy"),
        ("jigs.NAME.count", "2", "how many of it there are"),
        ("jigs.NAME.kept", '"the loft"', "where it lies"),
    ),
    *_keys(*_CONDITIONS, under="shop.conditions."),
)

CREW_KEYS = _keys(
    ("name", '"Ada Holt"', "the person's name"),
    ("lead", "true", "leads the crew: may sign what a lead has to sign"),
    ("skills", '["joinery"]', "what they can do; tasks ask for skills by these words"),
    ("certificates", '{ "hot work" = 2027-01-31 }', "the last day each is good for, or true"),
    ("certificates.NAME.until", "2027-01-31", "the last day it is good for"),
    ("certificates.NAME.since", "2024-02-01", "since when"),
    ("certificates.NAME.seen", "2026-05-02", "when somebody last looked at it"),
    ("certificates.NAME.note", '"card seen"', "anything to remember"),
    ("adult", "true", "is 18 or older; false for an under-18"),
    ("born", "2009-03-04", "the date of birth, of under-18s only"),
    ("under_18", "true", "as older folders say it: is under 18"),
    ("eighteen_on", "2027-03-04", "as older folders say it: the day they come of age"),
    ("joined", "2026-05-02", "since when they are of the crew"),
    ("left", "2026-12-31", "until when they were"),
    ("needs_beside", '"ada"', "works only with this person beside them"),
    ("learning", '["joinery"]', "skills to learn; the plan puts them beside who has these"),
    (
        "was_guest",
        '["Ines Bratt"]',
        "names they bore as a guest: those hours are theirs",
    ),
    (
        "away",
        "[{ from = 2026-07-01, until = 2026-08-31 }]",
        "weeks in which they do not come",
    ),
    ("away.from", "2026-07-01", "the first day"),
    ("away.until", "2026-08-31", "the last day"),
    ("away.each_year", "true", "on the same dates of every year from then on"),
    ("away.why", '"harvest"', "why"),
    ("note", '"rings before coming"', "anything to remember"),
    under="people.NAME.",
)

SUPPLY_KEYS = _keys(
    ("name", '"Oak boards"', "what it is"),
    ("quantity", '"12 boards"', "how much is needed in all; what begins with a number is counted"),
    ("unit", '"boards"', "the unit, where quantity is a bare number"),
    ("lead_time", '"6 weeks"', "how long it takes to come once it is ordered"),
    ("ordered", "2026-04-01", "the day it was ordered"),
    ("due", "2026-05-20", "the day it is promised for"),
    ("arrived", "2026-05-18", "the day it came"),
    ("in_stock", "true", "it was there all along"),
    ("price", "480", "what it costs, in the vehicle's currency"),
    ("source", '"the mill"', "where it comes from"),
    ("note", '"air dried"', "anything to remember"),
    under="supplies.NAME.",
)

_OF_A_PIECE = (
    ("kind", '"rib"', "what kind of piece it is"),
    ("material", '"ash"', "what it is made of"),
    ("size", '"38 x 32 x 2400 mm"', "how large it is"),
    ("place", '"fourth from the front"', "where on the vehicle it sits"),
    ("as_found", '"original"', f"how it was found: {', '.join(get_args(AsFound))}"),
    ("period", '"about 1930"', "of which time it is"),
    ("condition", '"split at the foot"', "in what state it was found"),
    ("intended", '"splice"', "what is to be done with it"),
    ("why", '"the foot is rotten"', "and why"),
    ("keep", "true", "kept for ever as it is"),
    ("runs_from", '"switchboard"', "where a wire or pipe comes from"),
    ("runs_to", '"tail lamp"', "where it goes to"),
    ("serves", '"tail lamp"', "what it is for"),
    ("live", "false", "whether it carries anything"),
    ("pictures", '["pictures/rib-3.jpg"]', "their paths in the folder"),
    ("extent", '"2.4 m"', "its length, area (m2) or volume (m3), for how much is original"),
    ("finding", '"k7f3q2mh"', "the entry of the finding for which it is kept or intended"),
)

COMPONENT_KEYS = (
    *_keys(
        ("name", '"Deck"', "what the component is called"),
        ("after", '["frame"]', "components and tasks that all come first"),
        ("about", '"oak on pine bearers"', "what there is to know of it"),
        ("pictures", '["pictures/deck.jpg"]', "their paths in the folder"),
        ("standard", '"oiled, not varnished"', "the standard of finish agreed on for it"),
    ),
    *_keys(
        ("name", '"Boards"', "what the part is called"),
        ("part_of", '"floor"', "the part it belongs to; otherwise the component"),
        ("after", '["frame/prime"]', "what comes before all of its tasks"),
        ("about", '"milled from one tree"', "what there is to know of it"),
        ("pictures", '["pictures/boards.jpg"]', "their paths in the folder"),
        ("standard", '"oiled, not varnished"', "the standard of finish agreed on for it"),
        under="parts.NAME.",
    ),
    *_keys(
        ("title", '"Lay the boards"', "what is done"),
        ("part", '"boards"', "the part it belongs to; otherwise the component"),
        ("method", '"From the middle out."', "how it is done"),
        ("after", '["prime"]', "tasks and components that come first"),
        ("during", '["glue"]', "tasks that come first, but whose hold need not be over"),
        ("hours", "[4, 6, 12]", "person-hours: low, likely, high"),
        ("people", "[1, 3]", "the least and the most people for it"),
        ("skills", '["joinery"]', "what somebody among them must be able to do"),
        ("hazards", '["power-saws"]', "its hazard sheets; crewboard hazards DIR lists them"),
        ("supplies", '["oak-boards"]', "what must be here"),
        ("amounts", "{ oak-boards = 8 }", "how much of a supply this task needs"),
        ("place", '"bench"', "where it is done"),
        ("pictures", '["pictures/lay.jpg"]', "their paths in the folder"),
        ("conditions", "{ at_least_c = 10 }", 'what the air must be while it is done, or "shop"'),
        ("hold", '{ kind = "dry", lasts = "36 hours" }', "what starts when it is finished"),
        ("not_before", "2026-06-01", "a day before which it cannot begin"),
        ("due", "2026-09-30", "a day by which it should be finished"),
        ("finished", "2025-11-08", "it was finished before the logbook was kept"),
        ("set_aside", '"waits for a decision"', "it is put off, and why"),
        ("each", '["ribs"]', "the pieces for each of which it is done, each by itself"),
        ("spares", "true", "of a task for each: it is done to the spares too"),
        ("pieces", '["ribs/3"]', "the pieces that it is done to, all at once"),
        ("uses", '["bending-form"]', "the jigs it occupies until its hold is over"),
        ("in_one_go", "true", "it must not be left half done"),
        ("changes", '"strips"', f"what it does to old fabric: {', '.join(get_args(Changes))}"),
        ("faces", '"hidden"', f"of coats: {', '.join(get_args(Faces))}; without it its title says"),
        ("finding", '"k7f3q2mh"', "the entry of the finding that it came from"),
        ("added", "2026-05-02", "the day it came into the plan; written by the program"),
        ("enough.NAME", "2", "of a task for each that comes before: so many are enough"),
        ("within.NAME", '"8 hours"', "begun at most so long after that task is finished"),
        under="tasks.NAME.",
    ),
    *_keys(
        ("name", '"Rib"', "what the piece is called; of several, each with its number"),
        ("count", "9", "how many the vehicle has; without it there is one"),
        ("spares", "1", "how many more are made, in case one fails"),
        ("part", '"arches"', "the part it belongs to; otherwise the component"),
        *_OF_A_PIECE,
        under="pieces.NAME.",
    ),
    *_keys(
        ("name", '"Rib behind the door"', "what this one of them is called"),
        *_OF_A_PIECE,
        under="pieces.NAME.3.",
    ),
    *_keys(
        ("kind", '"dry"', ", ".join(KINDS)),
        ("lasts", '"36 hours"', 'how long: "90 min", "2 days", "1 month"; without it until a look'),
        ("release", '"look"', 'what ends it: "time", or "look" where somebody must look first'),
        ("leave_alone", "true", "nobody touches the whole component meanwhile"),
        ("conditions", "{ at_least_c = 10 }", 'where its clock runs; "shop": the shop\'s own'),
        ("note", '"on the form"', "what to mind"),
        ("source", '"the tin"', "where the time comes from"),
        under="tasks.NAME.hold.",
    ),
    *_keys(*_CONDITIONS, under="tasks.NAME.conditions."),
    *_keys(*_CONDITIONS, under="tasks.NAME.hold.conditions."),
)

HAZARD_KEYS = (
    *_keys(
        ("name", '"Dust in the loft"', "what the sheet is called"),
        ("harm", '["bad lungs"]', "what it can do to people"),
        ("gear", '["mask"]', "what is worn"),
        ("not_near", '["hot-work"]', "hazards that must not be near it"),
        ("near", '"place"', 'how far near reaches: the whole "shop", or the task\'s "place"'),
        ("not_after", '["oily-rags"]', "hazards after which it may not begin while they last"),
        ("least_people", "2", "the fewest people for such work"),
        ("under_18", "false", "whether people under 18 may take part"),
        ("under_18_why", '"the law"', "why not"),
        ("if_wrong", '["out into the air"]', "what is done when it goes wrong"),
        ("prevail", '["the label"]', "what goes before this sheet"),
        (
            "concerns",
            '"day"',
            'tasks that name it ("task"), each "day", "minors", whoever is "alone"',
        ),
        ("closes_place", "true", "no other work in its place while it goes on"),
        ("watch", '"fire watcher"', "who stays beside the work and does nothing else"),
        ("do_not_use", '"hand it to ..."', "what to do instead: no task with it begins, ever"),
        ("training", "true", "a lead may let an under-18 take part for training"),
        ("words", '["swarm"]', "words in a task's title or method that point to it"),
        ("words_not", '["bee line"]', "phrases in which those words mean something else"),
    ),
    *_keys(
        ("value", "60", "the number, or a date"),
        ("unit", '"min"', "its unit"),
        ("says", '"watch the place"', "what it is for"),
        ("source", '"crew rule"', "where it comes from"),
        ("where", '"anywhere"', "where that holds"),
        ("edition", '"2025"', "which edition"),
        ("read", "2026-01-31", "the day it was read; left out where nobody read it"),
        ("safe", '"more"', 'the way it is rounded in other units: "more" up, "less" down'),
        ("mark", '"from memory"', "how surely it is known; what is from memory stops nobody"),
        under="numbers.NAME.",
    ),
    *_keys(
        ("when", '"before"', '"before", "during" or "after" the work'),
        ("title", '"lid on the can"', "what it is called"),
        ("text", '"The can is closed."', "what is signed"),
        ("every", '"task"', '"task", "day", "task a day", "person a year", "person a task"'),
        ("signs", '"lead"', 'who signs: "anyone", "lead", or the certificate they must have'),
        ("interval", '"watch"', "the number that says how often it comes round during the work"),
        ("last_out", "true", "the last one out signs it, when nobody else is in"),
        ("waivable", "false", "whether it may be found not to apply at all"),
        ("licensed", "true", "a licensed trade answers for it: signed alone, with no other check"),
        ("names", '"first aid"', 'whom its signing names: "anyone", "adult", or who holds that'),
        under="checks.NAME.",
    ),
    *_keys(
        ("kind", '"fire watch"', "what the clock is called"),
        ("numbers", '["watch"]', "the numbers it runs for; the longest counts"),
        ("guards", '"task"', 'what it stands in the way of: "closing", the next "task", "entry"'),
        ("text", '"Stay and look."', "what is done meanwhile"),
        ("applies", '"watch"', "the number that the crew keeps to, where not the longest"),
        ("starts", '"shut"', "the check whose signing starts it, where not the end of the work"),
        ("ends", '"shut"', "the check that cannot be signed before it has run out"),
        under="clocks.NAME.",
    ),
    *_keys(
        ("who", '"one"', 'who needs the certificate: "one" of those at work, or "each"'),
        ("lasts", '"watch"', "the number that says how long it is good for"),
        under="certificates.NAME.",
    ),
    *_keys(
        ("where", '"here"', "where the law holds"),
        ("says", '"ask first"', "what it says"),
        ("source", '"the act"', "where it stands"),
        ("edition", '"2025"', "which edition"),
        ("read", "2026-01-31", "the day it was read"),
        ("mark", '"verified"', "how sure it is"),
        ("borrowed", '"buildings"', "what it was written for, where it is borrowed as practice"),
        under="laws.",
    ),
    *_keys(
        ("where", '"GB"', "whose advice it is"),
        ("says", '"Cool the burn."', "what is done for whoever is hurt"),
        ("source", '"the health service"', "where it stands"),
        ("edition", '"2025"', "which edition"),
        ("read", "2026-01-31", "the day it was read"),
        ("mark", '"verified"', "how sure it is"),
        ("borrowed", '"swimming"', "what it was written for, where it is borrowed as practice"),
        under="first_aid.",
    ),
    *_keys(
        ("kills", '"Sparks set fire."', "the bench card: what kills or maims"),
        ("wear", '["goggles"]', "what to wear"),
        ("check", '["extinguisher here"]', "what to look at first"),
        ("wrong", '["alarm, out"]', "what to do if it goes wrong, first things first"),
        ("look_up", '["the fire code"]', "what the crew's own place must look up itself"),
        ("law.GB", '"A permit."', "the law in a few words; of others under their own names"),
        under="card.",
    ),
    *_keys(
        ("where", '"here"', "where the duty to report an accident holds"),
        ("says", '"tell the insurer"', "what is reported, and to whom"),
        ("source", '"the policy"', "where it stands"),
        ("edition", '"2025"', "which edition"),
        ("read", "2026-01-31", "the day it was read"),
        ("mark", '"verified"', "how sure it is"),
        ("borrowed", '"factories"', "what it was written for, where it is borrowed as practice"),
        under="reporting.",
    ),
)

FILES: dict[str, tuple[PlanKey, ...]] = {
    "vehicle.toml": VEHICLE_KEYS,
    "crew.toml": CREW_KEYS,
    "supplies.toml": SUPPLY_KEYS,
    "components/NAME.toml": COMPONENT_KEYS,
    "hazards.toml": tuple(key._replace(key=f"NAME.{key.key}") for key in HAZARD_KEYS),
}
