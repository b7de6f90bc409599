from collections.abc import Mapping
from pathlib import Path

import pytest

from tests.sheets.printed_course import Prepared, prepared, write_small_course

KINDS = ("reading", "exercises", "key")


@pytest.fixture(scope="session")
def sources(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write_small_course(tmp_path_factory.mktemp("sheets") / "lessons")


@pytest.fixture(scope="session")
def small(sources: Path) -> Prepared:
    return prepared(sources, "small")


@pytest.fixture(scope="session")
def pressed(small: Prepared) -> Mapping[tuple[str, str], bytes]:
    """Every sheet of the small course, pressed once: (lesson, kind) → PDF."""
    return {
        (record.lesson.id, kind): small.pressed(record, kind) for record in small.records for kind in KINDS
    }
