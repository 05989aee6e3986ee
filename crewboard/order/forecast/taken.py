"""Which places and jigs are taken at a moment of one course, as bits of an integer."""

from __future__ import annotations

from collections.abc import Sequence


class Taken:
    """`full` are the bits of those that have no room for one more job."""

    __slots__ = ("_jobs", "_room", "full")

    def __init__(self, room: Sequence[int]) -> None:
        self.full = 0
        self._room = room
        self._jobs = [0] * len(room)

    def take(self, bits: int) -> None:
        """One more job in each of them."""
        while bits:
            bit = bits & -bits
            number = bit.bit_length() - 1
            self._jobs[number] += 1
            if self._jobs[number] >= self._room[number]:
                self.full |= bit
            bits ^= bit

    def free(self, bits: int) -> None:
        """One job fewer in each of them."""
        while bits:
            bit = bits & -bits
            number = bit.bit_length() - 1
            self._jobs[number] -= 1
            if self._jobs[number] < self._room[number]:
                self.full &= ~bit
            bits ^= bit
