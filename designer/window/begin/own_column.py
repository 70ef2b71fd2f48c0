"""A question of the form: what it is called, where it is answered, and what follows from that."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QToolButton, QVBoxLayout, QWidget

from designer.translation import tr
from designer.window.parts.sized_text import smaller
from designer.window.parts.targets import least_high

CONTROL_HEIGHT = 32


class Column(QWidget):
    """A caption, a control, and a line below it in small type."""

    def __init__(self, label: str, control: QWidget, *beside: QWidget) -> None:
        super().__init__()
        self.caption = QLabel(label)
        self.caption.setObjectName("soft")
        self.said = small_label()
        self._head = QHBoxLayout()
        self._head.setSpacing(6)
        self._beside = beside
        self._head.addWidget(self.caption)
        for each in beside:
            self._head.addWidget(each)
        self._size_head()
        self._head.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(3)
        layout.addLayout(self._head)
        layout.addWidget(control)
        layout.addWidget(self.said)
        layout.addStretch(1)
        control.setMinimumHeight(CONTROL_HEIGHT)

    def _size_head(self) -> None:
        """Have all captions of the form equally high, so that controls stand in line."""
        height = least_high(self.caption.fontMetrics().height() + 4)
        self.caption.setFixedHeight(height)
        for each in self._beside:
            each.setMaximumHeight(height)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange:
            self._size_head()


class WayBack(QToolButton):
    """Gives an answer back to what is usual; as long as none was given there is nothing to do.

    It keeps its room while it is hidden, so that nothing moves.
    """

    def __init__(self, label: str) -> None:
        super().__init__()
        self.setText("↶")
        self.setObjectName("wayBack")
        self.setToolTip(tr("Leave it to the style again"))
        self.setAccessibleName(tr("{label}: leave it to the style again", label=label))
        policy = self.sizePolicy()
        policy.setRetainSizeWhenHidden(True)
        self.setSizePolicy(policy)
        self.hide()


def small_label() -> QLabel:
    """Return a label in small, soft type that wraps where it has to."""
    label = QLabel()
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setObjectName("soft")
    label.setWordWrap(True)
    label.setFont(smaller(label.font()))
    label.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
    return label


def end_label(text: str) -> QLabel:
    """Return what an end of a slider is called, in small, soft type."""
    label = QLabel(text)
    label.setObjectName("soft")
    label.setFont(smaller(label.font()))
    return label
