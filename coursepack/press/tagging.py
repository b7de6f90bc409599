"""The finishing touches on the tags of a PDF, before it is written.

What the layout engine leaves: the running heads stand in the text but in no tag, the names of table headers
repeat, a figure's frame is measured from the wrong corner. Sources: ISO 32000-1, 14.7.2 (identifiers), 14.8.2.2
(artifacts), 14.8.5.4 (layout attributes).
"""

from collections import defaultdict
from typing import Any

import pydyf

_PIXEL = 0.75  # points in a CSS pixel


def finish(pdf: Any, *, chunk: int, full_size: bool) -> None:
    """Mend the tags of an unwritten pydyf document and set what its viewer should do."""
    elements = {each.reference: each for each in pdf.objects if _is_element(each)}
    pages = {each.reference: each for each in pdf.objects if _is(each, "/Page")}
    outside = _outside(elements, pdf)
    _as_artifacts(outside, elements, pages, pdf)
    inside = [each for reference, each in elements.items() if reference not in outside]
    _unique_names(inside, list(pages), pdf, chunk)
    _figure_frames(inside, pages)
    _say_where_links_lead(pdf)
    if full_size:
        pdf.catalog["ViewerPreferences"]["PrintScaling"] = "/None"


def _is(each: Any, kind: str) -> bool:
    return isinstance(each, pydyf.Dictionary) and each.get("Type") == kind


def _is_element(each: Any) -> bool:
    return _is(each, "/StructElem")


def _root(pdf: Any) -> Any:
    return next(each for each in pdf.objects if _is(each, "/StructTreeRoot"))


def _outside(elements: dict[bytes, Any], pdf: Any) -> set[bytes]:
    """Return the elements that hang in no tree: those of the page margins."""
    found: set[bytes] = set()
    ahead = list(_root(pdf)["K"])
    while ahead:
        reference = ahead.pop()
        if reference in elements and reference not in found:
            found.add(reference)
            ahead += [kid for kid in elements[reference]["K"] if isinstance(kid, bytes)]
    return set(elements) - found


def _as_artifacts(outside: set[bytes], elements: dict[bytes, Any], pages: dict[bytes, Any], pdf: Any) -> None:
    """Mark what belongs to no tag as a running head, in the pages and in the parent tree."""
    marks: defaultdict[bytes, set[int]] = defaultdict(set)
    for reference in outside:
        element = elements[reference]
        marks[element["Pg"]] |= {kid for kid in element["K"] if isinstance(kid, int)}
        element.clear()
    for page, numbers in marks.items():
        stream = pdf.objects[int(pages[page]["Contents"].split()[0])].stream
        for place, item in enumerate(stream):
            if isinstance(item, pydyf.Dictionary) and item.get("MCID") in numbers:
                stream[place - 1 : place + 1] = ["/Artifact", pydyf.Dictionary({"Type": "/Pagination"})]
    for parents in _parent_tree(pdf)[1::2]:
        if isinstance(parents, list):
            parents[:] = [b"null" if parent in outside else parent for parent in parents]


def _parent_tree(pdf: Any) -> Any:
    return pdf.objects[int(_root(pdf)["ParentTree"].split()[0])]["Nums"]


def _unique_names(elements: list[Any], pages: list[bytes], pdf: Any, chunk: int) -> None:
    """Make the names of header cells unique by their chunk and page, and index them in the root."""
    names = {}
    order = {page: number for number, page in enumerate(pages)}
    for element in elements:
        prefix = f"c{chunk}-p{order[element['Pg']]}-" if "Pg" in element else ""
        if "ID" in element:
            element["ID"] = _prefixed(prefix, element["ID"])
            names[element["ID"].string] = element.reference
        if "Headers" in element.get("A", {}):
            element["A"]["Headers"] = pydyf.Array(
                [_prefixed(prefix, each) for each in element["A"]["Headers"]]
            )
    if names:
        flat = [part for name in sorted(names) for part in (pydyf.String(name), names[name])]
        _root(pdf)["IDTree"] = pydyf.Dictionary({"Names": pydyf.Array(flat)})


def _prefixed(prefix: str, name: Any) -> Any:
    return pydyf.String(prefix + name.string)


def _figure_frames(elements: list[Any], pages: dict[bytes, Any]) -> None:
    """Turn the frames of figures from pixels below the top into points above the foot."""
    for element in elements:
        frame = element.get("A", {}).get("BBox")
        if frame:
            left, top, right, bottom = (side * _PIXEL for side in frame)
            height = pages[element["Pg"]]["MediaBox"][3]
            element["A"]["BBox"] = pydyf.Array([left, height - bottom, right, height - top])


def _say_where_links_lead(pdf: Any) -> None:
    """Leave the number of the sheet out of what a link says of itself."""
    for each in pdf.objects:
        if _is(each, "/Annot") and "Dest" in each:
            each["Contents"] = pydyf.String(each["Contents"].string.partition("-")[2])
