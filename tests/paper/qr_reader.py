"""A plain reader of square codes, to read back what was printed: without correction of errors, versions 1 to 11.

Written from ISO/IEC 18004; how words are dealt out into blocks (its table 9) stands below for the versions used.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import cache

Matrix = Sequence[Sequence[int]]
MASKS: tuple[Callable[[int, int], bool], ...] = (
    lambda row, column: (row + column) % 2 == 0,
    lambda row, column: row % 2 == 0,
    lambda row, column: column % 3 == 0,
    lambda row, column: (row + column) % 3 == 0,
    lambda row, column: (row // 2 + column // 3) % 2 == 0,
    lambda row, column: row * column % 2 + row * column % 3 == 0,
    lambda row, column: (row * column % 2 + row * column % 3) % 2 == 0,
    lambda row, column: ((row + column) % 2 + row * column % 3) % 2 == 0,
)
LEVELS = "MLHQ"  # by the two bits of the format
FORMAT_MASK = 0b101010000010010
ALIGNED: tuple[tuple[int, ...], ...] = (
    (),
    (6, 18),
    (6, 22),
    (6, 26),
    (6, 30),
    (6, 34),
    (6, 22, 38),
    (6, 24, 42),
    (6, 26, 46),
    (6, 28, 50),
    (6, 30, 54),
)
# for each version, and each of L, M, Q, H: pairs of number of blocks and words of data in each
BLOCKS: dict[int, dict[str, tuple[tuple[int, int], ...]]] = {
    1: {"L": ((1, 19),), "M": ((1, 16),), "Q": ((1, 13),), "H": ((1, 9),)},
    2: {"L": ((1, 34),), "M": ((1, 28),), "Q": ((1, 22),), "H": ((1, 16),)},
    3: {"L": ((1, 55),), "M": ((1, 44),), "Q": ((2, 17),), "H": ((2, 13),)},
    4: {"L": ((1, 80),), "M": ((2, 32),), "Q": ((2, 24),), "H": ((4, 9),)},
    5: {"L": ((1, 108),), "M": ((2, 43),), "Q": ((2, 15), (2, 16)), "H": ((2, 11), (2, 12))},
    6: {"L": ((2, 68),), "M": ((4, 27),), "Q": ((4, 19),), "H": ((4, 15),)},
    7: {"L": ((2, 78),), "M": ((4, 31),), "Q": ((2, 14), (4, 15)), "H": ((4, 13), (1, 14))},
    8: {"L": ((2, 97),), "M": ((2, 38), (2, 39)), "Q": ((4, 18), (2, 19)), "H": ((4, 14), (2, 15))},
    9: {"L": ((2, 116),), "M": ((3, 36), (2, 37)), "Q": ((4, 16), (4, 17)), "H": ((4, 12), (4, 13))},
    10: {"L": ((2, 68), (2, 69)), "M": ((4, 43), (1, 44)), "Q": ((6, 19), (2, 20)), "H": ((6, 15), (2, 16))},
    11: {"L": ((4, 81),), "M": ((1, 50), (4, 51)), "Q": ((4, 22), (4, 23)), "H": ((3, 12), (8, 13))},
}  # fmt: skip
LETTERS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"
DIGITS, CAPITALS, BYTES = 1, 2, 4


def read(matrix: Matrix) -> str:
    """The text of a code."""
    version = (len(matrix) - 17) // 4
    level, mask = _format(matrix)
    bits = [matrix[row][column] ^ MASKS[mask](row, column) for row, column in _way(len(matrix), version)]
    words = [_number(bits[at : at + 8]) for at in range(0, len(bits) - 7, 8)]
    data = _gathered(words, BLOCKS[version][level])
    return _text(Bits("".join(f"{word:08b}" for word in data)), version)


def _number(bits: Sequence[int]) -> int:
    return int("".join(str(int(bit)) for bit in bits), 2)


def _format(matrix: Matrix) -> tuple[str, int]:
    columns = (0, 1, 2, 3, 4, 5, 7, 8)
    bits = [matrix[8][column] for column in columns] + [matrix[row][8] for row in (7, 5, 4, 3, 2, 1, 0)]
    form = _number(bits) ^ FORMAT_MASK
    return LEVELS[form >> 13], form >> 10 & 0b111


@cache
def _way(size: int, version: int) -> Sequence[tuple[int, int]]:
    """The modules that carry data."""
    return tuple(place for place in _pairs(size) if not _fixed(*place, size, version))


def _pairs(size: int) -> Iterator[tuple[int, int]]:
    """All modules, in pairs of columns from the right, up and down in turn."""
    upward = True
    for right in [*range(size - 1, 6, -2), *range(5, 0, -2)]:
        for row in range(size - 1, -1, -1) if upward else range(size):
            for column in (right, right - 1):
                yield row, column
        upward = not upward


def _fixed(row: int, column: int, size: int, version: int) -> bool:
    """Whether a module belongs to a pattern, and carries no data."""
    corner = (row < 9 and (column < 9 or column >= size - 8)) or (row >= size - 8 and column < 9)
    timing = row == 6 or column == 6
    numbered = version >= 7 and ((row < 6 and column >= size - 11) or (column < 6 and row >= size - 11))
    places = ALIGNED[version - 1]
    free = [(a, b) for a in places for b in places if {(a, b)} - {(6, 6), (6, places[-1]), (places[-1], 6)}]
    aligned = any(abs(row - a) <= 2 and abs(column - b) <= 2 for a, b in free)
    return corner or timing or numbered or aligned


def _gathered(words: Sequence[int], groups: tuple[tuple[int, int], ...]) -> list[int]:
    """The words of data in their order: they were dealt out over the blocks in turn."""
    sizes = [size for count, size in groups for _ in range(count)]
    blocks: list[list[int]] = [[] for _ in sizes]
    dealt = iter(words)
    for place in range(max(sizes)):
        for block, size in zip(blocks, sizes, strict=True):
            if place < size:
                block.append(next(dealt))
    return [word for block in blocks for word in block]


class Bits:
    """Bits that are taken from the front."""

    def __init__(self, bits: str) -> None:
        self.bits = bits

    def take(self, count: int) -> int:
        taken, self.bits = self.bits[:count], self.bits[count:]
        return int(taken, 2)


def _text(bits: Bits, version: int) -> str:
    mode, large = bits.take(4), version >= 10
    if mode == BYTES:
        return bytes(bits.take(8) for _ in range(bits.take(16 if large else 8))).decode()
    if mode == CAPITALS:
        count = bits.take(11 if large else 9)
        pairs = [divmod(bits.take(11), 45) for _ in range(count // 2)]
        rest = [bits.take(6)] if count % 2 else []
        return "".join(LETTERS[one] for one in [*(number for pair in pairs for number in pair), *rest])
    assert mode == DIGITS
    count = bits.take(12 if large else 10)
    threes = [f"{bits.take(10):03d}" for _ in range(count // 3)]
    rest_digits = count % 3
    return "".join(threes) + (f"{bits.take(3 * rest_digits + 1):0{rest_digits}d}" if rest_digits else "")
