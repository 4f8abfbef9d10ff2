"""A caution: signal word on its safety colour with the alert sign, and the words beside it."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPaintEvent, QPolygonF
from PySide6.QtWidgets import QFrame, QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from faultdoc.app.colours import SIGNAL_COLOURS
from faultdoc.app.style import points, scaled
from faultdoc.app.widgets.basic import label
from faultdoc.model.safety import Caution, Signal
from faultdoc.record.words import SIGNAL_WORDS

__all__ = ["CautionCard", "SignalPanel", "alert_sign"]


def alert_sign(painter: QPainter, box: QRectF, ink: QColor, ground: QColor) -> None:
    """Paint the safety alert sign: a triangle with an exclamation mark."""
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(ink)
    painter.drawPolygon(QPolygonF([QPointF(box.center().x(), box.top()), box.bottomRight(), box.bottomLeft()]))
    painter.setBrush(ground)
    bar = QRectF(0, 0, box.width() * 0.12, box.height() * 0.36)
    bar.moveCenter(QPointF(box.center().x(), box.top() + box.height() * 0.52))
    painter.drawRoundedRect(bar, 1, 1)
    dot = box.width() * 0.13
    painter.drawEllipse(QPointF(box.center().x(), box.bottom() - box.height() * 0.14), dot / 2, dot / 2)


class SignalPanel(QWidget):
    """The signal word on its colour; NOTICE goes without the alert sign, as it is not about people."""

    def __init__(self, signal: Signal) -> None:
        super().__init__()
        self._signal = signal
        self.setMinimumSize(self.sizeHint())
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Expanding)

    def sizeHint(self) -> QSize:
        """Return the size that suits."""
        word = QFontMetricsF(self.word_font()).horizontalAdvance(max(SIGNAL_WORDS.values(), key=len))
        return QSize(max(scaled(142), int(word) + scaled(22) + 24), scaled(40))

    def word_font(self) -> QFont:
        """Return the font of the signal word."""
        font = QFont(self.font())
        font.setBold(True)
        font.setPointSizeF(points(14.0))  # bold from 14 points counts as large text (WCAG 2.2)
        return font

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint it."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        ground, ink = (QColor(name) for name in SIGNAL_COLOURS[self._signal])
        painter.fillRect(self.rect(), ground)
        painter.setFont(self.word_font())
        left = 8.0
        if self._signal is not Signal.NOTICE:
            wide = scaled(22)
            alert_sign(painter, QRectF(8, self.height() / 2 - wide * 0.45, wide, wide * 0.9), ink, ground)
            left = 12.0 + wide
        painter.setPen(ink)
        place = QRectF(left, 0, self.width() - left - 4, self.height())
        painter.drawText(
            place, int(Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft), SIGNAL_WORDS[self._signal]
        )
        painter.end()


class CautionCard(QFrame):
    """One caution."""

    def __init__(self, caution: Caution) -> None:
        super().__init__()
        self.setProperty("role", "caution")
        self.setAccessibleName(f"{SIGNAL_WORDS[caution.signal]}: {caution.text}")
        across = QHBoxLayout(self)
        across.setContentsMargins(2, 2, 2, 2)
        across.setSpacing(0)
        across.addWidget(SignalPanel(caution.signal))
        words = QVBoxLayout()
        words.setContentsMargins(12, 8, 12, 8)
        words.addWidget(label(caution.text, "caution"))
        across.addLayout(words, 1)
