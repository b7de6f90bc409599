"""The table of ligatures of a face: stacked fractions, and the pairs of f.

Source: OpenType specification, GSUB (ligature substitution, chained sequence context format 3).
"""

from collections.abc import Mapping, Sequence
from typing import Any

from fontTools.otlLib.builder import buildCoverage, buildLigatureSubstSubtable, buildSingleSubstSubtable
from fontTools.ttLib import newTable
from fontTools.ttLib.tables import otTables

DIGITS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
SLASH = "fraction"
WIDE_SLASH = "bench2044"
_LETTER_LIGATURES = {
    ("f", "i"): ("f_i", "fi"),
    ("f", "l"): ("f_l", "fl"),
    ("f", "f"): ("f_f",),
    ("f", "f", "i"): ("f_f_i",),
    ("f", "f", "l"): ("f_f_l",),
}


def substitutions(order: Sequence[str], fractions: Mapping[tuple[str, ...], str]) -> Any:
    """Make the table; `order` names all glyphs, `fractions` gives the glyph of each row of glyphs."""
    ids = {name: number for number, name in enumerate(order)}
    letters = {k: next(n for n in names if n in ids) for k, names in _LETTER_LIGATURES.items()}
    by_length = [{k: v for k, v in fractions.items() if len(k) - k.index(SLASH) == n + 1} for n in (1, 2)]
    lookups = [_lookup(4, [buildLigatureSubstSubtable(pairs)]) for pairs in (letters, *by_length)]
    lookups.append(_lookup(1, [buildSingleSubstSubtable({SLASH: WIDE_SLASH})]))
    lookups.append(_lookup(6, _where_fractions_stand(ids)))
    lookups.append(_lookup(6, [_rule(ids, [DIGITS], [(SLASH,)], [], 3)]))
    table = newTable("GSUB")
    table.table = gsub = otTables.GSUB()
    gsub.Version = 0x00010000
    gsub.LookupList = otTables.LookupList()
    gsub.LookupList.Lookup = lookups
    gsub.FeatureList, gsub.ScriptList = _features(), _scripts()
    return table


def _where_fractions_stand(ids: dict[str, int]) -> list[Any]:
    """Let 1⁄2 stack only where no digit touches it: 1⁄25 is no half, 111⁄32 is not 1 11⁄32."""
    digit, slash = DIGITS, (SLASH,)
    rules = [_rule(ids, [digit], [digit], [], None)]
    for above in (1, 2):
        long, short = [*[digit] * above, slash, digit, digit], [*[digit] * above, slash, digit]
        rules += [
            _rule(ids, [], long, [digit], None),
            _rule(ids, [], long, [], 2),
            _rule(ids, [], short, [], 1),
        ]
    return rules


def _rule(
    ids: dict[str, int], before: list[Any], here: list[Any], after: list[Any], lookup: int | None
) -> Any:
    """Make one context (OpenType GSUB, chained sequence context format 3); without a lookup it forbids."""
    rule = otTables.ChainContextSubst()
    rule.Format = 3
    rule.BacktrackCoverage, rule.InputCoverage, rule.LookAheadCoverage = (
        [buildCoverage(list(glyphs), ids) for glyphs in part] for part in (before, here, after)
    )
    rule.SubstLookupRecord = []
    if lookup is not None:
        record = otTables.SubstLookupRecord()
        record.SequenceIndex, record.LookupListIndex = 0, lookup
        rule.SubstLookupRecord.append(record)
    return rule


def _lookup(kind: int, subtables: list[Any]) -> Any:
    lookup = otTables.Lookup()
    lookup.LookupType, lookup.LookupFlag, lookup.SubTable = kind, 0, subtables
    return lookup


def _features() -> Any:
    feature = otTables.Feature()
    feature.FeatureParams, feature.LookupListIndex = None, [0, 4, 5]
    record = otTables.FeatureRecord()
    record.FeatureTag, record.Feature = "liga", feature
    features = otTables.FeatureList()
    features.FeatureRecord = [record]
    return features


def _scripts() -> Any:
    scripts = otTables.ScriptList()
    scripts.ScriptRecord = []
    for tag in ("DFLT", "grek", "latn"):
        script, record, language = otTables.Script(), otTables.ScriptRecord(), otTables.DefaultLangSys()
        language.ReqFeatureIndex, language.FeatureIndex = 0xFFFF, [0]
        script.DefaultLangSys, script.LangSysRecord = language, []
        record.ScriptTag, record.Script = tag, script
        scripts.ScriptRecord.append(record)
    return scripts
