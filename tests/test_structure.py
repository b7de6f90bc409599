"""The order of the stages, the home of every library, who prints, who reads and who writes."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1] / "coursepack"
FILES = sorted(ROOT.rglob("*.py"))

# a module imports only from its own stage and those above it
STAGES = (
    ("place",), ("units",), ("quantity",), ("shoptext",), ("formula",), ("formulatext",), ("working",),
    ("trade",), ("reading.source", "reading.tables"), ("lesson",), ("reading",), ("numbers",), ("solve",),
    ("drafting",), ("listing",), ("draft",), ("figure",), ("pages",), ("press",), ("proof",), ("record", "filing", "inking"), ("easel",), ("workbook",), ("assemble",), ("cli",), ("__main__",),
)  # fmt: skip
HOMES = {
    "pint": {"units"}, "matplotlib": {"drafting.ink"}, "markdown": {"pages.prose"}, "jinja2": {"pages.compose"},
    "markupsafe": {"pages.compose", "pages.views", "pages.full_size"}, "weasyprint": {"press.layout", "press.drawings"}, "pydyf": {"press.tagging"},
    "pikepdf": {"press.binding"}, "PIL": {"reading.links"}, "fontTools": {"pages.foundry", "pages.ligatures"}, "pyphen": {"reading.plainness"}, "scipy": {"trade.stock_solver"},
}  # fmt: skip
PRINTS = {"cli"}
READS = {"reading.source", "reading.links"}  # sources, and the pictures beside them
READS_WHOLE = {
    "filing",  # the record that stands in build/
    "record", "pages.compose", "pages.foundry", "assemble", "press.layout",  # files of the package, and pictures that the reading allowed
}  # fmt: skip
WRITES = {"filing"}
WRITING = {
    "write_text",
    "write_bytes",
    "mkdir",
    "mkdtemp",
    "rename",
    "unlink",
    "rmtree",
    "touch",
    "symlink_to",
}


def module_of(path: Path) -> str:
    return ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")


def imports(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield node.module
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def stage_of(module: str) -> int:
    for end in range(module.count(".") + 1, 0, -1):
        stem = ".".join(module.split(".")[:end])
        for number, stage in enumerate(STAGES):
            if stem in stage:
                return number
    raise AssertionError(f"{module} has no stage: give it one in the list")


def calls(path: Path) -> Iterator[tuple[str, ast.Call]]:
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Call):
            function = node.func
            yield (
                (function.attr if isinstance(function, ast.Attribute) else getattr(function, "id", "")),
                node,
            )


@pytest.mark.parametrize("path", FILES, ids=module_of)
def test_a_module_imports_only_from_its_own_stage_and_those_before(path: Path) -> None:
    if (here := module_of(path)) in {"__init__", ""}:
        return
    ours = {name.removeprefix("coursepack.") for name in imports(path) if name.startswith("coursepack.")}
    modules = {name for name in ours if (ROOT / Path(*name.split("."))).with_suffix(".py").exists()}
    later = {name for name in modules if stage_of(name) > stage_of(here)}
    assert not later, f"{here} imports from later stages"


@pytest.mark.parametrize("library", HOMES)
def test_an_outside_library_is_imported_in_its_home_only(library: str) -> None:
    found = {
        module_of(path)
        for path in FILES
        if any(n == library or n.startswith(f"{library}.") for n in imports(path))
    }
    assert found
    assert found <= HOMES[library]


def test_every_outside_library_has_a_home() -> None:
    import sys  # noqa: PLC0415

    roots = {name.partition(".")[0] for path in FILES for name in imports(path)}
    assert roots - {"coursepack", *sys.stdlib_module_names} - {
        "font_source_sans_pro",
        "font_source_serif_pro",
    } <= set(HOMES)


def test_only_the_command_line_prints() -> None:
    assert {module_of(path) for path in FILES if any(name == "print" for name, _ in calls(path))} == PRINTS


def does(names: set[str]) -> set[str]:
    return {module_of(path) for path in FILES if any(name in names for name, _ in calls(path))}


def test_only_the_reading_opens_sources_and_only_the_filing_writes() -> None:
    opens = [(module_of(path), call) for path in FILES for name, call in calls(path) if name == "open"]
    files = [(module, call) for module, call in opens if "Pdf" not in ast.unparse(call.func)]
    modes = {
        (module, str(a.value)) for module, call in files for a in call.args if isinstance(a, ast.Constant)
    }
    assert modes == {*((module, "rb") for module in READS), ("filing", "wb")}
    assert {module for module, _ in files} == READS | WRITES
    assert does(WRITING) == WRITES
    assert does({"read_text", "read_bytes"}) <= READS_WHOLE


def test_no_module_has_a_name_that_says_nothing() -> None:
    assert not {path.stem for path in FILES} & {"utils", "helpers", "common", "base", "misc"}
