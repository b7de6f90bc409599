"""Every sign of a lesson has type, or its line is told."""

from pathlib import Path

import pytest

from coursepack.pages.lettering import advance, has_sign
from coursepack.pages.signs import EVERYDAY, signs_lacking
from tests.faulty.desk import read, sound_copy, spoil

FACES = ("serif-regular", "serif-italic", "serif-bold", "sans-regular", "sans-bold")


@pytest.mark.parametrize("face", FACES)
def test_every_face_has_the_everyday_signs(face: str) -> None:
    assert all(advance(sign, face, 11) >= 0 for sign in EVERYDAY - {"\t"})


def test_a_sign_without_type_is_told_with_its_line(tmp_path: Path) -> None:
    folder = spoil(sound_copy(tmp_path), ("01-bevels.md", "An edge is cut", "An edge 桁 of π ≈ 3 is ◦ cut"))
    told = [str(fault) for fault in signs_lacking(read(folder).lessons[0])]
    assert told == [
        "lessons/01-bevels.md:19: there is no type for '桁' (U+6841), '◦' (U+25E6); write it otherwise"
    ]


def test_a_sound_lesson_has_all_its_type(tmp_path: Path) -> None:
    assert not list(signs_lacking(read(sound_copy(tmp_path)).lessons[0]))
    assert has_sign("π")
