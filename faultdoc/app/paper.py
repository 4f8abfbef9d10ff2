"""Cuts a document into pages, and paints them: for the PDF, for the printer, the same.

Qt's own paging cuts rows and leaves headings behind. Here the document is laid out once, as long as it is,
and cut where a cut does no harm: never inside a row, a picture or a line, never after a heading or the head of
a table, never before small print. Heads of tables come again on every page. Text stays text.
"""

from __future__ import annotations

from base64 import b64decode
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from PySide6.QtCore import QPointF, QRect, QRectF, QSizeF, Qt
from PySide6.QtGui import (
    QAbstractTextDocumentLayout,
    QFont,
    QImage,
    QPagedPaintDevice,
    QPainter,
    QPalette,
    QPyTextObject,
    QTextBlock,
    QTextCursor,
    QTextDocument,
    QTextFormat,
    QTextTable,
)
from PySide6.QtSvg import QSvgRenderer

from faultdoc.words import say

__all__ = ["Pictures", "Piece", "Slice", "cut", "paint", "pieces_of"]

PIXELS = 96.0
"""To the inch: what a picture's width and height count in, as in a browser."""
SHORT = 0.45
"""Part of a page up to which a table is not cut at all."""
LINES = 2
"""Lines of a paragraph that stay together at its start and at its end."""


class Pictures(QPyTextObject):
    """Paints the pictures that a document carries inside itself: SVG as lines, so that it is sharp in print."""

    def __init__(self, document: QTextDocument) -> None:
        super().__init__(document)
        self._kept: dict[str, QSvgRenderer | QImage] = {}
        document.documentLayout().registerHandler(int(QTextFormat.ObjectTypes.ImageObject.value), self)

    def intrinsicSize(self, document: QTextDocument, position: int, form: QTextFormat) -> QSizeF:
        """Return the size of a picture in the document's own units."""
        image, device = form.toImageFormat(), document.documentLayout().paintDevice()
        dots = device.logicalDpiY() / PIXELS if device is not None else 1.0
        return QSizeF(image.width() * dots, image.height() * dots)

    def drawObject(
        self, painter: QPainter, rect: QRectF | QRect, document: QTextDocument, position: int, form: QTextFormat
    ) -> None:
        """Paint a picture."""
        place = QRectF(rect)
        picture = self._picture(form.toImageFormat().name())
        if isinstance(picture, QSvgRenderer):
            picture.render(painter, place)
        else:
            painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
            painter.drawImage(place, picture)

    def _picture(self, address: str) -> QSvgRenderer | QImage:
        found = self._kept.get(address)
        if found is None:
            sort, _, data = address.partition(";base64,")
            content = b64decode(data)
            found = QSvgRenderer(content) if sort == "data:image/svg+xml" else QImage.fromData(content)
            self._kept[address] = found
        return found


@dataclass(frozen=True)
class Piece:
    """A stretch of the document that is not cut: a heading, a line of a paragraph, a row, a picture.

    Attributes:
        top, bottom: where it stands in the uncut document.
        keeps: whether the next piece must stand on the same page.
        new_page: whether it begins a page.
        table: number of its table, -1 outside tables; rows of one table join without a gap.
        head: from where to where the head of its table reaches, to be repeated; None where there is none.
        lines: heights at which it may be cut if it is higher than a page.
    """

    top: float
    bottom: float
    keeps: bool = False
    new_page: bool = False
    table: int = -1
    head: tuple[float, float] | None = None
    lines: tuple[float, ...] = ()


@dataclass(frozen=True)
class Slice:
    """What one page shows of the uncut document, below the repeated head of a table if there is one."""

    top: float
    bottom: float
    head: tuple[float, float] | None = None


# --- what there is ---


def pieces_of(document: QTextDocument, room: float) -> list[Piece]:
    """Return the pieces of a document that is laid out without pages, from top to bottom.

    Args:
        document: laid out.
        room: height of a page, in the document's units.
    """
    pieces: list[Piece] = []
    small = document.defaultFont().pointSizeF() - 1.0
    block, tables, small_print = document.begin(), 0, False
    while block.isValid():
        table = QTextCursor(block).currentTable()
        if table is not None:
            if pieces and pieces[-1].table < 0 and not small_print:
                # What leads in to the table.
                pieces[-1] = replace(pieces[-1], keeps=True)
            pieces += _rows(document, table, tables, SHORT * room)
            tables += 1
            # Behind the table's last cell.
            block = document.findBlock(table.lastPosition() + 1)
            continue
        if block.text().strip():
            lines = list(_lines(document, block))
            small_print = 0.0 < _size(block) <= small
            if pieces and small_print:
                pieces[-1] = replace(pieces[-1], keeps=True)
            pieces += _paragraph(block, lines)
        block = block.next()
    return pieces


def _size(block: QTextBlock) -> float:
    for fragment in _fragments(block):
        return float(fragment)
    return 0.0


def _fragments(block: QTextBlock) -> Iterator[float]:
    walk = block.begin()
    while not walk.atEnd():
        yield walk.fragment().charFormat().fontPointSize()
        walk += 1


def _lines(document: QTextDocument, block: QTextBlock) -> Iterator[tuple[float, float]]:
    top = document.documentLayout().blockBoundingRect(block).top()
    layout = block.layout()
    for number in range(layout.lineCount()):
        line = layout.lineAt(number)
        yield top + line.y(), top + line.y() + line.height()


def _paragraph(block: QTextBlock, lines: Sequence[tuple[float, float]]) -> Iterator[Piece]:
    form = block.blockFormat()
    heading = form.headingLevel() > 0
    breaks = bool(form.pageBreakPolicy() & QTextFormat.PageBreakFlag.PageBreak_AlwaysBefore)
    last = len(lines) - 1
    for number, (top, bottom) in enumerate(lines):
        together = number < LINES - 1 or last - LINES < number < last
        yield Piece(top, bottom, heading or (number < last and together), breaks and number == 0)


def _rows(document: QTextDocument, table: QTextTable, number: int, short: float) -> list[Piece]:
    heads = table.format().headerRowCount()
    spans = []
    for row in range(table.rows()):
        boxes = [box for column in range(table.columns()) for box in _cell(document, table, row, column)]
        spans.append((min(top for top, _ in boxes), max(bottom for _, bottom in boxes), _between(boxes)))
    frame = document.documentLayout().frameBoundingRect(table)
    # Qt gives the frame's place as that of the text in its first cell: as far down as it is to the right.
    frame.translate(0.0, -frame.left())
    # Rows join half way between the text of one and that of the next.
    edges = [frame.top(), *((one[1] + two[0]) / 2.0 for one, two in pairwise(spans)), frame.bottom()]
    head = (edges[0], edges[heads]) if heads else None
    last = table.rows() - 1
    whole = frame.height() <= short
    return [
        Piece(
            edges[row],
            edges[row + 1],
            # Below a head the first row stays with it and with the second, and the last but one with the last.
            keeps=row < last and (whole or (head is not None and (row <= heads or row == last - 1))),
            table=number,
            head=None if row <= heads else head,
            lines=between,
        )
        for row, (_, _, between) in enumerate(spans)
    ]


def _cell(document: QTextDocument, table: QTextTable, row: int, column: int) -> Iterator[tuple[float, float]]:
    cell = table.cellAt(row, column)
    block, last = cell.firstCursorPosition().block(), cell.lastCursorPosition().block()
    while True:
        yield from _lines(document, block)
        if block == last:
            return
        block = block.next()


def _between(boxes: Sequence[tuple[float, float]]) -> tuple[float, ...]:
    """Return the heights that no line crosses, below some line and above another."""
    found = sorted({bottom for _, bottom in boxes})
    return tuple(
        height for height in found[:-1] if not any(top < height - 0.5 < bottom - 1.0 for top, bottom in boxes)
    )


# --- where it is cut ---


def cut(pieces: Sequence[Piece], room: float) -> list[Slice]:
    """Return what each page shows.

    Args:
        pieces: from top to bottom.
        room: height of a page.

    Raises:
        ValueError: when a page has no room at all.
    """
    if room <= 0.0:
        raise ValueError("a page has some height")
    slices: list[Slice] = []
    first, top = 0, pieces[0].top if pieces else 0.0
    while first < len(pieces):
        begun = top > pieces[first].top
        head = pieces[first].head
        left = room - (head[1] - head[0] if head else 0.0)
        if left <= room / 4.0:
            # A head that fills the page is not worth repeating.
            head, left = None, room
        last = _last(pieces, first, top + left)
        if last < first:
            # Higher than a page: cut between its lines, or where the page ends.
            end = max((height for height in pieces[first].lines if top < height <= top + left), default=top + left)
            slices.append(Slice(top, end, head))
            top = end
            continue
        if not begun or last > first:
            last = _harmless(pieces, first, last)
        slices.append(Slice(top, pieces[last].bottom, head))
        first = last + 1
        top = pieces[first].top if first < len(pieces) else 0.0
    return slices


def _last(pieces: Sequence[Piece], first: int, limit: float) -> int:
    """Return the last piece that ends above the limit before one that begins a page; first - 1 for none."""
    last = first - 1
    for place in range(first, len(pieces)):
        if pieces[place].bottom > limit + 0.01 or (pieces[place].new_page and place > first):
            break
        last = place
    return last


def _harmless(pieces: Sequence[Piece], first: int, last: int) -> int:
    """Return the last piece after which a cut does no harm; `last` itself where there is none."""
    if last + 1 == len(pieces) or pieces[last + 1].new_page:
        return last
    return next((place for place in range(last, first - 1, -1) if not pieces[place].keeps), last)


# --- painting ---


def paint(document: QTextDocument, device: QPagedPaintDevice, painter: QPainter, footer: str) -> int:
    """Paint a document on the pages of a device; return how many there are.

    Args:
        document: laid out on `device` as wide as a page, without pages.
        device: a PDF writer or a printer, begun by `painter`.
        painter: active on the device.
        footer: what stands at the left of every page's foot; the page's number stands at the right.
    """
    resolution = device.logicalDpiY()
    page = QRectF(device.pageLayout().paintRectPixels(resolution))
    small = QFont(document.defaultFont())
    small.setPointSizeF(8.0)
    foot = 8.0 / 72.0 * resolution * 2.5
    room = page.height() - foot
    slices = cut(pieces_of(document, room), room) or [Slice(0.0, 0.0)]
    for number, one in enumerate(slices, start=1):
        if number > 1:
            device.newPage()
        down = 0.0
        if one.head is not None:
            _draw(document, painter, one.head[0], one.head[1], 0.0, page.width())
            down = one.head[1] - one.head[0]
        _draw(document, painter, one.top, one.bottom, down, page.width())
        painter.setFont(small)
        painter.setPen(Qt.GlobalColor.black)
        place = QRectF(0.0, page.height() - foot, page.width(), foot)
        right = say("Page {number} of {len}", number=number, len=len(slices))
        painter.drawText(place, int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignBottom), right)
        wide = painter.fontMetrics().horizontalAdvance(right + "   ")
        short = painter.fontMetrics().elidedText(footer, Qt.TextElideMode.ElideRight, int(page.width() - wide))
        painter.drawText(place, int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom), short)
    return len(slices)


def _draw(
    document: QTextDocument, painter: QPainter, top: float, bottom: float, down: float, width: float
) -> None:
    """Paint the document from `top` to `bottom`, `down` from the top of the page."""
    edge = painter.device().logicalDpiY() / PIXELS
    context = QAbstractTextDocumentLayout.PaintContext()
    # The report is printed on paper, whatever the window's colours are.
    context.palette.setColor(QPalette.ColorRole.Text, Qt.GlobalColor.black)
    painter.save()
    painter.translate(0.0, down - top)
    below = _rest(document, painter, top, bottom)
    # Text beyond the cut must not be in the file at all, or it would be found and read twice.
    context.clip = QRectF(0.0, below + edge, width, bottom - below - 2.0 * edge)
    # A frame's line lies on the cut: half of it on either side.
    painter.setClipRect(QRectF(-edge, top - edge, width + 2.0 * edge, bottom - top + 2.0 * edge))
    if context.clip.height() > 0.0:
        document.documentLayout().draw(painter, context)
    painter.restore()


def _rest(document: QTextDocument, painter: QPainter, top: float, bottom: float) -> float:
    """Paint what is left of a paragraph cut at `top`; return where it ends, `top` itself where none is cut.

    Line by line, as Qt would put the line above the cut into the file once more.
    """
    layout = document.documentLayout()
    block = document.findBlock(max(layout.hitTest(QPointF(0.0, top + 1.0), Qt.HitTestAccuracy.FuzzyHit), 0))
    place = layout.blockBoundingRect(block)
    if QTextCursor(block).currentTable() is not None or not place.top() + 1.0 < top < place.bottom() - 1.0:
        return top
    painter.setPen(Qt.GlobalColor.black)
    for number in range(block.layout().lineCount()):
        line = block.layout().lineAt(number)
        if top - 1.0 <= place.top() + line.y() < bottom - 1.0:
            line.draw(painter, place.topLeft())
    return min(place.bottom(), bottom)
