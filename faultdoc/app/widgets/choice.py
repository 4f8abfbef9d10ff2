"""A big button with words that wrap, and a sign: a number, a tick box or a round one."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from faultdoc.app.colours import COLOURS
from faultdoc.app.style import scaled
from faultdoc.app.widgets.basic import TARGET

__all__ = ["ChoiceButton"]


class _Sign(QWidget):
    """The sign at a choice's left: painted, so that no font need have it."""

    def __init__(self, owner: ChoiceButton, kind: str) -> None:
        super().__init__(owner)
        self._owner, self._kind = owner, kind
        self.setFixedSize(scaled(30), scaled(30))
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)

    def changeEvent(self, event: QEvent) -> None:
        """Grow with the letters."""
        super().changeEvent(event)
        if event.type() is QEvent.Type.StyleChange:
            self.setFixedSize(scaled(30), scaled(30))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint it."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.scale(self.width() / 30.0, self.height() / 30.0)
        on, ready = self._owner.isChecked(), self._owner.isEnabled()
        ink = QColor(COLOURS["strong"] if ready else COLOURS["off"])
        painter.setPen(QPen(ink, 2.5))
        box = QRectF(3, 3, 24, 24)
        if self._kind == "radio":
            painter.setBrush(QColor(COLOURS["paper"]))
            painter.drawEllipse(box)
            if on:
                painter.setBrush(ink)
                painter.drawEllipse(box.adjusted(6, 6, -6, -6))
        elif self._kind == "check":
            painter.setBrush(ink if on else QColor(COLOURS["paper"]))
            painter.drawRoundedRect(box, 4, 4)
            if on:
                painter.setPen(QPen(QColor(COLOURS["paper"]), 3.5, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
                tick = [QPointF(8, 15), QPointF(13, 21), QPointF(22, 9)]
                painter.drawPolyline(tick)
        else:
            painter.setBrush(ink)
            painter.drawRoundedRect(box, 5, 5)
            font = self.font()
            font.setBold(True)
            font.setPixelSize(17)  # on a painter that is scaled already
            painter.setFont(font)
            painter.setPen(QColor(COLOURS["paper"]))
            painter.drawText(box, int(Qt.AlignmentFlag.AlignCenter), self._kind)
        painter.end()


class ChoiceButton(QPushButton):
    """A big button with a title, words below it, and a sign.

    A choice with the sign "check" or "radio" can be ticked. Enter does what the space bar does.
    """

    def __init__(
        self,
        title: str,
        words: str = "",
        *,
        sign: Literal["none", "check", "radio"] | int = "none",
        on_click: Callable[[], object] | None = None,
        role: str = "choice",
    ) -> None:
        super().__init__()
        self.title = title
        self.setProperty("role", role)
        self.setAccessibleName(title)
        self.setAccessibleDescription(words)
        self.setCheckable(sign in ("check", "radio"))
        self.setAutoDefault(False)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        inside = QHBoxLayout(self)
        inside.setContentsMargins(14, 9, 14, 9)
        inside.setSpacing(12)
        self.sign: _Sign | None = None
        if sign != "none":
            self.sign = _Sign(self, str(sign))
            inside.addWidget(self.sign, 0, Qt.AlignmentFlag.AlignVCenter)
        column = QVBoxLayout()
        column.setSpacing(2)
        inside.addLayout(column, 1)
        self._labels: list[QLabel] = []
        for text, part in ((title, "choice_title"), (words, "choice_words")):
            if text:
                made = QLabel(text, self)
                made.setProperty("voice", part)
                made.setWordWrap(True)
                made.setTextFormat(Qt.TextFormat.PlainText)
                made.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
                column.addWidget(made)
                self._labels.append(made)
        if on_click is not None:
            self.clicked.connect(lambda: on_click())
        if self.sign is not None:
            self.toggled.connect(self.sign.update)

    def reword(self, words: str) -> None:
        """Change the words below the title."""
        self._labels[-1].setText(words)
        self.setAccessibleDescription(words)

    def hasHeightForWidth(self) -> bool:
        """Say that the height follows from the width."""
        return True

    def heightForWidth(self, width: int) -> int:
        """Return the height at a width."""
        inside = self.layout()
        assert inside is not None
        return max(TARGET + 4, inside.totalHeightForWidth(width))

    def sizeHint(self) -> QSize:
        """Return the size that suits."""
        inside = self.layout()
        assert inside is not None
        wide = max(200, min(inside.totalSizeHint().width(), 460))
        return QSize(wide, self.heightForWidth(wide))

    def minimumSizeHint(self) -> QSize:
        """Return the least size."""
        return QSize(140, TARGET + 4)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Press on Enter too."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
            return
        super().keyPressEvent(event)
