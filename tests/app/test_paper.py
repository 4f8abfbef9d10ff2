"""What comes out on paper: read back by pypdf, which knows nothing of how it was made."""

import re
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PdfReader

from faultdoc.app.paper import Piece, cut
from faultdoc.app.pdf import html_to_pdf

HEIGHT = 100.0


@st.composite
def piles(draw):
    """Pieces one below the other, some with a gap, some that keep the next one, a few higher than a page."""
    pieces, top = [], 0.0
    for _ in range(draw(st.integers(1, 25))):
        top += draw(st.sampled_from([0.0, 0.0, 4.0]))
        high = draw(st.one_of(st.floats(1.0, 60.0), st.just(30.0), st.floats(1.0, 250.0)))
        lines = tuple(sorted(draw(st.lists(st.floats(top, top + high), max_size=6))))
        keeps, new_page = draw(st.booleans()), draw(st.integers(0, 9)) == 0
        pieces.append(Piece(top, top + high, keeps, new_page, lines=lines))
        top += high
    return pieces


@settings(max_examples=60)
@given(piles())
def test_pages_lose_nothing_and_cut_only_where_it_does_no_harm(pieces):
    slices = cut(pieces, HEIGHT)
    assert (slices[0].top, slices[-1].bottom) == (pieces[0].top, pieces[-1].bottom)
    assert all(0.0 < one.bottom - one.top <= HEIGHT + 0.02 for one in slices)
    # Between the end of a page and the start of the next there is nothing but white.
    for one, two in pairwise(slices):
        assert one.bottom <= two.top
        lost = [piece for piece in pieces if piece.top < two.top and piece.bottom > one.bottom]
        assert one.bottom == two.top or not lost
    for one in slices[:-1]:
        # Only what is higher than a page is cut.
        inside = [piece for piece in pieces if piece.top < one.bottom < piece.bottom]
        assert all(piece.bottom - piece.top > HEIGHT for piece in inside)
        on_it = [place for place, piece in enumerate(pieces) if one.top <= piece.top < piece.bottom <= one.bottom]
        if on_it and pieces[on_it[-1]].keeps:
            # Then no place on this page was better, or the next piece begins a page by its own wish.
            assert pieces[on_it[-1] + 1].new_page or all(pieces[place].keeps for place in on_it)
    assert {piece.top for piece in pieces if piece.new_page} <= {one.top for one in slices}


def test_the_head_of_a_table_comes_again_and_takes_its_room():
    head = (0.0, 10.0)
    rows = [Piece(0.0, 10.0, keeps=True)] + [Piece(n * 10.0, n * 10.0 + 10.0, head=head) for n in range(1, 30)]
    first, *others = cut(rows, HEIGHT)
    assert (first.head, first.bottom) == (None, 100.0)
    assert all(one.head == head for one in others)
    assert all(one.bottom - one.top <= 90.0 for one in others)


def test_a_page_without_height_is_refused():
    with pytest.raises(ValueError, match="some height"):
        cut([Piece(0.0, 1.0)], 0.0)


# --- as a PDF ---


@pytest.fixture
def printed(qapp, tmp_path):
    def do(body, paper="A4", title="A report"):
        path = tmp_path / "r.pdf"
        html_to_pdf(f"<html><head><title>{title}</title></head><body>{body}</body></html>", path, paper=paper)
        return PdfReader(path)

    return do


def words(reader):
    return [" ".join(page.extract_text().split()) for page in reader.pages]


def table(rows, head="<thead><tr><th>Head one</th><th>Head two</th></tr></thead>"):
    body = "".join(f"<tr><td>{one}</td><td>{two}</td></tr>" for one, two in rows)
    return f'<table border="1" width="100%" cellspacing="0" cellpadding="3">{head}{body}</table>'


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_rows_are_whole_and_the_head_is_on_every_page(printed, paper):
    # Rows of one to nine lines, so that page ends fall everywhere in them.
    rows = [
        (f"row{n}begin" + "".join(f"<br>row{n}line{m}" for m in range(n % 9)) + f"<br>row{n}end", f"right{n}")
        for n in range(120)
    ]
    pages = words(printed("<p>Before</p>" + table(rows), paper))
    assert len(pages) > 5
    assert all("Head one" in page for page in pages)
    for n in range(120):
        (place,) = [place for place, page in enumerate(pages) if re.search(rf"\brow{n}begin\b", page)]
        for word in (f"row{n}end", f"right{n}", *(f"row{n}line{m}" for m in range(n % 9))):
            assert [place] == [at for at, page in enumerate(pages) if re.search(rf"\b{word}\b", page)]
            assert len(re.findall(rf"\b{word}\b", pages[place])) == 1


def test_headings_are_never_left_behind_nor_small_print_carried_over(printed):
    for filler in range(20, 75):
        body = "<p>filler</p>" * filler + "<h2>Heading</h2><h3>Deeper</h3><p>Leads in</p>"
        body += table([("a", "b")] * 4) + '<p style="font-size: 8pt">small print</p>'
        pages = words(printed(body))
        (place,) = [place for place, page in enumerate(pages) if "Heading" in page]
        assert "Deeper Leads in Head one Head two a b a b a b a b small print" in pages[place]


def test_a_row_higher_than_a_page_loses_nothing(printed):
    long = "<br>".join(f"line{n}" for n in range(300))
    pages = words(printed(table([(long, "short"), ("next", "row")])))
    found = [word for page in pages for word in re.findall(r"line\d+", page)]
    # Qt takes the line above a cut into the file once more, outside what is seen.
    assert list(dict.fromkeys(found)) == [f"line{n}" for n in range(300)]
    assert len(found) <= 300 + len(pages)
    assert "next" in pages[-1]


def test_a_long_paragraph_breaks_with_two_lines_at_least_on_either_side(printed):
    text = " ".join(f"word{n}" for n in range(40))
    for filler in range(40, 70):
        pages = [page.extract_text() for page in printed("<p>filler</p>" * filler + f"<p>{text}</p>").pages]
        lines = [[line for line in page.splitlines() if "word" in line] for page in pages]
        assert [word for page in lines for line in page for word in line.split()] == text.split()
        assert all(len(one) != 1 for one in lines)


@pytest.mark.parametrize(("paper", "points"), [("A4", (595, 842)), ("Letter", (612, 792))])
def test_size_numbers_title_and_fonts(printed, paper, points):
    # ISO 216 and ANSI/ASME Y14.1: 210 x 297 mm, 8.5 x 11 in.
    reader = printed("<p>one</p>" * 150, paper, "Chiller &amp; pump")
    pages = words(reader)
    assert len(pages) >= 3
    for number, (page, text) in enumerate(zip(reader.pages, pages, strict=True), start=1):
        assert (round(float(page.mediabox.width)), round(float(page.mediabox.height))) == points
        assert text.endswith(f"Page {number} of {len(pages)}") or f"Page {number} of {len(pages)}" in text
        assert "Chiller & pump" in text
    assert reader.metadata.title == "Chiller & pump"
    assert reader.metadata.creator == "FaultDoc"
    fonts = [font.get_object() for page in reader.pages for font in page["/Resources"]["/Font"].values()]
    assert fonts
    for font in fonts:
        # ISO 32000-1, 9.9: an embedded font has its program in the descriptor.
        (below,) = font["/DescendantFonts"]
        assert {"/FontFile", "/FontFile2", "/FontFile3"} & set(below.get_object()["/FontDescriptor"].get_object())


def test_text_in_a_drawing_stays_text(printed):
    from faultdoc.record.figures import Figure

    drawing = Figure("a", "", '<svg xmlns="http://www.w3.org/2000/svg" width="300" height="80" '
                      'font-size="14"><text x="10" y="30">Findable</text></svg>')  # fmt: skip
    reader = printed(f'<p>Before</p><p><img src="{drawing.address}" width="300" height="80"></p><p>After</p>')
    assert "Findable" in words(reader)[0]
    assert not reader.pages[0].images


def test_a_photo_is_in_the_file_and_on_one_page(printed, qapp):
    from PySide6.QtCore import QBuffer, QIODevice
    from PySide6.QtGui import QImage

    from faultdoc.record.figures import Figure

    image = QImage(600, 400, QImage.Format.Format_RGB32)
    image.fill(0x336699)
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    image.save(buffer, "JPEG")
    photo = Figure("a", "", bytes(buffer.data().data()))
    for filler in (30, 40, 50, 60):
        reader = printed("<p>f</p>" * filler + f'<p><img src="{photo.address}" width="600" height="400"></p>')
        held = [len(page.images) for page in reader.pages]
        assert sum(held) == 1
