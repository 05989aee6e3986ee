"""Pieces in words: the rows of a component's pieces, folded by their kind."""

from collections.abc import Container, Iterable, Iterator
from typing import NamedTuple

from crewboard.order.board import Board, Standing
from crewboard.order.said import component_name, how_many, listed, table_name
from crewboard.plan.piece import Piece
from crewboard.plan.plan import Plan
from crewboard.telling.line import Line, Tone, title
from crewboard.telling.piece_sheet import KEPT, piece_lines, runs_in_words
from crewboard.telling.row import Row

PIECE_ROW = "piece "  # before the id of a piece in the id of its row: no task is called so


class PieceTable(NamedTuple):
    """One table of the file: a single piece, or several of a kind."""

    id: str
    name: str
    pieces: tuple[Piece, ...]
    several: bool


class Pieces:
    """The pieces of a board by component, and the tasks that are done to each, looked up once."""

    def __init__(self, board: Board) -> None:
        self.board = board
        self.tables: dict[str, list[PieceTable]] = {}
        self.work: dict[str, list[Standing]] = {}
        for table in piece_tables(board):
            self.tables.setdefault(table.pieces[0].component, []).append(table)
        if self.tables:
            for standing in board.standings.values():
                for piece in standing.task.pieces:
                    self.work.setdefault(piece, []).append(standing)

    def rows(self, component_id: str, opened: Container[str], depth: int) -> list[Row]:
        """A row for each table of a component; of an opened one also a row for each piece."""
        rows = list[Row]()
        for table in self.tables.get(component_id, ()):
            row = self._table_row(table, depth)
            if table.several:
                row = row._replace(folded=row.id not in opened)
            rows.append(row)
            if row.folded is False:
                rows += [self._piece_row(piece, table, depth + 1) for piece in table.pieces]
        return rows

    def all_rows(self) -> list[Row]:
        """Every piece on its own, to be found wherever it is."""
        plan = self.board.plan
        return [
            self._piece_row(piece, table, 0)._replace(
                find=f"{piece.id} {component_name(plan, piece.component)}"
            )
            for tables in self.tables.values()
            for table in tables
            for piece in table.pieces
        ]

    def here(self, component_id: str) -> list[Line]:
        """A line that says of what a component is made."""
        tables = self.tables.get(component_id, ())
        words = listed(f"{t.name} ({counted(t)})" if t.several else t.name for t in tables)
        return [Line(words, "faint", 0, "made of:")] if tables else []

    def above(self, some_id: str) -> str:
        """The id of the row under which a piece or a table stands."""
        plan = self.board.plan
        piece = plan.pieces.get(some_id)
        if piece is not None and piece.several:
            return PIECE_ROW + piece.several
        return (piece or plan.pieces[plan.several[some_id][0]]).component

    def _table_row(self, table: PieceTable, depth: int) -> Row:
        if not table.several:
            return self._piece_row(table.pieces[0], table, depth)
        kept = all(piece.keep for piece in table.pieces)
        done, of = _how_far(s for piece in table.pieces for s in self.work.get(piece.id, ()))
        cells = ("kept" if kept else "pieces", table_in_words(self.board, table), _of(done, of), "")
        return Row(
            PIECE_ROW + table.id,
            cells,
            "caution" if kept else "faint",
            handle=table.id,
            depth=depth,
        )

    def _piece_row(self, piece: Piece, table: PieceTable, depth: int) -> Row:
        word, tone = state_of(self.board, piece)
        usual = {
            *(shared(self.board.plan, table.pieces) if table.several else ()),
            "keep",
        }  # the word says it
        facts = ", ".join(
            fact for key, fact in facts_of(self.board.plan, piece).items() if key not in usual
        )
        text = f"{piece.name}: {facts}" if facts else piece.name
        done, of = _how_far(self.work.get(piece.id, ()))
        return Row(
            PIECE_ROW + piece.id,
            (word, text, _of(done, of), ""),
            tone,
            handle=piece.id,
            depth=depth,
        )

    def lines(self, some_id: str) -> list[Line]:
        """What there is to read of a table or a piece beside its row."""
        piece = self.board.plan.pieces.get(some_id)
        if piece is not None:
            return piece_lines(self.board, piece, self.work.get(piece.id, ()))
        table = next((t for of in self.tables.values() for t in of if t.id == some_id), None)
        return table_lines(self.board, table) if table else []


def piece_tables(board: Board) -> Iterator[PieceTable]:
    """All tables of pieces in the order of the files."""
    plan = board.plan
    seen = set[str]()
    for piece in plan.pieces.values():
        if not piece.several:
            yield PieceTable(piece.id, piece.name, (piece,), False)
        elif piece.several not in seen:
            seen.add(piece.several)
            of_them = tuple(plan.pieces[one] for one in plan.several[piece.several])
            yield PieceTable(piece.several, table_name(piece.several), of_them, True)


def facts_of(plan: Plan, piece: Piece) -> dict[str, str]:
    """What is known of a piece, by its keys in the file, each in words that stand alone."""
    found = "" if piece.spare or piece.as_found == "unknown" else piece.as_found
    facts = {
        "live": "" if piece.live is None else "live" if piece.live else "dead",
        "kind": piece.kind,
        "material": piece.material,
        "size": piece.size,
        "place": piece.place,
        "as_found": found,
        "period": plan.vehicle.time_in_words(piece.period),
        "condition": piece.condition,
        "intended": f"to do: {piece.intended}" if piece.intended else "",
        "runs": runs_in_words(piece),
        "serves": f"for {piece.serves}" if piece.serves else "",
        "keep": KEPT if piece.keep else "",
    }
    return {key: " ".join(fact.split()) for key, fact in facts.items() if fact.strip()}


def shared(plan: Plan, pieces: Iterable[Piece]) -> dict[str, str]:
    """The facts that all of these have in common, spares not asked: nobody found those."""
    every = [facts_of(plan, piece) for piece in pieces if not piece.spare]
    return {k: v for k, v in every[0].items() if all(facts.get(k) == v for facts in every)}


def table_in_words(board: Board, table: PieceTable) -> str:
    """ "Arches: 7 and 1 spare, ash, missing": how many there are and what all have in common."""
    return ", ".join([f"{table.name}: {counted(table)}", *_in_common(board, table)])


def counted(table: PieceTable) -> str:
    """ "7 and 1 spare"."""
    spares = sum(piece.spare for piece in table.pieces)
    count = len(table.pieces) - spares
    return f"{count} and {how_many(spares, 'spare')}" if spares else str(count)


def _in_common(board: Board, table: PieceTable) -> Iterator[str]:
    common = shared(board.plan, table.pieces)
    yield from common.values()
    if "as_found" not in common:
        found = [p.as_found for p in table.pieces if "as_found" in facts_of(board.plan, p)]
        yield from (f"{found.count(word)} {word}" for word in dict.fromkeys(found))
    kept = sum(piece.keep for piece in table.pieces)
    if kept and "keep" not in common:
        yield f"{kept} {KEPT}"
    failed = sum(piece.id in board.history.failed for piece in table.pieces)
    if failed:
        yield f"{failed} failed"


def state_of(board: Board, piece: Piece) -> tuple[str, Tone]:
    """One word for how a piece stands, and its tone."""
    if piece.id in board.history.failed:
        return "failed", "warning"
    if piece.id in board.history.stands_for.values():
        return "replaced", "faint"
    if piece.keep:
        return "kept", "caution"
    if piece.spare:
        return ("in use", "strong") if piece.id in board.history.stands_for else ("spare", "faint")
    return "piece", "faint"


def table_lines(board: Board, table: PieceTable) -> list[Line]:
    """What is known of several of a kind."""
    lines = [title(f"{table.name}: {counted(table)}")]
    common = shared(board.plan, table.pieces)
    lines += [Line(fact, _tone(key)) for key, fact in common.items()]
    own = [fact for fact in _in_common(board, table) if fact not in common.values()]
    if own:
        lines.append(Line(", ".join(own)))
    return [*lines, Line(component_name(board.plan, table.pieces[0].component), "faint", 0, "on:")]


def _how_far(work: Iterable[Standing]) -> tuple[int, int]:
    counted_work = [standing for standing in work if standing.state != "set aside"]
    return sum(standing.work_done for standing in counted_work), len(counted_work)


def _of(done: int, of: int) -> str:
    return f"{done} of {of}" if of else ""


def _tone(key: str) -> Tone:
    return "caution" if key == "keep" else "plain"
