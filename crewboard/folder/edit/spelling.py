"""The plan's values as TOML holds them: a span in words, an estimate as a list."""

from __future__ import annotations

from datetime import date, datetime, time

from crewboard.folder.toml.values import Value
from crewboard.plan.duration import Duration
from crewboard.plan.hold import KINDS, Conditions, Hold
from crewboard.plan.task import Estimate
from crewboard.plan.volunteer import Certificate


def as_toml(value: object) -> Value:
    """The value in the form in which the folder's files hold it. Raises TypeError."""
    match value:
        case Duration():
            return str(value)
        case Estimate():
            return [_number(hours) for hours in value]
        case Hold():
            return _hold(value)
        case Conditions():
            return {k: _number(v) for k, v in value._asdict().items() if v is not None}
        case Certificate():
            return _certificate(value)
        case str() | bool() | int() | date() | datetime() | time():
            return value
        case float():
            return _number(value)
        case dict():
            return {str(key): as_toml(inner) for key, inner in value.items() if inner is not None}
        case tuple() | list():
            return [as_toml(inner) for inner in value]
    raise TypeError(f"{type(value).__name__} has no form in the folder's files")


def _number(value: float) -> float | int:
    return int(value) if value == int(value) else value


def _hold(hold: Hold) -> Value:
    """Only what differs from what is usual for the kind."""
    fields: dict[str, Value] = {"kind": hold.kind}
    if hold.lasts is not None:
        fields["lasts"] = str(hold.lasts)
        if hold.release != KINDS[hold.kind].release:
            fields["release"] = hold.release
    if hold.leave_alone:
        fields["leave_alone"] = True
    if hold.conditions:
        fields["conditions"] = as_toml(hold.conditions)
    return fields | {k: v for k, v in (("note", hold.note), ("source", hold.source)) if v}


def _certificate(certificate: Certificate) -> Value:
    bare = certificate.since is None and certificate.seen is None and not certificate.note
    if bare:
        return certificate.until or True
    fields = (
        ("until", certificate.until),
        ("since", certificate.since),
        ("seen", certificate.seen),
    )
    spelled: dict[str, Value] = {key: value for key, value in fields if value is not None}
    return {**spelled, "note": certificate.note} if certificate.note else spelled
