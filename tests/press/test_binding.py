import io

import pikepdf
import pytest
from pikepdf import Object, Pdf

from coursepack.press.binding import BindingFault, bind
from coursepack.press.job import PressJob
from coursepack.press.layout import print_pdf
from tests.press.pdf_reading import bookmarks, elements, opened, parent_tree, texts
from tests.press.sheets import STYLE, document, sheet


def chunk(number: int, *benches: int, pages: int = 1) -> bytes:
    parts = tuple(sheet(bench, pages) for bench in benches)
    return print_pdf(PressJob("chunk", "Exercises", parts, STYLE, full_size=True, chunk=number))


@pytest.fixture(scope="module")
def chunks() -> list[bytes]:
    return [chunk(0, 1, 2), chunk(1, 3, pages=2), chunk(2, 4)]


def test_the_text_of_every_page_is_what_it_was(chunks: list[bytes]) -> None:
    before = []
    for each in chunks:
        with opened(each) as pdf:
            before += [page.text for page in texts(pdf)] + [{}] * (len(pdf.pages) % 2)
    with opened(bind(chunks)) as pdf:
        assert [page.text for page in texts(pdf)] == before[: len(pdf.pages)]
        assert len(pdf.pages) == 7


def test_every_mark_of_every_page_has_its_tag_and_the_tag_its_page(chunks: list[bytes]) -> None:
    with opened(bind(chunks)) as pdf:
        tree, tagged = parent_tree(pdf), {each.objgen for each in elements(pdf)}
        marks = 0
        for page, read in zip(pdf.pages, texts(pdf), strict=True):
            for mark in read.text.keys() - {-1}:
                tag = tree[int(page.obj.StructParents)][mark]
                assert tag.objgen in tagged
                assert tag.Pg.objgen == page.obj.objgen
                assert mark in list(tag.K)
                marks += 1
    assert marks > 40


def test_no_two_pages_or_links_share_a_key_and_links_are_found_from_their_tags(chunks: list[bytes]) -> None:
    with opened(bind(chunks)) as pdf:
        tree = parent_tree(pdf)
        links = [link for page in pdf.pages for link in page.obj.get("/Annots", [])]
        keys = [int(page.obj.StructParents) for page in pdf.pages if "/StructParents" in page.obj]
        keys += [int(link.StructParent) for link in links]
        for link in links:
            held = [
                kid.Obj.objgen
                for kid in tree[int(link.StructParent)].K
                if isinstance(kid, pikepdf.Dictionary)
            ]
            assert held == [link.objgen]
        assert len(keys) == len(set(keys)) == len(tree)
        assert len(links) == 5


def test_every_tag_hangs_below_the_one_document_in_the_order_of_the_pages(chunks: list[bytes]) -> None:
    with opened(bind(chunks)) as pdf:
        root = pdf.Root.StructTreeRoot
        order = {page.obj.objgen: number for number, page in enumerate(pdf.pages)}
        pages = [order[each.Pg.objgen] for each in root.K[0].K]
        assert [str(each.S) for each in root.K] == ["/Document"]
        assert all(each.P.objgen == root.K[0].objgen for each in root.K[0].K)
        assert pages == sorted(pages)
        assert set(pages) == {0, 2, 4, 5, 6}


def test_alternative_texts_and_header_cells_survive(chunks: list[bytes]) -> None:
    with opened(bind(chunks)) as pdf:
        tags = elements(pdf)
        names = [str(each.ID) for each in tags if "/ID" in each]
        used = [str(name) for each in tags if each.S == "/TD" for name in each.A.Headers]
        index = list(pdf.Root.StructTreeRoot.IDTree.Names)
        alts = [str(each.Alt) for each in tags if each.S == "/Figure"]
        pointed = {str(name): tag.objgen for name, tag in zip(index[0::2], index[1::2], strict=True)}
        assert pointed == {str(each.ID): each.objgen for each in tags if "/ID" in each}
    assert len(names) == len(set(names)) == 15
    assert set(used) <= set(names)
    assert [str(name) for name in index[0::2]] == sorted(names)
    assert alts == [
        f"Spar of bench {bench}, leaf {leaf}" for bench, leaf in ((1, 1), (2, 1), (3, 1), (3, 2), (4, 1))
    ]


def test_bookmarks_are_those_of_all_chunks_and_lead_to_their_pages(chunks: list[bytes]) -> None:
    with opened(bind(chunks)) as pdf:
        marks = bookmarks(pdf)
        assert int(pdf.Root.Outlines.Count) == len(marks)
        assert pdf.Root.Outlines.Last.Parent.objgen == pdf.Root.Outlines.objgen
    assert [mark for mark in marks if mark[0] == 1] == [
        (1, f"Bench {n}", page) for n, page in ((1, 1), (2, 3), (3, 5), (4, 7))
    ]


def test_links_lead_to_their_own_page(chunks: list[bytes]) -> None:
    with opened(bind(chunks)) as pdf:
        led = [
            (page.obj.objgen, link.Dest[0].objgen)
            for page in pdf.pages
            for link in page.obj.get("/Annots", [])
        ]
    assert all(here == there for here, there in led)


def test_title_language_and_viewer_settings_are_those_of_the_first(chunks: list[bytes]) -> None:
    with opened(bind(chunks)) as pdf:
        assert (str(pdf.docinfo.Title), str(pdf.Root.Lang)) == ("Exercises", "en")
        assert pdf.Root.ViewerPreferences.PrintScaling == "/None"
        assert bool(pdf.Root.MarkInfo.Marked)
        assert b"pdfuaid:part" in pdf.Root.Metadata.read_bytes()
        assert pdf.check_pdf_syntax() == []


def test_the_same_chunks_bind_to_the_same_bytes(chunks: list[bytes]) -> None:
    assert bind(chunks) == bind(list(chunks))


def test_chunks_follow_each_other_without_blank_pages_when_these_are_not_asked_for(
    chunks: list[bytes],
) -> None:
    with opened(bind([chunks[2], chunk(3, 5)], odd=False)) as pdf:
        assert len(pdf.pages) == 2


def test_one_chunk_is_left_as_it_is(chunks: list[bytes]) -> None:
    assert bind(chunks[:1]) == chunks[0]


def test_a_chunk_without_headings_or_links_is_bound_too(chunks: list[bytes]) -> None:
    plain = print_pdf(PressJob("plain", "Plain", (document("", "<p>plain</p>"),), STYLE))
    with opened(bind([plain, chunks[2], plain])) as pdf:
        assert [title for _, title, _ in bookmarks(pdf)] == ["Bench 4", "Bench 4, leaf 1"]
        assert "plain" in texts(pdf)[4].tagged


def test_the_roles_of_tags_are_kept(chunks: list[bytes]) -> None:
    def with_role(data: bytes, name: str) -> bytes:
        with opened(data) as pdf:
            pdf.Root.StructTreeRoot.RoleMap = pikepdf.Dictionary({name: pikepdf.Name.P})
            return _saved(pdf)

    with opened(bind([with_role(chunks[2], "/Note"), with_role(chunks[0], "/Aim")])) as pdf:
        roles: Object = pdf.Root.StructTreeRoot.RoleMap
        assert set(roles.keys()) == {"/Note", "/Aim"}


def _saved(pdf: Pdf) -> bytes:

    out = io.BytesIO()
    pdf.save(out)
    return out.getvalue()


def test_what_cannot_be_bound_is_a_fault(chunks: list[bytes]) -> None:
    with pytest.raises(BindingFault, match="no chunks"):
        bind([])
    with opened(chunks[2]) as pdf:
        del pdf.Root["/StructTreeRoot"]
        bare = _saved(pdf)
    with pytest.raises(BindingFault, match="a chunk has no tags"):
        bind([chunks[2], bare])


def test_chunks_that_were_pressed_as_the_same_one_are_refused(chunks: list[bytes]) -> None:
    with pytest.raises(BindingFault, match="alike"):
        bind([chunks[2], chunks[2]])
