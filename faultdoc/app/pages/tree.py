"""A fault tree as a picture: drag to move it, wheel or pinch to come nearer, search, belief as shades."""

from __future__ import annotations

from typing import TYPE_CHECKING

import networkx as nx
from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QBrush, QColor, QFont, QPainterPath, QPen
from PySide6.QtWidgets import (
    QComboBox,
    QGraphicsPathItem,
    QGraphicsRectItem,
    QGraphicsSimpleTextItem,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)

from faultdoc.app.colours import COLOURS
from faultdoc.app.desk import Desk
from faultdoc.app.widgets.basic import TARGET, button, label, row, tip
from faultdoc.app.widgets.canvas import NEARER, Canvas
from faultdoc.diagnosis.drawing import BOX, HEIGHT, MARGIN, SHADES, caption, places, shade
from faultdoc.diagnosis.explain import likely_causes
from faultdoc.diagnosis.graph import fault_graph
from faultdoc.record.words import chance, matches
from faultdoc.words import say

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["TreePage", "TreePicture"]


class TreePicture(Canvas):
    """The picture. `pressed` is sent with the id of a node that is clicked, tapped or entered."""

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName(say("Fault tree. Arrow keys move it, plus and minus come nearer and go farther."))
        self.boxes: dict[str, QGraphicsRectItem] = {}
        self.titles: dict[str, str] = {}
        self.marked: str | None = None

    def draw(self, graph: nx.DiGraph[str], chances: Mapping[str, float] | None) -> None:
        """Draw a fault graph.

        Args:
            graph: from `fault_graph`.
            chances: probability of each cause, painted as shades and numbers; None leaves the boxes white.
        """
        scene = self.scene()
        scene.clear()
        self.boxes, self.marked = {}, None
        spots = places(graph)
        self.titles = {node: str(graph.nodes[node]["title"]) for node in graph}
        for parent, child in graph.edges:
            (x1, y1), (x2, y2) = spots[parent], spots[child]
            path = QPainterPath()
            path.moveTo(x1 + BOX, y1 + HEIGHT / 2)
            path.lineTo(x1 + BOX + 18, y1 + HEIGHT / 2)
            path.lineTo(x2 - 8, y2 + HEIGHT / 2)
            path.lineTo(x2, y2 + HEIGHT / 2)
            line = QGraphicsPathItem(path)
            line.setPen(QPen(QColor(COLOURS["faint"]), 1))
            scene.addItem(line)
        font = QFont(self.font())
        font.setPixelSize(13)
        for node, (x, y) in spots.items():
            self._box(graph, node, QRectF(x, y, BOX, HEIGHT), None if chances is None else chances.get(node), font)
        scene.setSceneRect(scene.itemsBoundingRect().adjusted(-MARGIN, -MARGIN, MARGIN, MARGIN))

    def _box(self, graph: nx.DiGraph[str], node: str, at: QRectF, chance_: float | None, font: QFont) -> None:
        scene, kind = self.scene(), graph.nodes[node]["kind"]
        ground, ink = (COLOURS["ground" if kind == "gate" else "paper"], COLOURS["ink"])
        if chance_ is not None:
            ground, ink = shade(chance_)
        box = QGraphicsRectItem(at)
        box.setBrush(QBrush(QColor(ground)))
        box.setPen(self._pen(kind))
        told = "" if chance_ is None else f": {chance(chance_)}"
        tip(box, f"{graph.nodes[node]['title']}{told}")
        box.setData(0, node)
        box.setData(1, kind)
        scene.addItem(box)
        self.boxes[node] = box
        words = QGraphicsSimpleTextItem(caption(graph, node), box)
        words.setFont(font)
        words.setBrush(QColor(ink))
        over = words.boundingRect().width() - (BOX - 12)
        if over > 0:
            words.setScale((BOX - 12) / words.boundingRect().width())
        words.setPos(at.x() + 6, at.y() + (HEIGHT - words.boundingRect().height() * words.scale()) / 2)
        if chance_ is not None:
            number = QGraphicsSimpleTextItem(chance(chance_), box)
            number.setFont(font)
            number.setBrush(QColor(COLOURS["ink"]))
            number.setPos(at.right() + 6, at.y() + (HEIGHT - number.boundingRect().height()) / 2)

    @staticmethod
    def _pen(kind: str) -> QPen:
        dashed = Qt.PenStyle.DashLine if kind == "condition" else Qt.PenStyle.SolidLine
        return QPen(QColor(COLOURS["ink"]), 1, dashed)

    def mark(self, node: str | None) -> None:
        """Draw a thick frame around one node, and around no other, and bring it to the middle."""
        if self.marked is not None:
            box = self.boxes[self.marked]
            box.setPen(self._pen(box.data(1)))
        self.marked = node
        if node is not None:
            self.boxes[node].setPen(QPen(QColor(COLOURS["focus"]), 4))
            if self.scale_now < 0.8:
                self.zoom(1.0 / self.scale_now)
            self.centerOn(self.boxes[node])

    def enter(self) -> None:
        """Open what is marked."""
        if self.marked is not None:
            self.pressed.emit(self.marked)


class TreePage(QWidget):
    """Any fault tree; that of the case on the desk with its belief."""

    back = Signal()
    cause_chosen = Signal(str)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.setObjectName("ground")
        self._desk = desk
        down = QVBoxLayout(self)
        down.setContentsMargins(12, 10, 12, 10)
        down.setSpacing(8)
        self.which = QComboBox()
        self.which.setMinimumHeight(TARGET)
        self.which.setAccessibleName(say("Which fault tree"))
        self.which.currentIndexChanged.connect(self._draw)
        self.line = QLineEdit()
        self.line.setMinimumHeight(TARGET)
        self.line.setAccessibleName(say("Find in the tree"))
        self.line.setPlaceholderText(say("Find: pump, fuse ..."))
        self.line.textChanged.connect(self._find)
        self.line.returnPressed.connect(self._next)
        self.next = button(say("Next"), self._next, name=say("Next one found"))
        self.picture = TreePicture()
        self.picture.pressed.connect(self._pressed)
        self.nearer = button("+", lambda: self.picture.zoom(NEARER), name=say("Nearer"))
        self.farther = button("-", lambda: self.picture.zoom(1.0 / NEARER), name=say("Farther"))
        self.whole = button(say("Whole tree"), self.picture.fit)
        for made in (self.nearer, self.farther):
            made.setFixedWidth(TARGET + 6)
        self.ok = button(say("Back"), self.back.emit, "main")
        self.line.setFixedWidth(230)
        top = row(self.ok, self.which, self.line, self.next, self.nearer, self.farther, self.whole, spacing=8)
        top.setStretch(1, 1)
        down.addLayout(top)
        self.told = label("", "faint")
        down.addWidget(self.told)
        down.addWidget(self.picture, 1)
        self._found: list[str] = []
        desk.changed.connect(self._changed)

    def fill(self) -> None:
        """Show the tree of the case, or the first one."""
        self.which.blockSignals(True)
        self.which.clear()
        if self._desk.assessment is not None:
            self.which.addItem(say("This case"), None)
        shelf = self._desk.shelf
        for id, tree in shelf.library.trees.items() if shelf else ():
            self.which.addItem(tree.title, id)
        self.which.blockSignals(False)
        self._draw()
        self.picture.fit()
        self.picture.setFocus()

    def _changed(self) -> None:
        """Paint the new belief, or let it be painted when the page comes up."""
        if self.isVisible():
            self._draw()

    def _draw(self) -> None:
        shelf, assessment = self._desk.shelf, self._desk.assessment
        id = self.which.currentData()
        chances: dict[str, float] | None = None
        if id is None and assessment is not None:
            graph = assessment.bench.problem.graph
            chances = {one.id: one.probability for one in likely_causes(assessment)}
        elif id is not None and shelf is not None:
            graph = fault_graph([shelf.library.trees[id]], shelf.library.causes)
        else:
            return
        self.picture.draw(graph, chances)
        self._find()

    def _find(self) -> None:
        wanted = self.line.text().strip()
        titles = self.picture.titles
        self._found = [node for node in self.picture.boxes if wanted and matches(wanted, titles[node])]
        self.next.setEnabled(len(self._found) > 1)
        self.picture.mark(self._found[0] if self._found else None)
        self._tell()

    def _next(self) -> None:
        marked = self.picture.marked
        if marked in self._found:
            self.picture.mark(self._found[(self._found.index(marked) + 1) % len(self._found)])
            self._tell()

    def _tell(self) -> None:
        marked, wanted = self.picture.marked, self.line.text().strip()
        if wanted and marked is None:
            self.told.setText(say("Nothing in this tree has these words."))
        elif marked is not None:
            place = self._found.index(marked) + 1
            self.told.setText(
                say(
                    "{place} of {len}: {titles}",
                    place=place,
                    len=len(self._found),
                    titles=self.picture.titles[marked],
                )
            )
        elif self.which.currentData() is None:
            steps = ", ".join(f"{least:.0%}" for least, *_ in reversed(SHADES[:-1]))
            self.told.setText(
                say("The darker, the likelier: a shade each from {steps}. Press a cause to see why.", steps=steps)
            )
        else:
            self.told.setText(
                say("From what is seen, left, to its causes. Dashed: a circumstance that must be so.")
            )

    def _pressed(self, node: str) -> None:
        assessment = self._desk.assessment
        if assessment is not None and self.which.currentData() is None and node in assessment.bench.problem.causes:
            self.cause_chosen.emit(node)
