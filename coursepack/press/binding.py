"""Binds PDFs that were pressed apart into one, with their tags: the only module that knows pikepdf.

Joining pages alone would lose the tags: a page finds its tags by a number (StructParents) in a tree of its own
file. Source: ISO 32000-1, 14.7 (logical structure), 12.3.3 (outline), 12.3.2 (destinations).
"""

import io
from collections.abc import Sequence

import pikepdf
from pikepdf import Array, Dictionary, Object, Pdf

from coursepack.place import LessonFault


class BindingFault(LessonFault):
    """Chunks that cannot be bound."""


def bind(chunks: Sequence[bytes], *, odd: bool = True) -> bytes:
    """Bind tagged PDFs of the press, in order, into one; the same bytes each time.

    Title, language and viewer settings are those of the first. With `odd` each chunk begins on an odd page.
    Raises BindingFault for no chunk at all, for one that has no tags, and where two were pressed as the same
    chunk of their file (see PressJob), so that names in them clash.
    """
    if not chunks:
        raise BindingFault("there are no chunks to bind")
    if len(chunks) == 1:
        return chunks[0]
    with Pdf.open(io.BytesIO(chunks[0])) as book:
        _prepare(book, 0)
        for chunk in chunks[1:]:
            with Pdf.open(io.BytesIO(chunk)) as leaves:
                _prepare(leaves, _next_key(book))
                _append(book, leaves, odd=odd)
        out = io.BytesIO()
        book.save(out, deterministic_id=True, object_stream_mode=pikepdf.ObjectStreamMode.generate)
        return out.getvalue()


def _append(book: Pdf, leaves: Pdf, *, odd: bool) -> None:
    """Copy the pages first: tags and bookmarks copied after them then point to the copies."""
    if odd and len(book.pages) % 2:
        left, low, right, high = book.pages[-1].mediabox
        book.add_blank_page(page_size=(float(right) - float(left), float(high) - float(low)))
    book.pages.extend(leaves.pages)
    _join_tags(book.Root.StructTreeRoot, book.copy_foreign(leaves.Root.StructTreeRoot))
    if "/Outlines" in leaves.Root:
        _join_outlines(book, book.copy_foreign(leaves.Root.Outlines))


def _prepare(pdf: Pdf, base: int) -> None:
    """Make every number in a file unique, and do without names of places, before it is joined to others."""
    if "/StructTreeRoot" not in pdf.Root:
        raise BindingFault("a chunk has no tags")
    _renumber(pdf, base)
    _point_directly(pdf)


def _renumber(pdf: Pdf, base: int) -> None:
    """Raise the keys of the parent tree, in the tree and where pages and annotations use them."""
    for page in pdf.pages:
        if "/StructParents" in page.obj:
            page.obj.StructParents = int(page.obj.StructParents) + base
        for annotation in page.obj.get("/Annots", Array()):
            if "/StructParent" in annotation:
                annotation.StructParent = int(annotation.StructParent) + base
    numbers = pdf.Root.StructTreeRoot.ParentTree.Nums
    for place in range(0, len(numbers), 2):
        numbers[place] = int(numbers[place]) + base


def _next_key(pdf: Pdf) -> int:
    numbers = pdf.Root.StructTreeRoot.ParentTree.Nums
    return max((int(numbers[place]) for place in range(0, len(numbers), 2)), default=-1) + 1


def _point_directly(pdf: Pdf) -> None:
    """Replace destinations by name with the places they stand for; names of two files would clash."""
    names = pdf.Root.get("/Names")
    if names is None:
        return
    flat = names.Dests.Names
    places = {str(flat[place]): flat[place + 1] for place in range(0, len(flat), 2)}
    for page in pdf.pages:
        for annotation in page.obj.get("/Annots", Array()):
            if "/Dest" in annotation:
                annotation.Dest = places[str(annotation.Dest)]
    del pdf.Root["/Names"]


def _join_tags(root: Object, other: Object) -> None:
    """Hang the elements of the other tree below the document element of the first."""
    document = root.K[0]
    for kid in other.K[0].K:
        kid.P = document
        document.K.append(kid)
    root.ParentTree.Nums.extend(other.ParentTree.Nums)
    if "/IDTree" in other:
        _join_names(root, other.IDTree.Names)
    for table in ("/RoleMap", "/ClassMap"):
        if table in other:
            root[table] = Dictionary({**dict(other[table].items()), **dict(root.get(table, {}).items())})


def _join_names(root: Object, names: Object) -> None:
    """Merge two name trees; the names of one must stand in order, each once."""
    flat = [*(root.IDTree.Names if "/IDTree" in root else ()), *names]
    pairs = dict(zip(map(str, flat[0::2]), flat[1::2], strict=True))
    if len(pairs) < len(flat) / 2:
        raise BindingFault("two chunks name a header cell alike")
    root.IDTree = Dictionary(Names=Array([part for name in sorted(pairs) for part in (name, pairs[name])]))


def _join_outlines(book: Pdf, other: Object) -> None:
    """Chain the bookmarks of the other outline behind those of the book."""
    if "/Outlines" not in book.Root:
        book.Root.Outlines = other
        return
    outline = book.Root.Outlines
    outline.Last.Next, other.First.Prev = other.First, outline.Last
    mark: Object | None = other.First
    while mark is not None:
        mark.Parent = outline
        mark = mark.get("/Next")
    outline.Last = other.Last
    outline.Count = int(outline.Count) + int(other.Count)
