"""The book: every sentence rests on an entry or on the plan, and says so."""

from __future__ import annotations

import re
from collections.abc import Iterator
from html import escape
from html.parser import HTMLParser
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import pytest

from crewboard.folder.toml.values import toml_value
from crewboard.paper.leading import leading
from crewboard.telling.line import Pointer
from tests.command.a_shop import VEHICLE, AShop
from tests.command.calling import Shell

FRAME = """\
name = "Frame"
[pieces.ribs]
name = "Rib"
count = 4
as_found = "original"
extent = "2.5 m"
[tasks.splice]
title = "Splice the foot"
pieces = ["ribs/2"]
[tasks.copy]
title = "Make rib 3 anew"
pieces = ["ribs/3"]
"""
PERIODS = '[periods.second]\nname = "second body"\nsince = "about 1931"\n'


@pytest.fixture
def shop(call: Shell, tmp_path: Path) -> AShop:
    shop = AShop(call, tmp_path / "wagon")
    shop.write(
        FRAME, vehicle=VEHICLE.replace("[work_days]", 'shows = "second"\n[work_days]') + PERIODS
    )
    (shop.folder / "pictures").mkdir()
    (shop.folder / "pictures/a b.jpg").write_bytes(b"\xff\xd8\xff\xe0picture")
    for who in ("ada", "tom"):
        shop.kept("sign-in", who, at="08:50")
    seen = ("found", "<b>soft</b> foot", "--piece", "ribs/2", "--thought", "water [from] the roof")
    shop.kept(*seen, at="09:00")
    shop.kept("caption", "pictures/a b.jpg", "--shows", "before", "--piece", "ribs/2", at="09:01")
    shop.kept("done", "ribs/2", "spliced", "--share", "80", at="09:10")
    shop.kept("done", "ribs/3", "replaced in kind", "--why", "rotten", at="09:20")
    return shop


def test_an_approval_is_asked_for_until_it_is_answered(shop: AShop) -> None:
    shop.kept("hold", "approval", "--piece", "ribs/4", "--why", "the owner chooses", at="10:00")
    said = shop.call("book", shop.folder, "--at", "2026-05-02T11:00").out
    assert "asked: Rib 4 (the owner chooses); no answer yet" in said
    shop.kept("release", "ribs/4", "--why", "ash", at="11:00")
    said = shop.call("book", shop.folder, "--at", "2026-05-02T12:00").out
    assert "asked: Rib 4 (the owner chooses) (Sat" in said
    assert "approved: ash (Sat" in said


def test_what_is_refused_goes_on_waiting_and_the_book_says_why(shop: AShop) -> None:
    shop.kept("hold", "approval", "--piece", "ribs/4", "--why", "the owner chooses", at="10:00")
    no = ("release", shop.folder, "ribs/4", "--refused", "--by", "ada", *shop.at("10:30"))
    assert "say why it was refused" in shop.call(*no).err
    assert shop.call(*no, "--why", "too new").code == 0
    gone = ("gone", shop.folder, "ribs/4", "given away", "--to", "a museum", "--by", "ada")
    asked = shop.call(*gone, *shop.at("10:40"))
    assert "refused on Sat 2 May 2026: too new" in " ".join(asked.err.split())
    told = shop.call("holds", shop.folder, *shop.at("10:40")).out
    assert "awaiting approval since 10:00, refused on Sat 2 May 2026: too new" in told
    shop.kept("release", "ribs/4", "--why", "now they like it", at="11:00")
    assert shop.call(*gone, *shop.at("11:10")).code == 0
    said = shop.call("book", shop.folder, "--at", "2026-05-02T12:00").out
    assert said.index("refused: too new") < said.index("approved: now they like it")
    shop.kept("hold", "decision", "--piece", "ribs/3", "--why", "which wood", at="11:20")
    other = ("release", shop.folder, "ribs/3", "--refused", "--why", "no", "--by", "ada")
    assert "only an approval is refused" in shop.call(*other, *shop.at("11:30")).err


def test_the_task_says_which_finish_was_agreed_on(shop: AShop) -> None:
    frame = shop.folder / "components/frame.toml"
    assert "finish agreed on" not in shop.call("task", shop.folder, "splice").out
    vehicle = shop.folder / "vehicle.toml"
    vehicle.write_text('standard = "worn but whole"\n' + vehicle.read_text())
    assert "finish agreed on: worn but whole" in shop.call("task", shop.folder, "splice").out
    frame.write_text('standard = "oiled"\n' + frame.read_text())
    assert "finish agreed on: oiled" in shop.call("task", shop.folder, "splice").out


def statements(sections: list[dict[str, Any]]) -> Iterator[dict[str, Any]]:
    for section in sections:
        yield from section["statements"]
        yield from statements(section["parts"])


def said(shop: AShop, *of: str) -> list[dict[str, Any]]:
    book = shop.call("book", shop.folder, *of, "--json", *shop.at("12:00")).form
    return list(statements(book["sections"]))


def test_each_sentence_rests_on_entries_or_on_the_plan(shop: AShop) -> None:
    for of in ((), ("--of", "frame")):
        told = said(shop, *of)
        assert told
        assert all(one["entries"] or one["plan"] for one in told)
    words = {(one["word"], one["says"]) for one in said(shop, "--of", "frame")}
    assert ("seen", "<b>soft</b> foot") in words
    assert ("thought", "water [from] the roof") in words
    assert ("now", "spliced, on the vehicle") in words
    assert ("old", "the one found: where it is was not said") in words
    periods = [one["says"] for one in said(shop) if one["word"] == "period"]
    assert periods == ["second body, about 1931; the restoration shows this one"]


def test_how_much_is_original_names_its_basis(shop: AShop) -> None:
    """Four ribs of 2.5 m: two whole, one to 80 %, one replaced: 2.8 of 4 are 70 %."""
    shares = [one["says"] for one in said(shop, "--of", "frame") if one["word"] == "in all"]
    assert shares == [
        "70 % original by length (10 m, 4 pieces); 25 % replaced in kind; 5 % spliced in"
    ]


def test_what_is_taken_back_stands_in_it_no_more(shop: AShop) -> None:
    entry = next(one["entries"][0] for one in said(shop, "--of", "frame") if one["word"] == "seen")
    assert shop.call("take-back", shop.folder, entry, "--by", "ada").code == 0
    assert not [one for one in said(shop, "--of", "frame") if entry in one["entries"]]


def test_its_pages_show_the_pictures_of_the_folder_and_no_markup(shop: AShop) -> None:
    pages = shop.folder.parent / "the book"
    ended = shop.call("book", shop.folder, "--to", pages, *shop.at("12:00"))
    assert ended.code == 0, ended.err
    assert sorted(page.name for page in pages.iterdir()) == ["frame.html", "vehicle.html"]
    frame = (pages / "frame.html").read_text()
    assert '<img src="../wagon/pictures/a%20b.jpg"' in frame
    assert "&lt;b&gt;soft&lt;/b&gt; foot" in frame
    assert "img-src 'self' file:" in frame
    assert "img-src" not in (pages / "vehicle.html").read_text()
    assert shop.call("book", shop.folder, "--to", pages, *shop.at("12:30")).code == 0
    (pages / "frame.html").write_text("mine")
    refused = shop.call("book", shop.folder, "--to", pages, *shop.at("12:30"))
    assert "no page of ours" in refused.err
    assert (pages / "frame.html").read_text() == "mine"


def test_a_path_that_leads_outside_or_is_a_recording_is_only_named(shop: AShop) -> None:
    day = shop.folder / f"days/2026/{shop.day}.toml"
    outside = (
        "zz{} = {{ at = 2026-05-02T10:00:00, kind = \"picture\", file = '{}', "
        'shows = "before", pieces = ["frame/ribs/2"] }}\n'
    )
    files = ("../../etc/passwd.png", "/etc/x.png", "http://a/b.png", "recordings/walk.wav")
    with day.open("a") as file:
        file.writelines(outside.format(number, name) for number, name in enumerate(files))
    page = shop.call("report", "book", shop.folder, "--of", "frame", "--as", "html").out
    assert page.count("<img ") == 1
    assert "recordings/walk.wav" in page


HOSTILE = (
    "a 'b' \"c\".jpg",
    "<script>alert(1)<!--.jpg",
    "-rf --json.jpg",
    ".hidden.jpg",
    "line\nbreak.jpg",
    "50% #1 ?x&y=ü.jpg",
    "x" * 251 + ".jpg",
    "\x1b[31m[bold].jpg",
)


def test_pictures_of_any_name_are_shown_and_their_names_are_text(shop: AShop) -> None:
    day = shop.folder / f"days/2026/{shop.day}.toml"
    with day.open("a") as file:
        for number, name in enumerate(HOSTILE):
            (shop.folder / "pictures" / name).write_bytes(b"\xff\xd8\xff\xe0")
            spelled = toml_value(f"pictures/{name}")
            file.write(
                f'zz{number} = {{ at = 2026-05-02T10:00:00, kind = "picture", file = {spelled}, '
                'shows = "before", pieces = ["frame/ribs/2"] }\n'
            )
    pages = shop.folder.parent / "the #1 book"
    assert shop.call("book", shop.folder, "--to", pages, *shop.at("12:00")).code == 0
    page = (pages / "frame.html").read_text()
    shown = re.findall('<img src="([^"]*)"', page)
    assert [(pages / unquote(one)).resolve().name for one in shown[1:]] == list(HOSTILE)
    assert all((pages / unquote(one)).is_file() for one in shown)
    assert "<script>" not in page
    assert "\x1b" not in page
    told = shop.call("book", shop.folder, "--of", "frame", *shop.at("12:00")).out
    assert "\x1b" not in told
    assert "line\u240abreak.jpg" in "".join(told.split())


def test_what_is_listed_of_a_piece_names_it_on_the_page_of_the_vehicle(shop: AShop) -> None:
    before = ("--before", "frame/splice")
    for command, *said in (
        ("pattern", "curve"),
        ("source", "yard"),
        ("temporary", "props", *before),
    ):
        on_rib = ("--piece", "frame/ribs/2", *shop.at("11:00"), "--by", "ada")
        kept = shop.call(command, shop.folder, *said, *on_rib)
        assert kept.code == 0, kept.err
    told = " ".join(shop.call("book", shop.folder, *shop.at("12:00")).out.split())
    listed = told[told.index("Old photographs and papers") :]
    for sentence in ("Rib 2: Yard", "Rib 2: Curve", "Rib 2: Props"):
        assert sentence in listed


def test_below_a_picture_stand_its_words_first_and_then_its_path(shop: AShop) -> None:
    page = _book_page(shop)
    ((words, path),) = re.findall(r"<figcaption>(.*?)<br>(.*?)</figcaption>", page)
    (shown,) = re.findall('<img src="([^"]*)" alt="([^"]*)"', page)
    assert words == shown[1] != ""
    assert re.sub("<.*?>", "", path) in unquote(shown[0])
    assert "break-before: avoid" in page  # it does not go to the next sheet alone


def test_what_cannot_be_shown_has_a_sentence_in_its_place(shop: AShop) -> None:
    pictures, day = shop.folder / "pictures", shop.folder / f"days/2026/{shop.day}.toml"
    (shop.folder.parent / "secret.jpg").write_bytes(b"\xff\xd8\xff\xe0")
    (pictures / "link.jpg").symlink_to("../../secret.jpg")
    (pictures / "text.jpg").write_text("no picture at all")
    with (pictures / "huge.jpg").open("wb") as file:
        file.write(b"\xff\xd8\xff\xe0")
        file.truncate(500_000_000)
    why = {
        "link.jpg": 'the picture "pictures/link.jpg" is not inside the folder',
        "text.jpg": '"pictures/text.jpg" is no picture',
        "huge.jpg": '"pictures/huge.jpg" has 500 MB, too many to be shown',
        "gone.jpg": 'there is no picture "pictures/gone.jpg"',
    }
    with day.open("a") as lines:
        for number, name in enumerate(why):
            lines.write(
                f'zz{number} = {{ at = 2026-05-02T10:00:00, kind = "picture", '
                f'file = "pictures/{name}", shows = "before", pieces = ["frame/ribs/2"] }}\n'
            )
    for page in (
        shop.call("report", "book", shop.folder, "--of", "frame", "--as", "html").out,
        _book_page(shop),
    ):
        for name, sentence in why.items():
            assert f"{name}&quot;" in page
            assert f"<i>Not shown: {escape(sentence)}.</i>" in page
        assert page.count("<img ") == 1


def _book_page(shop: AShop) -> str:
    pages = shop.folder.parent / "book"
    assert shop.call("book", shop.folder, "--to", pages, *shop.at("12:00")).code == 0
    return (pages / "frame.html").read_text()


class Page(HTMLParser):
    """Where the links of a page lead, by their words, and the places that it has."""

    def __init__(self, path: Path) -> None:
        super().__init__()
        self.links: list[tuple[str, str]] = []
        self.places: set[str] = set()
        self._address = ""
        self.feed(path.read_text(encoding="utf-8"))
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        told = dict(attrs)
        self.places |= {told.get("id") or ""}
        self._address = (told.get("href") or "") if tag == "a" else ""

    def handle_data(self, data: str) -> None:
        if self._address:
            self.links.append((data, self._address))
            self._address = ""


def test_the_pages_lead_to_one_another_and_every_link_leads_somewhere(shop: AShop) -> None:
    (shop.folder / "components/vehicle.toml").write_text(
        'name = "Wheels & axles"\n[pieces.hub]\nname = "Rib"\nas_found = "original"\n'
    )
    shop.kept("reuse", "ribs/3", "--into", "vehicle/hub", "--old", at="09:40")
    shop.kept("reuse", "ribs/3", "--into", "ribs/1", "--old", at="09:41")
    pages = shop.folder.parent / "book"
    assert shop.call("book", shop.folder, "--to", pages, *shop.at("12:00")).code == 0
    read = {path.name: Page(path) for path in pages.iterdir()}
    assert set(read) == {"vehicle.html", "vehicle-.html", "frame.html"}, "no page is lost"
    for name, page in read.items():
        for _, address in page.links:
            file, _, place = unquote(address).partition("#")
            assert file in read, f"{name}: {address}"
            assert not place or place in read[file].places, f"{name}: {address}"
    vehicle, frame = dict(read["vehicle.html"].links), dict(read["frame.html"].links)
    assert vehicle["Frame"] == "frame.html"
    assert vehicle["Wheels & axles"] == "vehicle-.html"
    assert vehicle["Rib 3"] == "frame.html#frame/ribs/3"  # of which something is missing
    assert frame["The Plank Wagon, the whole of it"] == "vehicle.html"
    assert frame["Rib"] == "vehicle-.html#vehicle/hub"
    assert frame["Rib 1"] == "frame.html#frame/ribs/1"
    assert dict(read["vehicle-.html"].links)["Rib 3"] == "frame.html#frame/ribs/3"
    text = (pages / "vehicle-.html").read_text()
    assert 'holds wood of <a href="frame.html#frame/ribs/3">Rib 3</a>' in text


def test_an_entry_stands_once_among_the_lists_of_the_vehicle(shop: AShop) -> None:
    shop.kept("source", "the yard, seen from the gate", at="09:50")
    shop.kept("pattern", "curve of the ribs", at="09:51")
    shop.kept("departure", "bolts in place of rivets", at="09:52")
    told = [entry for one in said(shop) for entry in one["entries"] if one["word"] == ""]
    assert len(told) == len(set(told)) == 3


def test_a_name_that_leads_somewhere_is_a_whole_name_and_text() -> None:
    ways = (
        Pointer("Rib 1", "a#1"),
        Pointer("Rib 11", "a#11"),
        Pointer("amp", "a#amp"),
        Pointer("<b>", "a#b"),
    )
    text = leading("Rib 11, Rib 1 & Rib 12: amp, <b>x", ways, escape)
    assert text == (
        '<a href="a#11">Rib 11</a>, <a href="a#1">Rib 1</a> &amp; Rib 12: <a href="a#amp">amp</a>, '
        "&lt;b&gt;x"
    )


def test_a_finish_asks_where_the_old_piece_lies_until_that_is_said(shop: AShop) -> None:
    asked = shop.do("copy", "09:30", "10:00")
    assert "where is the old Rib 3 now?" in asked.err + asked.out
    asked = shop.do("splice", "09:40", "10:10", who="tom")
    assert "where is the part cut out of Rib 2 now?" in asked.err + asked.out
    assert "the old Rib 3" not in asked.err + asked.out, "only what this work took out"
    shop.kept("store", "ribs/3", "shelf 3", "--old", at="10:20")
    olds = [one["says"] for one in said(shop, "--of", "frame") if one["word"] == "old"]
    assert olds == ["the one found: put away: shelf 3"]


def test_what_is_missing_stands_at_its_end_and_at_the_end_of_the_day(shop: AShop) -> None:
    gaps = [one["says"] for one in said(shop, "--of", "frame") if one["word"] == "Rib 3"]
    assert any("where the old Rib 3 is" in gap for gap in gaps)
    closing = " ".join(shop.call("day-end", shop.folder, *shop.at("12:00")).out.split())
    assert "Missing on record after today" in closing
    assert "Say where the old Rib 3 is" in closing
    shop.kept("store", "ribs/3", "shelf 3", "--old", at="12:10")
    closing = " ".join(shop.call("day-end", shop.folder, *shop.at("12:20")).out.split())
    assert "where the old Rib 3" not in closing
