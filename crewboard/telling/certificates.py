"""A certificate in words: whether it is good, and until when."""

from datetime import date, timedelta

from crewboard.order.said import day_in_words
from crewboard.plan.volunteer import Certificate
from crewboard.telling.line import Line, Tone

SOON = timedelta(days=60)  # about four work days of a crew that meets twice a month
ENDING = ("LAPSED", "lapses soon")  # the states that are said beside a name


def certificate_state(certificate: Certificate, day: date) -> tuple[str, Tone, str]:
    """The word of its state on that day, the tone of that, and until when it is good."""
    until = certificate.until
    if certificate.since is not None and day < certificate.since:
        return "not yet", "faint", f"good from {day_in_words(certificate.since)}"
    if until is None:
        return "good", "safe", "does not lapse"
    if until < day:
        return "LAPSED", "danger", f"was good until {day_in_words(until)}"
    if until <= day + SOON:
        return "lapses soon", "warning", f"good until {day_in_words(until)}"
    return "good", "safe", f"until {day_in_words(until)}"


def certificate_line(certificate: Certificate, day: date) -> Line:
    """The state as a word, then the certificate."""
    word, tone, until = certificate_state(certificate, day)
    note = f" ({certificate.note})" if certificate.note else ""
    return Line(f"{certificate.kind}, {until}{note}", tone, 2, f"{word}:")


def certificate_in_words(certificate: Certificate, day: date) -> str:
    """ "LAPSED: first aid, was good until Sat 11 Apr 2026"."""
    line = certificate_line(certificate, day)
    return f"{line.word} {line.text}"
