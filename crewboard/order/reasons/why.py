"""Why a task stands where it stands: the chain that blocks it, down to its roots."""

from collections.abc import Iterator
from typing import Literal, NamedTuple

from crewboard.logbook.entry import Entry
from crewboard.order.board import Board, Standing
from crewboard.order.holds.running import StandingHold
from crewboard.order.holds.words import course_in_words, quoted_hold, stage_in_words
from crewboard.order.said import (
    by_whom,
    component_name,
    day_and_time,
    day_in_words,
    how_many,
    listed,
    quoted_name,
    quoted_title,
)
from crewboard.order.sequence.links import enough_of, gate_of
from crewboard.order.steam import of_task, out_in_words
from crewboard.order.supplies import supply_in_words
from crewboard.order.unreadable import of_the_files
from crewboard.order.within import must_follow
from crewboard.plan.task import Task

About = Literal["task", "component", "hold", "supply", "date", "jig", "series", "file", "within"]


class Reason(NamedTuple):
    """One step of the chain. `depth` 0 is the task asked about.

    `id` names what the step is about; `entry` the line of the logbook that causes it, empty where
    the plan does. `root` marks the steps at which something can be done or waited for.
    """

    depth: int
    about: About
    id: str
    says: str
    entry: str = ""
    root: bool = False


def why(board: Board, task_id: str) -> list[Reason]:
    """The chain from the task down to what blocks it in the end; raises KeyError if unknown.

    What was told once is not told again further down.
    """
    chain: list[Reason] = []
    given: set[str] = set()
    ahead: list[Reason | _Ask] = [_Ask(task_id, 0)]
    while ahead:  # a stack of our own: a chain may be longer than Python can recurse
        step = ahead.pop()
        if isinstance(step, Reason):
            chain.append(step)
            given.add(step.id)
        elif step.node not in given:
            given.add(step.node)
            ahead += reversed(_answer(board, step, given))
    return chain


def roots(board: Board, task_id: str) -> list[Reason]:
    """What the task waits for in the end, each once."""
    return list({(r.about, r.id): r for r in reversed(why(board, task_id)) if r.root}.values())[
        ::-1
    ]


class _Ask(NamedTuple):
    """A task, gate or hold whose reasons are still to be told."""

    node: str
    depth: int


def _answer(board: Board, ask: _Ask, given: set[str]) -> list[Reason | _Ask]:
    depth = ask.depth
    if ask.node in board.holds and ask.node not in board.standings:
        return [_held_by(board.holds[ask.node], board, depth)]
    if not (component := gate_of(ask.node)):
        standing = board[ask.node]
        if depth and standing.work_done and standing.open_again:
            return [_Ask(node, depth) for node in not_passed(board, ask.node)]
        return _of_task(board, standing, depth)
    if ask.node.startswith(">"):  # before the first work: what its component comes after
        further = [_Ask(node, depth) for node in not_passed(board, ask.node)]
        return [*further, *_holds_before(board, ask.node, depth)]
    tasks = [
        task
        for task in _counting(board, ask.node)
        if not board.readiness.passed.done[task] and task not in given
    ]
    if not tasks:
        return []
    about: About = "series" if component in board.plan.series else "component"
    first = Reason(depth, about, component, _still_to_finish(board, ask.node, component))
    further = [_Ask(task, depth + 1) for task in tasks]
    if about == "series":  # its tasks' holds are those of whoever comes after, and told there
        return [first, *further]
    return [first, *further, *_holds_before(board, ask.node, depth + 1)]


def _counting(board: Board, gate: str) -> list[str]:
    """The tasks right before a gate; those that nobody is asked to do only where, for a piece that
    failed, too few are left."""
    tasks, not_asked = board.order.tasks_right_before(gate), board.not_asked
    asked = [task for task in tasks if task not in not_asked]
    if len(asked) == len(tasks) or len(asked) >= board.order.enough.get(gate, len(tasks)):
        return asked
    return [task for task in tasks if task not in not_asked or not_asked[task].lost]


def _still_to_finish(board: Board, gate: str, named: str) -> str:
    """ "Deck: 3 of 7 tasks to finish first"; how many more, where some of a series are enough."""
    done, of = board.progress(named)
    name, enough = quoted_name(board.plan, named), enough_of(gate)
    if enough is None:
        return f"{name}: {of - done} of {how_many(of, 'task')} to finish first"
    are = "is" if enough == 1 else "are"
    return f"{name}: {enough - done} more to finish first ({enough} of {of} {are} enough)"


def _of_task(board: Board, standing: Standing, depth: int) -> list[Reason | _Ask]:
    task = standing.task
    reasons: list[Reason | _Ask] = [_stand(board, standing, depth), *_within(board, task, depth)]
    if standing.state in ("finished", "set aside", "ready"):
        return reasons
    unread = of_the_files(board.unreadable, standing.unreadable)
    reasons += [Reason(depth + 1, "file", one.file, one.with_mend, "", True) for one in unread]
    if standing.state == "under way":
        stops = (*standing.open_again, *standing.held_again)
        return reasons + [_Ask(stop, depth + 1) for stop in stops]
    reasons += [_held_by(board.holds[hold_id], board, depth + 1) for hold_id in standing.holds]
    if standing.work_done:
        return reasons
    reasons += [_short_of(board, supply_id, depth + 1) for supply_id in standing.short_of]
    reasons += [_jig_taken(board, jig, depth + 1) for jig in standing.jigs]
    if task.not_before is not None and board.at.date() < task.not_before:
        sentence = f"not before {day_in_words(task.not_before)}"
        reasons.append(Reason(depth + 1, "date", task.id, sentence, "", True))
    if standing.waits:
        reasons += [_Ask(node, depth + 1) for node in not_passed(board, task.id)]
        reasons += _holds_before(board, task.id, depth + 1)
    return reasons


def _holds_before(board: Board, node: str, depth: int) -> list[_Ask]:
    """The holds right before a node that waits for work too, told after that work where they were
    not told with it. A component's own hold stands on its closing gate."""
    holds = {hold.id for hold in board.readiness.holds_before(node)}
    if gate_of(node):
        holds |= {hold.id for hold in board.readiness.holds.behind.get(node, ())}
    return [_Ask(hold, depth) for hold in board.holds if hold in holds]


def not_passed(board: Board, node: str) -> list[str]:
    """The nodes right before with work up to them that is unfinished or open again."""
    return [b for b in board.order.before[node] if not board.readiness.passed.done[b]]


def _stand(board: Board, standing: Standing, depth: int) -> Reason:
    task = standing.task
    match standing.state:
        case "finished" if standing.finished is not None:
            sentence, entry = (
                f"finished {day_and_time(standing.finished)}",
                _finish_entry(board, task.id),
            )
        case "under way" if standing.begun is not None:
            crew = by_whom(board.plan, standing.crew)
            sentence = f"under way since {day_and_time(standing.begun)}{crew}"
            if stop := stop_in_words(board, standing):
                sentence += f"; {stop}"
            for one in of_task(board, task.id):
                sentence += f"; {one.word}, {out_in_words(board, one)}"
            course = board.history.courses[task.id]
            entry = course.begun.id if course.begun else ""
        case "set aside":
            sentence, entry = f"set aside: {standing.aside}", ""
        case "ready":
            sentence, entry = "ready now", ""
        case "on hold" if standing.work_done:
            sentence, entry = "the work is finished and must be left alone", ""
        case "on hold" if standing.else_ready:
            sentence, entry = "on hold: what may hold it back cannot be read", ""
        case _:
            sentence, entry = standing.state, ""
    if reopening := board.history.reopened.get(task.id):
        sentence, entry = f"{_reopened_in_words(reopening)}; {sentence}", entry or reopening.id
    root = standing.state in ("under way", "ready", "set aside") and depth > 0
    return Reason(
        depth, "task", task.id, f"{quoted_title(board.plan, task.id)}: {sentence}", entry, root
    )


def stop_in_words(board: Board, standing: Standing) -> str:
    """ "stop: "Weld the frame" is open again", "stop: "Glue the rim" is on hold, until Tue 5 May
    2026 12:00", for work under way that has to wait again; else ""."""
    return f"stop: {again_in_words(board, standing)}" if standing.to_stop else ""


def again_in_words(board: Board, standing: Standing) -> str:
    """The reopened work before a task, and the holds before it that run again."""
    open_again = [_open_again_in_words(board, standing)] if standing.open_again else []
    holds = (board.holds[each] for each in standing.held_again)
    held_again = [
        f"{quoted_hold(board.plan, hold)} is on hold, {stage_in_words(board.plan, hold)}"
        for hold in holds
    ]
    return "; ".join(open_again + held_again)


def _open_again_in_words(board: Board, standing: Standing) -> str:
    """ ""Weld the frame" is open again"."""
    titles = [quoted_title(board.plan, task) for task in standing.open_again]
    return f"{listed(titles)} {'is' if len(titles) == 1 else 'are'} open again"


def _reopened_in_words(reopening: Entry) -> str:
    """ "open again since Sat 2 May 2026 10:00: a crack in the weld"."""
    why_so = getattr(reopening.act, "why", "")
    return f"open again since {day_and_time(reopening.at)}" + (f": {why_so}" if why_so else "")


def _finish_entry(board: Board, task_id: str) -> str:
    course = board.history.courses.get(task_id)
    return course.finished.id if course and course.finished else ""


def _held_by(hold: StandingHold, board: Board, depth: int) -> Reason:
    return Reason(depth, "hold", hold.id, hold_in_words(board, hold), hold.id, True)


def hold_in_words(board: Board, hold: StandingHold) -> str:
    """ ""Bend the arches": on the form since Sat 2 May 16:00, until Tue 2 Jun 16:00"."""
    sentence = f"{quoted_hold(board.plan, hold)}: {course_in_words(board.plan, hold)}"
    if hold.leave_alone:
        sentence += f"; leave {component_name(board.plan, hold.component) or 'it'} alone"
    return sentence


def _jig_taken(board: Board, jig_id: str, depth: int) -> Reason:
    """Who has the jig, and until when as far as that is known."""
    sentence = f"{board.plan.vehicle.jigs[jig_id].name}: {jig_in_words(board, jig_id)}"
    return Reason(depth, "jig", jig_id, sentence, "", True)


def jig_in_words(board: Board, jig_id: str) -> str:
    """ "in use by "Bend: Arch 2", until Sat 30 May 2026 16:00", each by its task."""
    users = [_user_in_words(board, task) for task in board.readiness.taken[jig_id]]
    return f"in use by {listed(users)}"


def _user_in_words(board: Board, task: str) -> str:
    title = quoted_title(board.plan, task)
    holds = board.readiness.holds.behind.get(task, ())
    stages = dict.fromkeys(stage_in_words(board.plan, hold) for hold in holds)
    return ", ".join([title, *stages]) if stages else f"{title}, under way"


def _within(board: Board, task: Task, depth: int) -> Iterator[Reason]:
    """Until when it has to be begun, after what; or that it is too late for that."""
    follow = must_follow(board).get(task.id)
    if follow is not None:
        from crewboard.order.within_words import begin_by_in_words

        entry = _finish_entry(board, follow.after)
        yield Reason(depth + 1, "within", task.id, begin_by_in_words(board, follow), entry)


def _short_of(board: Board, supply_id: str, depth: int) -> Reason:
    account = board.stock[supply_id]
    sentence = f"{account.supply.name}: {supply_in_words(account)}"
    return Reason(depth, "supply", supply_id, sentence, account.entry, True)
