"""An invented vehicle's folder from a seed: a few components, a crew, supplies, some work days."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from random import Random

COMPONENTS = ("frame", "body", "roof", "doors")
HAZARDS = ("lead-paint", "grit", "lead-paint", "hot-work", "steam-box")
PEOPLE = ("ada", "tom", "eva", "ned")
SUPPLIES = ("oak", "glue", "paint")
NOW = datetime(2026, 5, 16, 10)
FIRST = date(2026, 5, 2)


class RandomFolder:
    """`files` are the texts by path; `tasks` the ids of all tasks."""

    def __init__(self, seed: int) -> None:
        self.dice = Random(seed)
        self.tasks: list[str] = []
        self.holding: list[str] = []  # tasks whose finish starts a hold
        self.files = {
            "vehicle.toml": self._vehicle(),
            "crew.toml": self._crew(),
            "supplies.toml": self._supplies(),
            **{f"components/{name}.toml": self._component(name) for name in self._some(COMPONENTS)},
            **dict(self._day(day) for day in self._days()),
        }
        if "grit" in "".join(self.files.values()):
            self.files["hazards.toml"] = '[grit]\nname = "Grit"\nharm = ["eyes"]\n'

    def _some(self, names: tuple[str, ...]) -> list[str]:
        return [name for name in names if self.dice.random() < 0.75] or [names[0]]

    def _vehicle(self) -> str:
        zone = self.dice.choice(['timezone = "CET"\n', ""])
        conditions = self.dice.choice(["", "conditions = { at_least_c = 12 }\n"])
        return (
            f'format = 1\nname = "The mail van"\n{zone}\n[work_days]\nevery = ["every saturday"]\n'
            f'opens = 09:00:00\ncloses = 16:00:00\n\n[shop]\nemergency = "112"\n{conditions}'
        )

    def _crew(self) -> str:
        tables = []
        for who in PEOPLE:
            adult = "false" if who == "ned" and self.dice.random() < 0.4 else "true"
            papers = ' certificates = { "hot work" = 2027-01-31 }\n' if who == "ada" else ""
            lead = "lead = true\n" if who in ("ada", "eva") else ""
            tables.append(
                f'[people.{who}]\nname = "{who.title()}"\nadult = {adult}\n{lead}{papers}'
            )
        return "\n".join(tables)

    def _supplies(self) -> str:
        here = self.dice.choice
        return "\n".join(
            f'[supplies.{name}]\nname = "{name}"\nin_stock = {here(("true", "true", "false"))}\n'
            f"quantity = {self.dice.randint(2, 9)}\n"
            for name in SUPPLIES
        )

    def _component(self, name: str) -> str:
        text = f'name = "{name.title()}"\n'
        earlier = sorted({task.partition("/")[0] for task in self.tasks})
        if earlier and self.dice.random() < 0.3:
            text += f'after = ["{self.dice.choice(earlier)}"]\n'
        for number in range(self.dice.randint(1, 4)):
            text += self._task(name, f"t{number}")
        return text

    def _task(self, component: str, name: str) -> str:
        dice, task_id = self.dice, f"{component}/{name}"
        lines = [f"\n[tasks.{name}]", f'title = "Task {name}"', "hours = [1, 2, 4]"]
        if self.tasks and dice.random() < 0.4:
            lines.append(f'after = ["{dice.choice(self.tasks)}"]')
        if dice.random() < 0.35:
            lines.append(f'hazards = ["{dice.choice(HAZARDS)}"]')
        if dice.random() < 0.3:
            supply = dice.choice(SUPPLIES)
            lines.append(
                f'supplies = ["{supply}"]\namounts = {{ {supply} = {dice.randint(1, 4)} }}'
            )
        if dice.random() < 0.5:
            air = dice.choice(["", ', conditions = "shop"', ", conditions = { at_least_c = 10 }"])
            look = dice.choice(["time", "look"])
            alone = dice.choice(["", ", leave_alone = true"])
            days = dice.randint(1, 20)
            hold = f'kind = "glue", lasts = "{days} days", release = "{look}"{air}{alone}'
            lines.append(f"hold = {{ {hold} }}")
            self.holding.append(task_id)
        self.tasks.append(task_id)
        return "\n".join(lines) + "\n"

    # --- the logbook ---------------------------------------------------------------------------

    def _days(self) -> list[date]:
        return [FIRST + timedelta(days=7 * week) for week in range(self.dice.randint(1, 3))]

    def _day(self, day: date) -> tuple[str, str]:
        lines = [self._line(day, number) for number in range(self.dice.randint(2, 12))]
        text = f"date = {day}\n\n[entries]\n" + "".join(lines)
        return f"days/2026/{day}.toml", text

    def _line(self, day: date, number: int) -> str:
        dice = self.dice
        at = datetime.combine(day, time(9)) + timedelta(minutes=4 * number)
        entry_id = f"e{day:%m%d}{number:02}"
        kinds = (
            self._finished,
            self._begun,
            self._held,
            self._extended,
            self._other,
            self._sign_in,
        )
        said = dice.choice(kinds)(day, entry_id)
        return f'{entry_id} = {{ at = {at:%Y-%m-%dT%H:%M:%S}, by = "ada", {said} }}\n'

    def _finished(self, _day: date, entry_id: str) -> str:
        task = self.dice.choice(self.tasks)
        if task in self.holding:
            self._holds.append(entry_id)
        return f'kind = "finished", task = "{task}"'

    def _begun(self, _day: date, _id: str) -> str:
        who = self.dice.choice(PEOPLE)
        return f'kind = "begun", task = "{self.dice.choice(self.tasks)}", crew = ["{who}"]'

    def _held(self, _day: date, entry_id: str) -> str:
        self._holds.append(entry_id)
        lasts = self.dice.choice(["3 days", "20 days"])
        task = self.dice.choice(self.tasks)
        if self.dice.random() < 0.3:
            component = task.partition("/")[0]
            return f'kind = "hold", hold = "cure", component = "{component}", lasts = "{lasts}"'
        return f'kind = "hold", hold = "cure", task = "{task}", lasts = "{lasts}"'

    def _extended(self, day: date, entry_id: str) -> str:
        if not self._holds:
            return self._finished(day, entry_id)
        hold = self.dice.choice(self._holds)
        if self.dice.random() < 0.3:
            return f'kind = "released", hold = "{hold}", why = "dry"'
        days = self.dice.randint(1, 30)
        return f'kind = "extended", hold = "{hold}", lasts = "{days} days", why = "damp"'

    def _sign_in(self, _day: date, _id: str) -> str:
        return f'kind = "sign-in", who = "{self.dice.choice(PEOPLE)}"'

    def _other(self, _day: date, _id: str) -> str:
        task, supply = self.dice.choice(self.tasks), self.dice.choice(SUPPLIES)
        check = f'hazard = "lead-paint", check = "{self.dice.choice(("tested", "area"))}"'
        return self.dice.choice(
            [
                f'kind = "reopened", task = "{task}", why = "cracked"',
                f'kind = "set aside", task = "{task}", why = "later"',
                f'kind = "reading", celsius = {self.dice.randint(2, 22)}, humidity = 60',
                f'kind = "used", supply = "{supply}", amount = {self.dice.randint(1, 3)}',
                f'kind = "arrived", supply = "{supply}", amount = {self.dice.randint(1, 3)}',
                f'kind = "hours", who = "tom", hours = 2, task = "{task}"',
                'kind = "note", text = "cold"',
                f'kind = "check", {check}, who = "ada", task = "{task}"',
            ]
        )

    @property
    def _holds(self) -> list[str]:
        """The holds that were started so far."""
        if not hasattr(self, "_started"):
            self._started: list[str] = []
        return self._started
