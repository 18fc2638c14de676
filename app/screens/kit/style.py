"""The style under everything: Fusion, with our frames, focus and menu bar; our widgets paint the rest."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPalette
from PySide6.QtWidgets import QProxyStyle, QStyle, QStyleOption, QStyleOptionMenuItem, QWidget

from app.screens.kit.measure import px
from app.screens.kit.strokes import box

_PE = QStyle.PrimitiveElement
_CE = QStyle.ControlElement


def frame_state(widget: QWidget | None) -> tuple[str, float, bool]:
    """Border role, width and dash of an entry: accent when focused, stop when it cannot be right."""
    if widget is None:
        return "edge", 1, False
    wrong = bool(widget.property("wrong"))
    if widget.hasFocus():
        return ("stop" if wrong else "accent"), 2, False
    return ("stop" if wrong else "edge"), 1, bool(widget.property("fixed"))


class SheetStyle(QProxyStyle):
    """Fusion with 1 px edge borders, a 2 px accent frame for focus and no shadows."""

    def __init__(self) -> None:
        super().__init__("Fusion")

    def drawPrimitive(
        self,
        element: QStyle.PrimitiveElement,
        option: QStyleOption,
        painter: QPainter,
        widget: QWidget | None = None,
    ) -> None:
        if element in (_PE.PE_PanelLineEdit, _PE.PE_FrameLineEdit, _PE.PE_Frame):
            if widget is not None and widget.property("framed"):
                role, width, dashed = frame_state(widget)
                fill = None if element == _PE.PE_Frame else "base"
                box(painter, option.rect, fill=fill, border=role, width=width, dashed=dashed)
                return
            if element == _PE.PE_PanelLineEdit:
                return
        if element in (_PE.PE_PanelMenu, _PE.PE_FrameMenu) or (element == _PE.PE_Frame and _is_popup(widget)):
            fill = "base" if element == _PE.PE_PanelMenu else None
            box(painter, option.rect, fill=fill, border="edge", radius=0)
            return
        if element == _PE.PE_PanelScrollAreaCorner:
            painter.fillRect(option.rect, option.palette.base())
            return
        if element == _PE.PE_FrameFocusRect:
            box(painter, QRectF(option.rect), border="accent", width=2)
            return
        super().drawPrimitive(element, option, painter, widget)

    def sizeFromContents(
        self,
        kind: QStyle.ContentsType,
        option: QStyleOption,
        size: QSize,
        widget: QWidget | None = None,
    ) -> QSize:
        made = super().sizeFromContents(kind, option, size, widget)  # type: ignore[arg-type]  # Qt passes none
        if kind == QStyle.ContentsType.CT_MenuBarItem:
            return QSize(size.width() + 2 * px(12), made.height())
        return made

    def drawControl(
        self,
        element: QStyle.ControlElement,
        option: QStyleOption,
        painter: QPainter,
        widget: QWidget | None = None,
    ) -> None:
        if element == _CE.CE_HeaderEmptyArea:
            return
        if element == _CE.CE_MenuBarEmptyArea:
            painter.fillRect(option.rect, option.palette.window())
            return
        if element == _CE.CE_MenuItem and not option.state & QStyle.StateFlag.State_Enabled:
            # All colour groups are the same, so what nobody serves now is told by the soft ink.
            option.palette = _softened(option.palette)
        if element == _CE.CE_MenuBarItem:
            assert isinstance(option, QStyleOptionMenuItem)
            _menu_bar_item(option, painter)
            return
        super().drawControl(element, option, painter, widget)


def _is_popup(widget: QWidget | None) -> bool:
    """Whether a list of choices hangs in it."""
    return widget is not None and widget.inherits("QComboBoxPrivateContainer")


def _softened(palette: QPalette) -> QPalette:
    """The palette with soft ink for its words."""
    made = QPalette(palette)
    for role in (QPalette.ColorRole.WindowText, QPalette.ColorRole.Text, QPalette.ColorRole.ButtonText):
        made.setColor(QPalette.ColorGroup.All, role, palette.placeholderText().color())
    return made


def _menu_bar_item(option: QStyleOptionMenuItem, painter: QPainter) -> None:
    """A word in the menu bar: on the tint while its menu is open or under the pointer."""
    rect = option.rect
    state = option.state
    painter.fillRect(rect, option.palette.window())
    if state & (QStyle.StateFlag.State_Selected | QStyle.StateFlag.State_Sunken):
        painter.fillRect(rect, option.palette.highlight())
    painter.setPen(option.palette.windowText().color())
    flags = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextShowMnemonic | Qt.TextFlag.TextSingleLine
    painter.drawText(rect, int(flags), option.text)
