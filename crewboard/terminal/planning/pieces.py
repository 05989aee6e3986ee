"""Add pieces as they are typed on one line, and take them out again."""

from __future__ import annotations

from crewboard.folder.edit.adding_pieces import added_in_words, adding_pieces
from crewboard.folder.edit.plan_edits import Remove
from crewboard.order.said import component_name, table_name
from crewboard.plan.as_typed import Unread
from crewboard.plan.pieces_typed import AS_TYPED
from crewboard.telling.line import Line
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.planning.written import change_here, take_out_here


async def add_pieces(app: BoardApp, component_id: str) -> str:
    """Ask for the pieces of a component and write them; the id of the first, empty where left."""
    where = component_name(app.board.plan, component_id)
    kept: list[str] = []

    def wrong(typed: str) -> str | None:
        """Says what stands against what was typed, and else keeps it: so nothing typed is lost."""
        try:
            edits = adding_pieces(typed, component_id, app.board.plan)
        except Unread as unread:
            return str(unread)
        added = added_in_words(edits)
        refused = change_here(app, edits, f"the pieces {added}")
        if refused:
            return "; ".join(str(refusal) for refusal in refused)
        kept[:] = [edits[0].id]
        app.tell(f"added to {where}: {added}")
        return None

    ask = AskLine(f"Pieces of {where}", "what it is made of", hint=AS_TYPED, check=wrong)
    await app.push_screen_wait(ask)
    return kept[0] if kept else ""


async def remove_pieces(app: BoardApp, some_id: str) -> None:
    """Ask first; refused where a task or the logbook names them. `u` puts them back."""
    plan = app.board.plan
    several = plan.several.get(some_id)
    name = table_name(some_id) if several else plan.pieces[some_id].name
    how_many = f" ({len(several)} of them)" if several else ""
    line = Line(
        f'"{name}"{how_many} is removed from the plan, with all that is said of it.', "warning"
    )
    what = f'removing "{name}"'
    edit = Remove("piece", some_id)
    await take_out_here(
        app, edit, [line, Line("u puts it back.")], what, then=lambda _: app.tell(f"{what}: done")
    )
