"""The words for who cannot see a figure: the sizes that are shown, and no more."""

from collections.abc import Mapping

from coursepack.drafting.sheet import Mark


def spoken(text: str) -> str:
    """Write a lettered size so that it reads aloud well: ordinary slash in fractions, degrees as a word."""
    degrees = " degree" if text in {"1°", "-1°", "−1°"} else " degrees"
    return " ".join(text.split()).replace("\u2044", "/").replace("°", degrees).replace("″", " in")


def listed(names: Mapping[str, str], marks: Mapping[str, Mark]) -> str:
    """One sentence a dimension: its size where printed or answered, else that it is to be found."""
    return " ".join(_sentence(names[name], marks[name]) for name in names if name in marks)


def _sentence(name: str, mark: Mark) -> str:
    asked = f"to be found, question {mark.question}" if mark.question else "to be found"
    said = asked if mark.hand == "blank" else spoken(mark.text)
    return f"{name[0].upper()}{name[1:]}: {said}."
