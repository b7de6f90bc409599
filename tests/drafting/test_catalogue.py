from coursepack.drafting.catalogue import FIGURES
from coursepack.reading.figure_checks import FIGURE_KINDS


def test_figures_are_listed_under_their_names() -> None:
    assert FIGURES
    assert all(figure.name == name for name, figure in FIGURES.items())


def test_what_may_be_missing_is_something_that_is_taken() -> None:
    for figure in FIGURES.values():
        assert figure.optional <= set(figure.takes)
        assert set(figure.takes.values()) | set(figure.gives.values()) <= set(FIGURE_KINDS)
