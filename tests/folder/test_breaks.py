"""Breaks, small jobs and what somebody wants to learn, as the folder says them."""

from __future__ import annotations

import tomllib
from datetime import time

import pytest

from crewboard.folder.read.lists import decode_crew
from crewboard.folder.read.vehicle_file import decode_vehicle
from crewboard.plan.vehicle import Break


def test_breaks_come_in_the_order_of_the_day() -> None:
    text = 'name = "A"\n[shop]\nbreaks = ["15:00 to 15:15", "12:30-13:00  late lunch"]'
    vehicle, misfits = decode_vehicle(tomllib.loads(text))
    assert not misfits
    assert vehicle.shop.breaks == (
        Break(time(12, 30), time(13), "late lunch"),
        Break(time(15), time(15, 15)),
    )


@pytest.mark.parametrize(
    ("said", "path", "sentence"),
    [
        ('["lunch"]', ("shop", "breaks", 0), '"lunch" is no break'),
        ('"25:00-26:00"', ("shop", "breaks"), '"25:00-26:00" is no break'),
        ('["13:00-12:30"]', ("shop", "breaks", 0), "ends no later than it begins"),
        ('["12:00-13:00", "12:30-12:45 tea"]', ("shop", "breaks", 1), "lies over the one at 12:00"),
    ],
)
def test_what_is_no_break_is_told(said: str, path: tuple[str | int, ...], sentence: str) -> None:
    vehicle, misfits = decode_vehicle(tomllib.loads(f'name = "A"\n[shop]\nbreaks = {said}'))
    (misfit,) = misfits
    assert misfit.path == path
    assert sentence in misfit.sentence
    assert len(vehicle.shop.breaks) == said.count("12:00-13:00")


def test_small_jobs_and_what_somebody_learns_are_texts() -> None:
    text = 'name = "A"\n[shop]\nsmall_jobs = ["sweep", " ", "sort screws"]'
    assert decode_vehicle(tomllib.loads(text))[0].shop.small_jobs == ("sweep", "sort screws")
    crew, misfits = decode_crew(tomllib.loads('[people.a]\nname = "A"\nlearning = ["joinery"]'))
    assert (crew["a"].learning, misfits) == (("joinery",), [])
