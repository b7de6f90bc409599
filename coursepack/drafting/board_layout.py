"""A cutting plan: its boards one under the other, the pieces along each in the order of cutting, what is left."""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from functools import partial
from itertools import groupby, product

from coursepack.drafting.board_rows import Row, Span, plan_rows, true_mm
from coursepack.drafting.dimension import GAP_MM, Linear, Spacing
from coursepack.drafting.label import centred, label_box
from coursepack.drafting.lettering import width_em
from coursepack.drafting.marking import refuse_missing
from coursepack.drafting.part import Sizes
from coursepack.drafting.placing import ways
from coursepack.drafting.scale import SCALES, at_scale, finished
from coursepack.drafting.settling import APART_MM, Choice, Layout
from coursepack.drafting.sheet import SMALL_MM, Drawing, Frame, Label, Line, LineKind, Mark, Piece, Stroke
from coursepack.drafting.wording import listed, spoken
from coursepack.place import LessonFault
from coursepack.quantity import printed, typeset

BOARD_SCALES = (*SCALES, Fraction(1, 100))  # a board may be longer than any other part of a shop sheet
TALL_MM = 7.0  # on paper, of a board
CUT_MM = 0.8  # on paper, of a saw cut: at the scale of a board its kerf would close up
BETWEEN_MM = 3.5  # from one board with its lettering to the next
ENTRY_MM = 4.0  # from one to the next in the list of pieces
ASIDE_MM = 0.3  # of a letter under its piece, to the left of the middle: clear of the offcut's first line
LINE_MM = 4.2  # from line to line of the list of pieces
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
NOTE = "lengths only, saw cuts drawn wider"


def board_layout(sizes: Sizes, marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw the boards of a cutting plan at one scale, equal ones once, at most four kinds of them.

    Sizes in mm: kerf and trim, with which the plan was made; its shape is `plan`. Raises LessonFault where it does
    not fit, kerf and trim do not go with the plan, or a dimension is asked that it does not have.
    """
    refuse_missing("cutting plan", marks, layout_measure(sizes))
    rows, left_out = plan_rows(sizes)
    fitted = at_scale(
        "cutting plan",
        lambda by, room, spacing: _draft(rows, left_out, marks, by, room, spacing),
        frame,
        max(row.length for row in rows),
        lambda _: NOTE,
        BOARD_SCALES,
    )
    return finished("Cutting plan", fitted, frame, _alt(rows, left_out, marks), lambda _: NOTE)


def layout_measure(sizes: Sizes) -> dict[str, float]:
    """Give the true value of every dimension in mm: the length of each kind of board, and of its offcut."""
    true: dict[str, float] = {}
    for row in plan_rows(sizes)[0]:
        true[f"board_{row.number}"] = row.length
        if row.offcut:
            true[f"offcut_{row.number}"] = row.offcut[1] - row.offcut[0]
    return true


def _draft(
    rows: Sequence[Row],
    left_out: int,
    marks: Mapping[str, Mark],
    scale: float,
    room: Frame,
    spacing: Spacing,
) -> Piece:
    names = _names(rows, scale, spacing)
    drawn, low = Piece(), 0.0
    for row in rows:
        layout = Layout(_board(row, names, scale, spacing), room)
        for choices in (*_crowded(row, names, scale, spacing), *_dimensions(row, marks, scale, spacing)):
            layout.settle(choices)
        drawn += layout.piece.moved(0.0, low - layout.box.top)
        low -= layout.box.height + BETWEEN_MM
    return drawn + _listed(names, left_out, low, room)


def _names(rows: Sequence[Row], scale: float, spacing: Spacing) -> dict[str, str]:
    """Return what each length of piece is lettered with: the length where that fits in all, else a capital letter."""
    pieces = {str(piece): piece for row in rows for _, piece in row.pieces}
    in_order = sorted(pieces, key=lambda text: -true_mm(pieces[text]))
    lettered = {text: printed(pieces[text]) for text in in_order}
    if all(
        width_em(name) * spacing.letter + 2.0 <= true_mm(pieces[text]) * scale
        for text, name in lettered.items()
    ):
        return lettered
    if len(in_order) > len(LETTERS):
        raise LessonFault(f"the plan has {len(in_order)} lengths of pieces", f"draw at most {len(LETTERS)}")
    return dict(zip(in_order, LETTERS, strict=False))


def _board(row: Row, names: Mapping[str, str], scale: float, spacing: Spacing) -> Piece:
    """Draw a board with its pieces and its offcut crossed out; over it how many are cut so."""
    pieces = [(_drawn_span(row, span, scale), names[str(piece)]) for span, piece in row.pieces]
    labels = [
        centred(Mark(name), (sum(span) / 2, TALL_MM / 2), spacing.letter)
        for span, name in pieces
        if _fits(name, span, spacing.letter)
    ]
    labels.append(Label(_heading(row), GAP_MM, TALL_MM + 1.3, "left", size_mm=SMALL_MM))
    strokes = [_stroke("thin", (0.0, row.length * scale)), _stroke("outline", *(span for span, _ in pieces))]
    if row.offcut:
        left, right = _drawn_span(row, row.offcut, scale)
        cross = ((left, 0.0), (right, TALL_MM)), ((left, TALL_MM), (right, 0.0))
        strokes += [_stroke("thin", (left, right)), Stroke("layer", cross)]
    return Piece(tuple(strokes), (), tuple(labels))


def _heading(row: Row) -> str:
    return f"Board {row.number}, {row.count} ×" if row.count > 1 else f"Board {row.number}"


def _drawn_span(row: Row, span: Span, scale: float) -> Span:
    """Return where a piece begins and ends on paper: short of the saw cuts, drawn wider than they are."""
    low, high = (end * scale for end in span)
    half = min(CUT_MM, (high - low) / 2) / 2
    return low + half * (span[0] > 0), high - half * (span[1] < row.length)


def _fits(name: str, span: Span, size_mm: float) -> bool:
    return width_em(name) * size_mm + 1.2 <= span[1] - span[0]


def _stroke(kind: LineKind, *spans: Span) -> Stroke:
    return Stroke(kind, tuple(_rectangle(span) for span in spans))


def _rectangle(span: Span) -> Line:
    left, right = span
    return (left, 0.0), (right, 0.0), (right, TALL_MM), (left, TALL_MM), (left, 0.0)


def _dimensions(
    row: Row, marks: Mapping[str, Mark], scale: float, spacing: Spacing
) -> Iterator[Iterator[Choice]]:
    board, left = f"board_{row.number}", f"offcut_{row.number}"
    if board in marks:
        ends = (0.0, TALL_MM), (row.length * scale, TALL_MM)
        yield ways(Linear(board, marks[board], "above", ends, TALL_MM, spacing))
    if left in marks and row.offcut:
        low, high = row.offcut
        ends = (low * scale, 0.0), (high * scale, 0.0)
        yield ways(Linear(left, marks[left], "below", ends, 0.0, spacing, low_first=True, sideways=True))


def _crowded(
    row: Row, names: Mapping[str, str], scale: float, spacing: Spacing
) -> Iterator[Iterator[Choice]]:
    """Give the ways to letter pieces that are too small for it: each under the board, or equal ones together."""
    for text, run in groupby(row.pieces, key=lambda piece: str(piece[1])):
        spans, name = [_drawn_span(row, span, scale) for span, _ in run], names[text]
        if _fits(name, spans[0], spacing.letter):
            continue
        if width_em(name) * spacing.letter + APART_MM < spans[0][1] - spans[0][0] + CUT_MM:
            yield from (_under(name, (left + right) / 2, spacing) for left, right in spans)
        else:
            many = f"{len(spans)} × {name}" if len(spans) > 1 else name
            yield _below(many, (spans[0][0] + spans[-1][1]) / 2, spacing)


def _under(name: str, middle: float, spacing: Spacing) -> Iterator[Choice]:
    label = centred(Mark(name), (middle - ASIDE_MM, -2.4), spacing.letter)
    yield Choice(label_box(label), partial(Piece, (), (), (label,)))


def _below(name: str, middle: float, spacing: Spacing) -> Iterator[Choice]:
    """Letter a run of pieces under the board, left of a line from its middle where that is free."""
    beside = width_em(name) * spacing.letter / 2 + 0.7
    for side, under in product((-beside, beside), (3.6, 7.4, 11.2, 15.0)):
        label = centred(Mark(name), (middle + side, -under), spacing.letter)
        leader = Stroke("dimension", (((middle, -under), (middle, TALL_MM / 2)),))
        yield Choice(label_box(label), partial(Piece, (leader,), (), (label,)))


def _listed(names: Mapping[str, str], left_out: int, top: float, room: Frame) -> Piece:
    """List under the boards what each letter stands for, and how many kinds of boards are not drawn."""
    entries = [f"{name} = {typeset(text)}" for text, name in names.items() if name in LETTERS]
    lines = _in_lines(entries, room.width)
    if left_out:
        lines.append([f"and {left_out} more kind{'s' if left_out > 1 else ''} of board, not drawn"])
    labels: list[Label] = []
    for number, line in enumerate(lines):
        x = 0.0
        for entry in line:
            labels.append(Label(entry, x, top - 2.0 - LINE_MM * number, "left", size_mm=SMALL_MM))
            x += width_em(entry) * SMALL_MM + ENTRY_MM
    return Piece(labels=tuple(labels))


def _in_lines(entries: Sequence[str], width_mm: float) -> list[list[str]]:
    lines: list[list[str]] = []
    for entry in entries:
        wanted = [*(lines[-1] if lines else []), entry]
        if lines and sum(width_em(each) * SMALL_MM + ENTRY_MM for each in wanted) - ENTRY_MM <= width_mm:
            lines[-1] = wanted
        else:
            lines.append([entry])
    return lines


def _alt(rows: Sequence[Row], left_out: int, marks: Mapping[str, Mark]) -> str:
    boards = " ".join(
        f"Board {row.number}, {row.count} of it: {', '.join(spoken(str(piece)) for _, piece in row.pieces)}"
        f"{', and an offcut' if row.offcut else ''}."
        for row in rows
    )
    more = f" {left_out} more kinds of board are not drawn." if left_out else ""
    names = {f"board_{row.number}": f"length of board {row.number}" for row in rows}
    names |= {f"offcut_{row.number}": f"offcut of board {row.number}" for row in rows}
    return f"Boards of a cutting plan one under the other, with the pieces along them. {boards}{more} {listed(names, marks)}"
