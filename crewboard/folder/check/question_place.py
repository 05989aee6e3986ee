"""Where in the folder a review's question is about."""

from __future__ import annotations

from crewboard.folder.read.assemble import file_of, key_path
from crewboard.folder.read.fault import KeyPath
from crewboard.folder.read.files import SUPPLIES, VEHICLE
from crewboard.order.review import Question
from crewboard.plan.plan import Plan


def file_and_key(question: Question, plan: Plan) -> tuple[str, KeyPath]:
    """The file, and the key in it; the table itself where the key is not written there."""
    if question.about == "vehicle":
        return VEHICLE, ()
    if question.about == "supply":
        return SUPPLIES, ("supplies", question.id)
    path = key_path(question.id, plan.components)
    return file_of(question.id), (*path, question.key) if question.key else path
