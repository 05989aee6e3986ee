"""How short the schedules are on public instances, beside published figures.

    python tests/bench/psplib_quality.py DIR [--sets j30 j60 j120] [--schedules 1000 5000]
        [--seed N] [--processes N]

DIR holds a folder of .sm files for each set, and best.csv (set, parameter, instance, makespan):
the optimum for j30, the best known length for j60 and j120. Instances and format: Kolisch and
Sprecher, "PSPLIB - a project scheduling problem library", European Journal of Operational Research
96 (1997); read with the `psplib` package. Deviations are averages in percent: from the best known
length, and from the critical-path bound. On a part of a set the latter compares with nothing but
the best known lengths' own, so that is printed beside it.
"""

from __future__ import annotations

import argparse
import csv
import sys
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from pathlib import Path
from statistics import fmean
from time import process_time
from typing import NamedTuple

sys.path.insert(0, str(Path(__file__).parents[2]))

from psplib import parse

from tests.order.network.engine.critical_path import critical_path
from tests.order.network.engine.feasibility import makespan, violations
from tests.order.network.engine.resources import Project
from tests.order.network.engine.search import schedule

PUBLISHED = {
    ("j30", 1000): "0.06 Mendes, 0.10 Kochetov & Stolyar (from memory), 0.38 HEDA (read)",
    ("j30", 5000): "0.02 Mendes, 0.04 Kochetov & Stolyar (from memory), 0.14 HEDA (read)",
    ("j60", 1000): "11.56 Valls, 11.71 Kochetov & Stolyar (from memory), 11.97 HEDA (read)",
    ("j60", 5000): "11.04 Mendes, 11.10 Valls (from memory), 11.43 HEDA (read)",
    ("j120", 1000): "33.55 Debels & Vanhoucke, 34.07 Valls (second-hand), 35.44 HEDA (read)",
    ("j120", 5000): "32.18 Debels & Vanhoucke, 32.54 Valls (second-hand), 33.61 HEDA (read)",
}
"""Percent from the optimum (j30) or from the critical-path bound, over the whole set: Mendes and
others (GAPS); Kochetov and Stolyar 2003; Valls and others 2008 (HGA); Debels and Vanhoucke 2007;
Wang and Fang 2012 (HEDA), whose tables are the ones that were read."""

FULL_SET_BEST = {"j30": 13.372, "j60": 10.371, "j120": 28.925}
"""Of the best known lengths over the whole set from the critical-path bound (measured)."""


class Instance(NamedTuple):
    path: Path
    best: int


class Result(NamedTuple):
    from_best: float
    from_bound: float
    best_from_bound: float
    made: int
    seconds: float


def instances(folder: Path, name: str) -> Iterator[Instance]:
    with (folder / "best.csv").open(newline="") as lines:
        for row in csv.DictReader(lines):
            path = folder / name / f"{name}{row['parameter']}_{row['instance']}.sm"
            if row["set"] == name and path.exists():
                yield Instance(path, int(row["makespan"]))


def project_in(path: Path) -> Project:
    read = parse(path, instance_format="psplib")
    return Project(
        [activity.modes[0].duration for activity in read.activities],
        [(i, j, 0) for i, activity in enumerate(read.activities) for j in activity.successors],
        [activity.modes[0].demands for activity in read.activities],
        [resource.capacity for resource in read.resources],
    )


def critical_path_in_header(path: Path) -> int:
    """The MPM-Time, last on the line below its heading."""
    lines = path.read_text().splitlines()
    heading = next(i for i, line in enumerate(lines) if "MPM-Time" in line)
    return int(lines[heading + 1].split()[-1])


def solved(instance: Instance, schedules: int, seed: int) -> Result:
    """Schedules one instance, and checks bound and feasibility on the way."""
    project = project_in(instance.path)
    bound = critical_path(project.durations, project.links).length
    assert bound == critical_path_in_header(instance.path), instance.path
    began = process_time()
    found = schedule(project, schedules, seed=seed)
    seconds = process_time() - began
    assert violations(project, found.starts) == [], instance.path
    assert makespan(project, found.starts) == found.makespan, instance.path
    assert found.bound <= instance.best, instance.path
    return Result(
        100 * (found.makespan / instance.best - 1),
        100 * (found.makespan / bound - 1),
        100 * (instance.best / bound - 1),
        found.made,
        seconds,
    )


def report(name: str, schedules: int, results: list[Result]) -> str:
    own, best = (fmean(r.from_bound for r in results), fmean(r.best_from_bound for r in results))
    ms = 1000 * sum(r.seconds for r in results) / sum(r.made for r in results)
    slowest = max(r.seconds for r in results)
    return (
        f"{name}, {len(results)} instances, {schedules} schedules: "
        f"{fmean(r.from_best for r in results):.3f} % from the best known "
        f"({sum(r.from_best <= 0 for r in results)} reached)\n"
        f"    {own:.2f} % from the critical-path bound; the best known are {best:.2f} % from it "
        f"here, {FULL_SET_BEST[name]:.2f} % over the whole set\n"
        f"    published, whole set: {PUBLISHED.get((name, schedules), 'none noted')}\n"
        f"    {ms:.3f} ms a schedule, the slowest instance {slowest:.2f} s, all feasible, "
        f"all critical paths as in the files' headers"
    )


def main() -> None:
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else None)
    options.add_argument("folder", type=Path)
    options.add_argument("--sets", nargs="+", default=["j30", "j60", "j120"])
    options.add_argument("--schedules", nargs="+", type=int, default=[1000, 5000])
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--processes", type=int, default=1)
    chosen = options.parse_args()
    with ProcessPoolExecutor(chosen.processes) as pool:
        for name in chosen.sets:
            for schedules in chosen.schedules:
                work = partial(solved, schedules=schedules, seed=chosen.seed)
                print(report(name, schedules, list(pool.map(work, instances(chosen.folder, name)))))


if __name__ == "__main__":
    main()
