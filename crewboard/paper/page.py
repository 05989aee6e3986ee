"""A page to print: one HTML text without scripts, links or anything fetched from elsewhere."""

from __future__ import annotations

from crewboard.legible import legible
from crewboard.telling.line import Line
from crewboard.telling.report import Chapter, Sheet

_STYLE = """
body { font: 11pt/1.35 sans-serif; margin: 2em auto; max-width: 46em; color: #000; }
h1 { font-size: 15pt; } h2 { font-size: 12pt; margin: 1em 0 .2em; } h3 { font-size: 11pt; }
ul { margin: .2em 0; padding-left: 1.2em; } section { break-inside: avoid; }
.caution { border: 2px solid #000; padding: .4em .6em; }
@media print { body { margin: 0; } }
"""


def escaped(text: str) -> str:
    """Any text as it was typed: nothing in it is markup, and nothing steers the reader's screen."""
    from html import escape

    return escape(legible(text))


def sheet_page(sheet: Sheet) -> str:
    """The sheet as one whole page, every text escaped."""
    body = "".join(_chapter(chapter, 2) for chapter in sheet.chapters)
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta http-equiv="Content-Security-Policy" '
        "content=\"default-src 'none'; style-src 'unsafe-inline'\">\n"
        f"<title>{escaped(sheet.title)}</title>\n<style>{_STYLE}</style>\n</head>\n<body>\n"
        f'<h1>{escaped(sheet.title)}</h1>\n<p class="caution">{escaped(sheet.caution)}</p>\n'
        f"{body}</body>\n</html>\n"
    )


def _chapter(chapter: Chapter, level: int) -> str:
    items = "".join(f"<li>{escaped(_words(line))}</li>" for line in chapter.points)
    inside = f"<ul>{items}</ul>\n" if items else ""
    inside += "".join(_chapter(part, level + 1) for part in chapter.parts)
    return f"<section><h{level}>{escaped(chapter.heading)}</h{level}>\n{inside}</section>\n"


def _words(line: Line) -> str:
    return line.text if line.word in ("", "-") else f"{line.word} {line.text}"
