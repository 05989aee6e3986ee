"""A page to print: one HTML text without scripts, links or anything fetched from elsewhere."""

from __future__ import annotations

from collections.abc import Iterable

from crewboard.legible import legible

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


def html_page(title: str, caution: str, body: str) -> str:
    """The whole page; `title` and `caution` are texts, `body` is made of this module's parts."""
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta http-equiv="Content-Security-Policy" '
        "content=\"default-src 'none'; style-src 'unsafe-inline'\">\n"
        f"<title>{escaped(title)}</title>\n<style>{_STYLE}</style>\n</head>\n<body>\n"
        f'<h1>{escaped(title)}</h1>\n<p class="caution">{escaped(caution)}</p>\n'
        f"{body}</body>\n</html>\n"
    )


def section(heading: str, inside: str, level: int = 2) -> str:
    """A heading (a text) and what stands below it (parts)."""
    return f"<section><h{level}>{escaped(heading)}</h{level}>\n{inside}</section>\n"


def points(texts: Iterable[str]) -> str:
    """A list of texts."""
    return "<ul>" + "".join(f"<li>{escaped(each)}</li>" for each in texts) + "</ul>\n"
