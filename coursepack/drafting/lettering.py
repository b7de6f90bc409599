"""How much room lettering takes, known without a font at hand: widths in em, boxes in mm."""

import re
from functools import lru_cache
from typing import NamedTuple

# advance widths in thousandths of an em, regular and bold, of Source Sans Pro (its hmtx table)
ADVANCE: dict[str, tuple[int, int]] = {
    **dict.fromkeys("0123456789×+=−≈≤≥", (497, 528)),
    **dict.fromkeys(".,:;·", (249, 300)), **dict.fromkeys("²³", (367, 376)), "√": (557, 588), "|": (241, 268),
    " ": (200, 200), "\u00a0": (200, 200), "\u2009": (200, 200), "\u202f": (140, 140),
    "°": (331, 365), "⁄": (86, 96), "/": (350, 339), "-": (311, 332), "–": (480, 480),
    "(": (303, 344), ")": (303, 344), "%": (824, 857), "′": (249, 300), "″": (426, 537), "'": (249, 300),
    '"': (426, 537),
    "A": (544, 573), "B": (588, 605), "C": (571, 582), "D": (615, 635), "E": (527, 548), "F": (494, 524),
    "G": (617, 638), "H": (652, 674), "I": (263, 301), "J": (480, 509), "K": (579, 614), "L": (486, 518),
    "M": (727, 762), "N": (647, 665), "O": (664, 684), "P": (566, 596), "Q": (664, 684), "R": (569, 613),
    "S": (534, 556), "T": (536, 556), "U": (645, 665), "V": (515, 556), "W": (786, 813), "X": (513, 567),
    "Y": (476, 525), "Z": (539, 541),
    "a": (504, 527), "b": (553, 573), "c": (456, 467), "d": (555, 573), "e": (496, 518), "f": (292, 341),
    "g": (504, 534), "h": (544, 571), "i": (246, 276), "j": (247, 278), "k": (495, 548), "l": (255, 286),
    "m": (829, 857), "n": (547, 572), "o": (542, 555), "p": (555, 573), "q": (555, 573), "r": (347, 398),
    "s": (419, 443), "t": (338, 383), "u": (544, 568), "v": (467, 523), "w": (718, 776), "x": (446, 514),
    "y": (467, 521), "z": (425, 460),
}  # fmt: skip
WIDEST = (1000, 1000)
FRACTION_SLASH = "\u2044"
# a fraction, or what stands before the next one
FRACTION = re.compile(r"((?:(?!\d+\u2044\d).)+?(?=\d+\u2044\d|$))|(\d+)\u2044(\d+)", re.DOTALL)
SPACES = " \u00a0\u2009\u202f"
# a stacked fraction in the proportions of the face's own: figures, clear space and bar in em
STACKED = 0.64  # size of its figures
MIDDLE_EM = 0.33  # level of its bar, that of the minus sign
CLEAR_EM = 0.093  # from the middle of the bar to the figures
FIGURE_EM = 0.65  # height of a figure
SIDE_EM = 0.035  # beside the bar
OVERHANG_EM = 0.012  # of the bar beyond the figures' own room
NUMERATOR_EM = MIDDLE_EM + CLEAR_EM
DENOMINATOR_EM = MIDDLE_EM - CLEAR_EM - FIGURE_EM * STACKED
FRACTION_EM = 2 * (CLEAR_EM + FIGURE_EM * STACKED)  # height of the whole


class Run(NamedTuple):
    """Characters set in one size: where they start, in em of its size from its start and baseline."""

    text: str
    x: float
    y: float
    size: float


def stacked_width_em(numerator: str, denominator: str, *, bold: bool = False) -> float:
    """Width in em of a stacked fraction: its longer number in small figures, the bar's ends and air."""
    digits = max(len(numerator), len(denominator))
    return digits * STACKED * ADVANCE["0"][int(bold)] / 1000 + 2 * (SIDE_EM + OVERHANG_EM)


def width_em(text: str, *, bold: bool = False) -> float:
    """Width in em of a line of text; digits round a fraction slash count as one stacked fraction."""
    return set_out(text, bold=bold)[1]


@lru_cache(maxsize=512)  # labels are measured many times while a clear place is sought
def set_out(
    text: str, *, bold: bool = False
) -> tuple[tuple[Run, ...], float, tuple[tuple[float, float], ...]]:
    """Set a line of text: its runs, its width in em, and start and end in em of each fraction's bar."""
    runs: list[Run] = []
    bars: list[tuple[float, float]] = []
    x = 0.0
    for plain, above, below in FRACTION.findall(text):
        if plain:
            words = plain.lstrip(SPACES)
            runs.append(
                Run(words.rstrip(SPACES), x + _plain_em(plain[: len(plain) - len(words)], bold), 0.0, 1.0)
            )
            x += _plain_em(plain, bold)
            continue
        width = stacked_width_em(above, below, bold=bold)
        for digits, y in ((above, NUMERATOR_EM), (below, DENOMINATOR_EM)):
            own = len(digits) * STACKED * ADVANCE["0"][int(bold)] / 1000
            runs.append(Run(digits, x + (width - own) / 2, y, STACKED))
        bars.append((x + SIDE_EM, x + width - SIDE_EM))
        x += width
    return tuple(run for run in runs if run.text), x, tuple(bars)


def _plain_em(text: str, bold: bool) -> float:  # noqa: FBT001 - the weight, as everywhere here
    return sum(ADVANCE.get(character, WIDEST)[int(bold)] for character in text) / 1000


def wrapped(text: str, size_mm: float, room_mm: float) -> list[str]:
    """Break a text between words so that each line fits a width in mm, as far as its words let it."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width_em(longer) * size_mm <= room_mm:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines
