"""Lettering on paper: the room that each label takes, where its text starts, and its own lines."""

from dataclasses import replace

from coursepack.drafting.lettering import FRACTION_EM, FRACTION_SLASH, MIDDLE_EM, set_out, width_em
from coursepack.drafting.sheet import LETTER_MM, SMALL_MM, Align, Box, Label, Line, Mark, Point

RULE_MM = 13.0  # length of the rule that a student writes on: room for a mixed inch
# shorter ones by the unit beside them, never by the answer: an angle; a count, bare or with the word of what is counted
RULES_MM = {"°": 10.0, "": 8.0, "RINGS": 8.0}
WRITING_MM = 7.0  # height kept free above it
RULE_UP_MM = 0.3  # from the foot of a blank's room to its rule
BOX_PAD_MM = 0.9  # between an answer and its box
BESIDE_MM = 0.9  # between a rule and its unit


def label_box(label: Label) -> Box:
    """Room that a label takes in mm, with its box, or with its rule, writing space and unit.

    An answer takes at least the room of the blank it fills, so that the key keeps the sheet's layout.
    """
    width, low, high = _extent(label)
    left = label.x - {"left": 0.0, "centre": width / 2, "right": width}[label.align]
    if label.angle == 90:
        start = label.y + left - label.x
        return Box(label.x - high, start, label.x - low, start + width)
    return Box(left, label.y + low, left + width, label.y + high)


def _extent(label: Label) -> tuple[float, float, float]:
    middle = MIDDLE_EM * label.size_mm
    if label.hand == "blank":
        return (
            _blank_width(label.text, label.size_mm),
            middle - WRITING_MM / 2 - RULE_UP_MM,
            middle + WRITING_MM / 2 + RULE_UP_MM,
        )
    half = _half_height(label)
    width = width_em(label.text, bold=label.hand != "print") * label.size_mm
    if label.hand != "answer":
        return width, middle - half, middle + half
    half = max(half + BOX_PAD_MM, WRITING_MM / 2) + RULE_UP_MM
    return (
        max(width + 2 * BOX_PAD_MM + 0.6, _blank_width(_unit(label.text), label.size_mm)),
        middle - half,
        middle + half,
    )


def _half_height(label: Label) -> float:
    return (FRACTION_EM / 2 if FRACTION_SLASH in label.text else 0.5) * label.size_mm


def _unit(answer: str) -> str:
    """Return the unit that stands on the blank of an answer, none for a plain number."""
    if answer.endswith(("°", "%", "″")):
        return answer[-1]
    last = answer.rsplit(maxsplit=1)[-1]
    if not last[-1].isdigit():
        return last
    return ":" if ":" in last else ""


def _blank_width(unit: str, size_mm: float) -> float:
    return rule_mm(unit) + (BESIDE_MM + width_em(unit) * size_mm if unit else 0.0)


def rule_mm(unit: str) -> float:
    """Return the length of the rule that an answer in a unit is written on, in mm: the same for every answer."""
    return RULES_MM.get(unit, RULE_MM)


def label_lines(label: Label) -> tuple[Line, ...]:
    """Give the lines round a label: a blank's rule, an answer's box."""
    if label.hand == "blank":
        box = label_box(label)
        level = box.bottom + RULE_UP_MM
        return (((box.left, level), (box.left + rule_mm(label.text), level)),)
    if label.hand != "answer":
        return ()
    x, y = label_start(label)
    middle = y + MIDDLE_EM * label.size_mm
    tall = _half_height(label) + BOX_PAD_MM / 2
    left, right = x - BOX_PAD_MM, x + width_em(label.text, bold=True) * label.size_mm + BOX_PAD_MM
    low, high = middle - tall, middle + tall
    return (((left, low), (right, low), (right, high), (left, high), (left, low)),)


def label_bars(label: Label) -> tuple[Line, ...]:
    """Give the bars of a label's fractions."""
    if FRACTION_SLASH not in label.text or label.hand == "blank":
        return ()
    x, y = label_start(label)
    middle = y + MIDDLE_EM * label.size_mm
    spans = set_out(label.text, bold=label.hand != "print")[2]
    return tuple(tuple((x + em * label.size_mm, middle) for em in span) for span in spans)


def label_start(label: Label) -> Point:
    """Where a label's text starts: x and baseline in mm. Its characters follow by their widths, unkerned."""
    box = label_box(label)
    if label.hand == "blank":
        return box.left + rule_mm(label.text) + BESIDE_MM, box.bottom + 0.6
    if label.hand == "answer":
        return _answer_start(label, box)
    return (label.x, box.bottom) if label.angle == 90 else (box.left, label.y)


def _answer_start(label: Label, box: Box) -> Point:
    """Where an answer's text starts: in the middle of its room, or at the end of a leader, where the rule was."""
    width = width_em(label.text, bold=True) * label.size_mm
    if label.align == "centre":
        return (box.left + box.right - width) / 2, label.y
    foot = box.bottom + RULE_UP_MM + BOX_PAD_MM / 2 + _half_height(label)
    x = box.left + BOX_PAD_MM if label.align == "left" else box.right - BOX_PAD_MM - width
    return x, foot - MIDDLE_EM * label.size_mm


def aligned(label: Label, align: Align) -> Label:
    """Return a centred label in the same room; at the left or right an answer's box stands where a leader ends."""
    if align == "centre":
        return label
    box = label_box(label)
    return replace(label, x=box.left if align == "left" else box.right, align=align)


def question_label(label: Label) -> Label | None:
    """Return the small letter at the beginning of a blank's rule: which of several questions it answers."""
    if label.hand != "blank" or not label.question:
        return None
    box = label_box(label)
    return Label(label.question, box.left, box.bottom + 1.0, "left", size_mm=SMALL_MM)


def centred(mark: Mark, middle: Point, size_mm: float = LETTER_MM, of: str = "") -> Label:
    """Letter a mark with its middle at a point."""
    x, y = middle
    return Label(
        mark.text,
        x,
        y - MIDDLE_EM * size_mm,
        hand=mark.hand,
        size_mm=size_mm,
        of=of,
        question=mark.question,
    )
