"""What is measured along a blank that lies out of level, and its tilt, laid out about the view from its side."""

from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from dataclasses import replace
from functools import partial
from itertools import chain, pairwise, permutations, product
from math import degrees

from coursepack.drafting.detail_shapes import ROUND_MM, circle, letter_ways
from coursepack.drafting.dimension import Linear, Side, Spacing
from coursepack.drafting.levelling_view import TICK_MM, View, side
from coursepack.drafting.narrow_angle import Narrow, narrow_ways
from coursepack.drafting.placing import ways
from coursepack.drafting.settling import Choice, Layout, NoRoom
from coursepack.drafting.sheet import Box, Frame, Mark, Piece, Point, Stroke

FURTHER_MM = (5.0, 8.0, 12.0)  # past the blank, where its tilt is read
ROWS = 5
OVER = ("level", "length")
UNDER = ("apart", "overhang", "span")  # tried in every order: where they are short, few let all find room
PAST = {"span": ("apart", "overhang"), "length": ("level", "overhang")}  # the short ones have the first row

Place = tuple[Side, tuple[Point, Point], float]  # of a length: its side, its ends, where its rows start


def side_view(view: View, marks: Mapping[str, Mark], room: Frame, spacing: Spacing) -> Piece:
    """Draw the blank from its side with all that is measured there. Raises NoRoom where it does not fit."""
    details = {"rise": ("A", (view.on[0], view.top)), "packing": ("B", (view.span, 0.0))}
    rounds = {letter: view.turned(at) for name, (letter, at) in details.items() if name in marks}
    circles = Stroke("dimension", tuple(circle(middle, ROUND_MM) for middle in rounds.values()))
    bare = Layout(side(view) + Piece((circles,)), room).piece
    over, under = ([name for name in names if name in marks] for names in (OVER, UNDER))
    for order, sideways in product(permutations(under), (False, True)):
        layout = Layout(bare, room)
        with suppress(NoRoom):
            for letter, middle in rounds.items():
                layout.settle(letter_ways(letter, middle))
            for name in (*over, *order):
                layout.settle(_leaning(view, _linear(view, name, marks, spacing, sideways=sideways)))
            if "tilt" in marks:
                layout.settle(_tilt(view, marks["tilt"], spacing))
            return layout.piece
    raise NoRoom


def _linear(
    view: View, name: str, marks: Mapping[str, Mark], spacing: Spacing, *, sideways: bool
) -> Iterator[Linear]:
    """Lay a length out in each of its places, the best first; a short one lettered past an end, outward, where `sideways`."""
    is_past = not marks.keys().isdisjoint(PAST.get(name, ()))
    first = spacing.row * 2 if is_past else None
    for side_of, ends, line in _places(view)[name]:
        aside = sideways and name not in PAST
        yield Linear(name, marks[name], side_of, ends, line, spacing, first, low_first=aside, sideways=aside)


def _places(view: View) -> dict[str, tuple[Place, ...]]:
    """Give the places of each length: of the level and the whole over it, of the rest under the floor."""
    high, low, top = view.over, view.floor - TICK_MM, view.top
    left, right = -view.past, view.span + view.past
    contacts = [(view.lie.apart * number * view.by, low) for number in range(view.lie.supports)]
    first, last = contacts[0], contacts[-1]
    return {
        "level": (("above", ((view.on[0], high), (view.on[1], high)), high),),
        "length": (("above", ((left, top), (right, top)), high),),
        "apart": tuple(("below", pair, low) for pair in pairwise(contacts)),
        "overhang": (
            ("below", ((left, 0.0), first), low),
            ("below", (last, (right, 0.0)), low),
            ("above", ((left, top), (0.0, top)), high),
        ),
        "span": (("below", (first, last), low),),
    }


def _leaning(view: View, dims: Iterable[Linear]) -> Iterator[Choice]:
    """Give the ways of a length in its places, turned with the blank, its lettering upright."""
    for choice in chain.from_iterable(ways(dim, ROWS if dim.name in PAST else 1) for dim in dims):
        left, low, right, high = choice.room
        middle = (left + right) / 2, (low + high) / 2
        x, y = view.turned(middle)
        dx, dy = x - middle[0], y - middle[1]
        room = Box(left + dx, low + dy, right + dx, high + dy)
        yield Choice(room, partial(_turned, view, choice, (dx, dy)))


def _turned(view: View, choice: Choice, by: Point) -> Piece:
    piece = choice.drawn()
    strokes = tuple(Stroke(stroke.kind, view.lines(*stroke.lines)) for stroke in piece.strokes)
    fills = tuple(replace(fill, polygon=view.lines(fill.polygon)[0]) for fill in piece.fills)
    return Piece(strokes, fills, Piece(labels=piece.labels).moved(*by).labels)


def _tilt(view: View, mark: Mark, spacing: Spacing) -> Iterator[Choice]:
    """Give the ways of the tilt, between the level through the high contact and the blank's underside."""
    end = view.span + view.past
    radii = tuple(end + further for further in FURTHER_MM)
    turns = -degrees(view.lie.tilt), 0.0
    return narrow_ways(Narrow("tilt", mark, (0.0, 0.0), turns, (end, end), radii, spacing))
