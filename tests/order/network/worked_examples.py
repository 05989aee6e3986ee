"""Published networks, each with its source and how the numbers came here.

"Read" means read in the source or in a worked copy of it; "second-hand" in a page that quotes it;
"from memory" that nobody could look it up. Every result was recomputed with networkx.
"""

from __future__ import annotations

from typing import NamedTuple

from tests.order.network.engine.pert import ThreePoint
from tests.order.network.engine.precedence import Link

Estimates = dict[str, tuple[float, float, float]]


class Example(NamedTuple):
    names: str
    durations: list[float]
    links: list[Link]

    def at(self, values: list[float]) -> dict[str, float]:
        return dict(zip(self.names, values, strict=True))

    def spelled(self, path: list[int]) -> str:
        return "".join(self.names[i] for i in path)


def example(durations: dict[str, float], after: dict[str, str]) -> Example:
    """From durations and, for each name, the names that must come before it."""
    names = "".join(durations)
    links = [(names.index(b), names.index(a), 0.0) for a, befores in after.items() for b in befores]
    return Example(names, list(durations.values()), links)


def with_means(estimates: Estimates, after: dict[str, str]) -> Example:
    return example({n: ThreePoint(*three).mean for n, three in estimates.items()}, after)


def by_events(arcs: dict[str, float]) -> tuple[list[str], list[float], list[Link]]:
    """An activity-on-arc network ("1-2": 7): an arc follows every arc that ends where it begins."""
    names = list(arcs)
    links = [
        (i, j, 0.0)
        for i, first in enumerate(names)
        for j, second in enumerate(names)
        if first.split("-")[1] == second.split("-")[0]
    ]
    return names, list(arcs.values()), links


# Hillier and Lieberman, Introduction to Operations Research: Reliable Construction Co. (from
# memory; the results quoted there: 44 weeks, variance 9, chance of 47 weeks 0.84).
RELIABLE: Estimates = {
    "A": (1, 2, 3),
    "B": (2, 3.5, 8),
    "C": (6, 9, 18),
    "D": (4, 5.5, 10),
    "E": (1, 4.5, 5),
    "F": (4, 4, 10),
    "G": (5, 6.5, 11),
    "H": (5, 8, 17),
    "I": (3, 7.5, 9),
    "J": (3, 9, 9),
    "K": (4, 4, 4),
    "L": (1, 5.5, 7),
    "M": (1, 2, 3),
    "N": (5, 5.5, 9),
}
RELIABLE_AFTER = {
    "B": "A",
    "C": "B",
    "D": "C",
    "E": "C",
    "F": "E",
    "G": "D",
    "H": "EG",
    "I": "C",
    "J": "FI",
    "K": "J",
    "L": "J",
    "M": "H",
    "N": "KL",
}

# Anderson and others, An Introduction to Management Science, chapter 9, Table 9.4 (p. 384) and
# Fig. 9.12 (p. 386): the Porta-Vac project (read).
PORTA_VAC: Estimates = {
    "A": (4, 5, 12),
    "B": (1, 1.5, 5),
    "C": (2, 3, 4),
    "D": (3, 4, 11),
    "E": (2, 3, 4),
    "F": (1.5, 2, 2.5),
    "G": (1.5, 3, 4.5),
    "H": (2.5, 3.5, 7.5),
    "I": (1.5, 2, 2.5),
    "J": (1, 2, 3),
}
PORTA_VAC_AFTER = {
    "C": "A",
    "D": "A",
    "E": "A",
    "F": "C",
    "G": "D",
    "H": "BE",
    "I": "H",
    "J": "FGI",
}

# Hendrickson, Project Management for Construction: the nine activities (worked copy read; that it
# is his, from memory).
NINE = example(
    {"A": 4, "B": 3, "C": 8, "D": 7, "E": 9, "F": 12, "G": 2, "H": 5, "I": 6},
    {"C": "A", "D": "A", "E": "BC", "F": "BC", "G": "DE", "H": "DE", "I": "FG"},
)

# Taylor, Introduction to Management Science, chapter 8, solutions to problems (read).
TAYLOR_FIRST = by_events({"1-2": 7, "1-3": 10, "2-4": 6, "3-4": 5, "3-5": 4, "4-5": 3, "5-6": 2})
TAYLOR_SECOND = by_events(
    {
        "1-2": 8,
        "1-3": 10,
        "1-4": 9,
        "2-5": 6,
        "2-6": 4,
        "3-5": 5,
        "4-5": 0,
        "4-7": 7,
        "5-7": 12,
        "5-8": 15,
        "6-9": 18,
        "7-8": 4,
        "8-9": 7,
    }
)

# A worked solution of the Heizer and Render type, activities A to K (second-hand).
ELEVEN: Estimates = {
    "A": (4, 8, 10),
    "B": (2, 8, 24),
    "C": (8, 12, 16),
    "D": (4, 6, 10),
    "E": (1, 2, 3),
    "F": (6, 8, 20),
    "G": (2, 3, 4),
    "H": (2, 2, 2),
    "I": (6, 6, 6),
    "J": (4, 6, 12),
    "K": (2, 2, 3),
}
ELEVEN_AFTER = {
    "B": "A",
    "C": "A",
    "D": "A",
    "E": "B",
    "F": "CE",
    "G": "CE",
    "H": "F",
    "I": "F",
    "J": "DGH",
    "K": "IJ",
}

# Winston, Operations Research, Example 12.5 as on lecture slides (data read; that it is his, from
# memory): working days.
WEEKDAYS = example(
    {"A": 4, "B": 4, "C": 11, "D": 3, "E": 4, "F": 3, "G": 4, "H": 3, "I": 1, "J": 2},
    {"B": "A", "D": "B", "E": "D", "F": "D", "G": "D", "H": "EFG", "I": "BC", "J": "H"},
)
