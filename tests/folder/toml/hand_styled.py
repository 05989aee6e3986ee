"""Random TOML files as people write them: comments, blank lines, any quoting, layout and order."""

from __future__ import annotations

import random
import string
from collections.abc import Callable

_WORDS = [
    "name",
    "after",
    "hours",
    "note",
    "crew",
    "Größe",
    "a b",
    "x.y",
    "k",
    "tasks",
    "1",
    "true",
]
_WORDS += ["'q'", 'say "hi"', "", "under_way", "-", "back\\slash", "inf", "2026-05-02"]
_TEXTS = ["", "cab", "it's", 'a "b"', "# no comment", "[not.a.table]", "x = 1", "C:\\new", "é—日本"]
_TEXTS += ["}", "]", "a, b", "'''", "tab\there", "ends with \\"]


class Styled:
    """One random file, made statement by statement with one random number generator."""

    def __init__(self, seed: int) -> None:
        self.dice = random.Random(seed)
        self.newline = "\r\n" if self.dice.random() < 0.25 else "\n"
        self.mark = "\ufeff" if self.dice.random() < 0.1 else ""
        self.lines: list[str] = []

    def text(self) -> str:
        """The whole file; sometimes its last line has no end."""
        dice = self.dice
        self.filler()
        self.pairs(dice.randrange(4))
        used = list[str]()
        for _ in range(dice.randrange(6)):
            self.table(used)
        self.filler()
        whole = self.newline.join(self.lines)
        if self.lines and dice.random() < 0.7:
            whole += self.newline
        return self.mark + whole

    def filler(self) -> None:
        """Blank lines and comment lines."""
        for _ in range(self.dice.choice([0, 0, 0, 1, 1, 2, 3])):
            note = f"# {self.dice.choice(_TEXTS)}".replace("\n", " ")
            self.lines.append(self.dice.choice(["", "", "  ", note, note, f"\t{note}"]))

    def pairs(self, count: int) -> None:
        """Pairs of one table, some with dotted keys."""
        used = set[str]()
        for _ in range(count):
            name = self.fresh(used)
            keys = [self.key(name)]
            twice = self.dice.random() < 0.15
            if twice or self.dice.random() < 0.1:
                inner = set[str]()
                for _ in range(1 + twice):
                    self.pair([*keys, self.key(self.fresh(inner))])
            else:
                self.pair(keys)

    def pair(self, keys: list[str]) -> None:
        """One pair with its comment, and perhaps lines around it."""
        dice = self.dice
        if dice.random() < 0.2:
            self.filler()
        dot = dice.choice([".", ".", " . "])
        equals = dice.choice([" = ", " = ", "=", "   =  "])
        indent = dice.choice(["", "", "", "  ", "\t"])
        comment = dice.choice(["", "", "", "  # why", "\t#"])
        written = f"{indent}{dot.join(keys)}{equals}{self.value(2)}{comment}"
        self.lines += written.split("\n")

    def table(self, used: list[str]) -> None:
        """A table, a list of tables or a table below either, each with its pairs."""
        dice = self.dice
        self.filler()
        roots = [f"t{number}" for number in range(20)]
        name = next(root for root in roots if root not in used)
        used.append(name)
        inner = set[str]()
        indent = dice.choice(["", "", "  "])
        comment = dice.choice(["", "", " # about it"])
        shape = dice.randrange(4)
        if shape == 0:
            self.lines.append(f"{indent}[{name}]{comment}")
            self.pairs(dice.randrange(4))
            if dice.random() < 0.4:
                self.filler()
                self.lines.append(f"[{name}.sub]")
                self.pairs(dice.randrange(3))
        elif shape == 1:
            for _ in range(dice.randrange(1, 4)):
                sub = self.key("s-" + self.fresh(inner))
                self.lines.append(f"{indent}[ {name} . {sub} ]{comment}")
                self.pairs(dice.randrange(4))
                self.filler()
        else:
            for _ in range(dice.randrange(1, 4)):
                self.lines.append(f"{indent}[[{name}]]{comment}")
                self.pairs(dice.randrange(3))
                self.filler()
                if shape == 3:
                    self.lines.append(f"{indent}[{name}.sub]")
                    self.pairs(dice.randrange(3))

    def fresh(self, used: set[str]) -> str:
        """A key not yet used in its table."""
        free = [word for word in _WORDS if word not in used]
        word = self.dice.choice(free or [f"z{len(used)}"])
        used.add(word)
        return word

    def key(self, name: str) -> str:
        """The key in one of the ways to write it."""
        ways = [basic(name, self.dice)]
        if name and all(char in string.ascii_letters + string.digits + "_-" for char in name):
            ways += [name] * 3
        if "'" not in name:
            ways.append(f"'{name}'")
        return self.dice.choice(ways)

    def value(self, depth: int) -> str:
        """A value in one of the ways to write it; `\\n` stands for the file's line end."""
        dice = self.dice
        ways: list[Callable[[], str]] = [self.scalar] * 5
        if depth:
            ways += [lambda: self.array(depth), lambda: self.inline(depth)]
        return dice.choice(ways)()

    def scalar(self) -> str:
        """A string, number, truth value, date or time."""
        dice = self.dice
        text = dice.choice(_TEXTS)
        plain = "1 -17 0 0xDEAD_beef 0o17 0b101 1_000 2.5 -0.0 6.02e23 inf -inf nan true false"
        plain += " 2026-05-02 09:30:00 09:30:00.25 2026-05-02T09:30:00 2026-05-02T09:30:00Z"
        plain += " 2026-05-02T09:30:00.123+02:00 +5"
        ways = [dice.choice(plain.split()), dice.choice(plain.split()), "2026-05-02 09:30:00"]
        ways += [basic(text, dice)] * 2
        ways.append('"""' + text.replace("\\", "\\\\").replace('"', '\\"') + '"""')
        ways.append('"""\nfirst ""line"\n  # second\n\n\\\n   joined"""')
        ways.append('"""a\n[x]\ny = 1""""')
        if "'" not in text:
            ways += [f"'{text}'"] * 2
        ways.append("'''\nraw \\n 'text'\n''''")
        return dice.choice(ways)

    def array(self, depth: int) -> str:
        """An array on one line or on several, with comments between."""
        dice = self.dice
        items = [self.value(depth - 1) for _ in range(dice.randrange(5))]
        if dice.random() < 0.5:
            tail = "," if items and dice.random() < 0.2 else ""
            pad = dice.choice(["", "", " "])
            return "[" + pad + dice.choice([", ", ","]).join(items) + tail + pad + "]"
        lines = ["[" + dice.choice(["", " # open"])]
        for number, item in enumerate(items):
            if dice.random() < 0.2:
                lines.append("  # between")
            last = number == len(items) - 1
            comma = "" if last and dice.random() < 0.5 else ","
            lines.append(f"    {item}{comma}" + dice.choice(["", "", "  # it", "  "]))
        if dice.random() < 0.2:
            lines.append("  # the end, with a comma, ")
        return "\n".join([*lines, dice.choice(["]", "  ]"])])

    def inline(self, depth: int) -> str:
        """An inline table on one line."""
        used = set[str]()
        pairs = list[str]()
        for _ in range(self.dice.randrange(4)):
            name = self.key(self.fresh(used))
            if self.dice.random() < 0.2:
                name += ".deep"
            value = self.value(depth - 1)
            pairs.append(name + self.dice.choice([" = ", "="]) + value)
        body = self.dice.choice([", ", ","]).join(pairs)
        return "{ " + body + " }" if self.dice.random() < 0.6 else "{" + body + "}"


def basic(text: str, dice: random.Random) -> str:
    """The text between double quotes, sometimes with needless escapes."""
    written = text.replace("\\", "\\\\").replace('"', '\\"')
    if text[:1].isascii() and text[:1].isalpha() and dice.random() < 0.1:
        written = f"\\u{ord(text[0]):04x}" + written[1:]
    return f'"{written}"'


def hand_styled(seed: int) -> str:
    """A random file as somebody might have written it by hand."""
    styled = Styled(seed)
    text = styled.text()
    return text.replace("\r\n", "\n").replace("\n", styled.newline)
