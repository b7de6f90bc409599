"""Putting a term's sheets into build/: whole or not at all, and nothing that stood there is lost."""

import glob
import json
import os
import shutil
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from hashlib import sha256
from pathlib import Path
from typing import Any

from coursepack.place import LessonFault, Place

RECORD = "record.json"


class FilingFault(LessonFault):
    """The sheets cannot be put away; what stood there is whole."""


def standing(folder: Path) -> dict[str, Any]:
    """Return the record that stands in a term's folder, or an empty one."""
    _put_back(folder)
    with suppress(OSError, ValueError):
        found = json.loads((folder / RECORD).read_text("utf-8"))
        if isinstance(found, dict):
            return found
    return {}


def is_whole(folder: Path, sheets: Mapping[str, str]) -> bool:
    """True where every sheet stands in the folder with the bytes that the record names."""
    try:
        return bool(sheets) and all(
            digest(folder.joinpath(name).read_bytes()) == known for name, known in sheets.items()
        )
    except OSError:
        return False


def digest(data: bytes) -> str:
    """Return the SHA-256 of a file's bytes."""
    return sha256(data).hexdigest()


def put_away(folder: Path, files: Mapping[str, bytes], stale: set[str]) -> None:
    """Put files into a folder beside what is there, without those that are stale; raises FilingFault.

    All is written to a new folder first, which then takes the place of the old one.
    """
    with _fresh_beside(folder) as fresh:
        _fill(fresh, folder, files, stale)
        _swap(folder, fresh)


def put_one(path: Path, data: bytes) -> None:
    """Put one file in its place, whole or not at all; raises OSError where that cannot be."""
    with tempfile.NamedTemporaryFile(dir=path.parent, prefix=f".{path.name}.", delete=False) as fresh:
        fresh.write(data)
    try:
        Path(fresh.name).chmod(0o644)
        os.replace(fresh.name, path)  # noqa: PTH105 - one name for another, as below
    except OSError:
        Path(fresh.name).unlink()
        raise


def try_out(folder: Path) -> None:
    """Raise FilingFault where nothing can be put away, before anything is printed."""
    with _fresh_beside(folder):
        pass


@contextmanager
def _fresh_beside(folder: Path) -> Iterator[Path]:
    """Give a new folder beside another one; afterwards it is gone, and whatever else was left there."""
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        yield Path(tempfile.mkdtemp(prefix=_new(folder), dir=folder.parent))
    except OSError as trouble:
        raise _fault(folder, trouble) from trouble
    finally:
        _put_back(folder)
        for left in folder.parent.glob(f"{glob.escape(_new(folder))}*"):
            shutil.rmtree(left, ignore_errors=True)
        _clear_old(folder)


def _fill(fresh: Path, folder: Path, files: Mapping[str, bytes], stale: set[str]) -> None:
    fresh.chmod(0o755)
    kept = folder.iterdir() if folder.is_dir() else ()
    for item in kept:
        if item.name in files or item.name in stale:
            continue
        if item.is_dir():
            shutil.copytree(item, fresh / item.name, symlinks=True)
        else:
            shutil.copy2(item, fresh / item.name, follow_symlinks=False)
    for name, data in files.items():
        with (fresh / name).open("wb") as out:
            out.write(data)
            out.flush()
            os.fsync(out.fileno())


def _swap(folder: Path, fresh: Path) -> None:
    _clear_old(folder)
    if folder.exists():
        folder.rename(_old(folder))
    fresh.rename(folder)


def _new(folder: Path) -> str:
    return f".{folder.name}-new-"


def _old(folder: Path) -> Path:
    return folder.parent / f".{folder.name}-old"


def _clear_old(folder: Path) -> None:
    """Remove what a swap set aside, unless it is all there is."""
    if folder.exists():
        shutil.rmtree(_old(folder), ignore_errors=True)


def _put_back(folder: Path) -> None:
    """Mend a swap that was cut off between its two renames."""
    if not folder.exists() and _old(folder).is_dir():
        with suppress(OSError):
            _old(folder).rename(folder)


def _fault(folder: Path, trouble: OSError) -> FilingFault:
    return FilingFault(
        f"the sheets cannot be put away ({trouble.strerror or trouble}); what stood there is as it was",
        "make room, or make the folder writable, and assemble again",
        Place(str(folder)),
    )
