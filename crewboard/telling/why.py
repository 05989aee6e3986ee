"""Why a task stands where it stands, and what its finish frees."""

from collections.abc import Sequence

from crewboard.order.board import Board
from crewboard.order.holds.words import starts_in_words
from crewboard.order.reasons.onward import freed_by_all, what_then
from crewboard.order.reasons.why import Reason, hold_in_words, why
from crewboard.order.said import (
    component_name,
    how_many,
    listed,
    quoted_title,
    title_of_all,
    together,
)
from crewboard.order.within_words import followed_in_words
from crewboard.telling.line import GAP, Line, Tone, title
from crewboard.telling.row import STATE_TONE

_FEW = 3  # tasks named before the rest is counted
_DEEPEST = 12  # cells of indent beyond which a chain is no longer set in further
_ROOT = "->"  # before a step at which something can be done or waited for


def why_lines(board: Board, task_id: str) -> list[Line]:
    """The chain that blocks the task, down to what can be done or waited for.

    Raises KeyError for an unknown task.
    """
    chain = why(board, task_id)
    lines = [_step(board, reason) for reason in chain]
    roots = [reason for reason in chain if reason.root]
    if roots:
        lines += [GAP, title("In the end it waits for")]
        said_once = dict.fromkeys(reason.says for reason in roots)
        lines += [Line(root, "plain", 2) for root in said_once]
    against = _not_now(board, task_id)
    if against and board[task_id].state == "ready":  # by the order of work, not at this moment
        head = lines[0].text.replace(": ready now", ": ready, but not now")
        lines[0] = lines[0]._replace(text=head)
    return lines + against + _to_sign(board, task_id)


def why_under_title(board: Board, task_id: str) -> list[Line]:
    """The same below a heading that names the task: the first line does not name it again.

    Raises KeyError for an unknown task.
    """
    first, *rest = why_lines(board, task_id)
    named = f"{quoted_title(board.plan, task_id)}: "
    return [first._replace(text=first.text.removeprefix(named)), *rest]


def _not_now(board: Board, task_id: str) -> list[Line]:
    """What the moment has against work that could be done: dangers near, clocks, a closed place."""
    from crewboard.order.may.day import PeopleOfTheDay
    from crewboard.order.may.moment import against_moment, not_used, temporary_before
    from crewboard.order.may.short import in_short, when_not
    from crewboard.order.safety.checks import hazards_of

    standing = board[task_id]
    if standing.work_done:
        return []
    hazards = hazards_of(board, task_id, standing.crew)
    if standing.state not in ("ready", "under way"):
        before = [*not_used(hazards), *temporary_before(board, standing.task)]
        return [Line(in_short(board, obstacle), "warning", 2) for obstacle in before]
    against = [*against_moment(board, standing.task, hazards)]
    if standing.task.in_one_go:
        against += PeopleOfTheDay(board).not_in_one_go(standing.task)
    reasons = {in_short(board, obstacle): when_not(board, obstacle) for obstacle in against}
    return [Line(reason, "warning", 2, f"{word}:") for reason, word in reasons.items()]


def _to_sign(board: Board, task_id: str) -> list[Line]:
    """The checks without which ready work does not begin: the shop's opening and its own."""
    from crewboard.order.safety.checks import checks_of, hazards_of
    from crewboard.order.safety.opening import unopened

    if board[task_id].state != "ready" or not hazards_of(board, task_id):
        return []
    own = [asked for asked in checks_of(board, task_id, (), "before") if asked.open]
    told: list[Line] = []
    for asked_for, when in ((unopened(board), "to open the shop"), (own, "before it begins")):
        names = dict.fromkeys(f'"{asked.check.short}"' for asked in asked_for)
        if names:
            count = how_many(len(asked_for), "check")
            told.append(Line(f"{count} to sign {when}: {listed(names)}", "must", 2))
    return told


def _step(board: Board, reason: Reason) -> Line:
    return Line(
        reason.says,
        _tone(board, reason),
        min(_DEEPEST, 2 * reason.depth),
        _ROOT if reason.root else "",
        bold=reason.depth == 0,
        handle=reason.entry,
    )


def _tone(board: Board, reason: Reason) -> Tone:
    if reason.about == "task" and reason.id in board.standings:
        return STATE_TONE[board[reason.id].state]
    if reason.about == "file":
        return "danger"
    if reason.about == "within":
        return "must"
    return "caution" if reason.about in ("hold", "supply", "date") else "plain"


def then_lines(board: Board, task_id: str) -> list[Line]:
    """What finishing the task frees. Raises KeyError for an unknown task."""
    task = board.plan.tasks[task_id]
    then = what_then(board, task_id)
    lines = _hold_that_follows(board, task_id)
    for head, tasks, tone in (
        ("May go on", then.goes_on, "safe"),
        ("Ready at once", then.now, "safe"),
        ("Ready after the hold" if task.hold else "Ready later", then.after_hold, "caution"),
        ("Closer, but waiting for other work too", then.closer, "faint"),
    ):
        if tasks:
            lines.append(title(f"{head} ({len(tasks)})", tone))
            lines += [_named(board, group) for group in together(board.plan, tasks)]
            lines.append(GAP)
    lines += [Line(sentence, "must") for sentence in followed_in_words(board, (task_id,))]
    waits = "waits" if then.behind == 1 else "wait"
    behind = f"In all {how_many(then.behind, 'task')} {waits} behind it."
    return [*lines, Line(behind if then.behind else "Nothing waits behind it.")]


def _hold_that_follows(board: Board, task_id: str) -> list[Line]:
    standing, hold = board[task_id], board.plan.tasks[task_id].hold
    if standing.work_done:
        holds = [hold_in_words(board, board.holds[hold_id]) for hold_id in standing.holds]
        return [*(Line(sentence, "caution") for sentence in holds), GAP] if holds else []
    if hold is None:
        return []
    starts = starts_in_words(board, task_id)
    return [Line(f"a hold starts with the finish; if that is now: {starts}", "caution"), GAP]


def _named(board: Board, tasks: Sequence[str]) -> Line:
    task = board.plan.tasks[tasks[0]]
    handle = task.id if len(tasks) == 1 else task.series
    name = title_of_all(board.plan, tasks).strip('"')
    return Line(f"{name} ({component_name(board.plan, task.component)})", indent=2, handle=handle)


def frees(board: Board, task_id: str) -> str:
    """What finishing the task frees, in a sentence."""
    then = what_then(board, task_id, with_closer=False)
    parts = [f"{some_titles(board, then.goes_on)} may go on"] if then.goes_on else []
    if then.now:
        parts.append(f"frees {some_titles(board, then.now)}")
    if then.after_hold:
        after = "after its hold" if board.plan.tasks[task_id].hold is not None else "later"
        parts.append(f"frees {some_titles(board, then.after_hold)} {after}")
    if then.behind:
        parts.append(f"{how_many(then.behind, 'task')} behind it")
    return "; ".join(parts) if parts else "nothing waits for it"


def frees_together(board: Board, tasks: Sequence[str]) -> str:
    """What finishing all of these tasks now frees, in a sentence."""
    if len(tasks) == 1:
        return frees(board, tasks[0])
    now, later = freed_by_all(board, tasks)
    parts = [f"frees {some_titles(board, now)}"] if now else []
    if later:
        held = any(board.plan.tasks[task].hold is not None for task in tasks)
        after = "after the hold" if held else "later"
        parts.append(f"frees {some_titles(board, later)} {after}")
    return "; ".join(parts) if parts else "nothing more is free yet"


def some_titles(board: Board, tasks: tuple[str, ...], few: int = _FEW) -> str:
    """The first few of them by title, those of one series as one, the rest counted."""
    groups = together(board.plan, tasks)
    named = [title_of_all(board.plan, group) for group in groups[:few]]
    more = sum(map(len, groups[few:]))
    return listed([*named, *([f"{more} more"] if more else [])])
