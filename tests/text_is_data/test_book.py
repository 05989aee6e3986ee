"""The book of the record shows any text, runs nothing, and reaches for nothing outside."""

from __future__ import annotations

from html.parser import HTMLParser
from pathlib import Path

from crewboard.legible import legible
from tests.command.calling import Shell
from tests.folder.a_vehicle import make
from tests.text_is_data.as_shown import AT, is_harmless, slow, squeezed


class BookPage(HTMLParser):
    """A page of the book as a browser takes it: its pictures are files of the folder."""

    def __init__(self, page: str) -> None:
        super().__init__(convert_charrefs=True)
        self.elements: set[str] = set()
        self.pictures: list[str] = []
        self.text = ""
        self.feed(page)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.add(tag)
        assert not [name for name, _ in attrs if name.startswith("on") or name == "style"]
        self.pictures += [value or "" for name, value in attrs if name == "src"]
        links = [value or "" for name, value in attrs if name == "href"]
        assert not [link for link in links if ":" in link or link.startswith("/") or ".." in link]

    def handle_data(self, data: str) -> None:
        self.text += data

    def handle_comment(self, data: str) -> None:
        raise AssertionError(data)


@slow
def test_the_pages_of_the_book_show_it_and_run_nothing(call: Shell, van: Path, text: str) -> None:
    ended = call("book", van, *AT)
    assert ended.code == 0, ended.err
    is_harmless(ended)
    is_harmless(call("book", van, "--of", text, *AT))
    assert call("book", van, "--to", van / "book", *AT).code == 0
    pages = [BookPage(path.read_text(encoding="utf-8")) for path in (van / "book").rglob("*.html")]
    assert len(pages) == 2
    for page in pages:
        assert not page.elements & {"script", "iframe", "object", "embed", "form", "base", "link"}
        assert page.pictures == []  # none of the files that it names is there
        assert squeezed(legible(text))[:200] in squeezed(page.text)


def test_a_picture_outside_the_folder_is_never_shown_in_the_book(
    call: Shell, tmp_path: Path
) -> None:
    van, outside = make(tmp_path / "van"), tmp_path / "secret.jpg"
    outside.write_bytes(b"\xff\xd8\xff\xe0")
    names = ("../secret.jpg", str(outside), "pictures/../../secret.jpg", "file:///etc/x.jpg")
    with (van / "days/2026/2026-05-02.toml").open("a", encoding="utf-8") as day:
        for number, name in enumerate(names):
            day.write(
                f'zzpict{number} = {{ at = 2026-05-02T12:0{number}:00, by = "ada", '
                f'kind = "picture", file = "{name}", component = "frame" }}\n'
            )
    assert call("book", van, "--to", van / "book", *AT).code == 0
    pages = [BookPage(path.read_text(encoding="utf-8")) for path in (van / "book").rglob("*.html")]
    assert [page.pictures for page in pages] == [[]] * len(pages)
