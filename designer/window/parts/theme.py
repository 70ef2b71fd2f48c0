"""Palette and style sheet made from a set of inks, and the following of the system's scheme."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QApplication

from designer.window.parts.inks import DARK, HIGH_DARK, HIGH_LIGHT, LIGHT, Inks
from designer.window.parts.targets import are_large, make_large, sheet_of_targets

SCHEMES = ("system", "light", "dark")
CONTRASTS = ("usual", "high")
TIGHT_BUTTON = "QPushButton { padding: 5px 7px; } QPushButton:focus { padding: 4px 6px; }"
"""A style sheet of its own for a button of a page, where the header has little room."""
_R = QPalette.ColorRole
_G = QPalette.ColorGroup


def palette_of(inks: Inks) -> QPalette:
    """Return a palette with every role set, so that no default of the platform shows through."""
    palette = QPalette()
    roles = {
        _R.Window: inks.ground,
        _R.WindowText: inks.ink,
        _R.Base: inks.paper,
        _R.AlternateBase: inks.raised,
        _R.Text: inks.ink,
        _R.PlaceholderText: inks.ink_soft,
        _R.Button: inks.raised,
        _R.ButtonText: inks.ink,
        _R.BrightText: inks.stop,
        _R.ToolTipBase: inks.paper,
        _R.ToolTipText: inks.ink,
        _R.Highlight: inks.chosen,
        _R.HighlightedText: inks.ink,
        _R.Link: inks.green,
        _R.LinkVisited: inks.green,
        _R.Accent: inks.green,
        _R.Light: inks.paper,
        _R.Midlight: inks.line,
        _R.Mid: inks.line_strong,
        _R.Dark: inks.line_strong,
        _R.Shadow: inks.ink,
    }
    for role, value in roles.items():
        palette.setColor(role, QColor(value))
    for role in (_R.WindowText, _R.Text, _R.ButtonText):
        palette.setColor(_G.Disabled, role, QColor(inks.line_strong))
    return palette


def style_sheet(inks: Inks) -> str:
    """Return what Qt's style cannot be told by a palette.

    A choice has the same padding above and below whether it has the keyboard or not: Qt measures
    the list of the one and lays out that of the other, and what is amiss hides the last row.
    """
    under_signs = (
        inks.ink if inks in (DARK, HIGH_DARK) else inks.paper
    )  # those of Qt's file dialogs are black
    return f"""
    #header {{ background: {inks.paper}; border-bottom: 1px solid {inks.line}; }}
    #dayPanel {{ background: {inks.paper}; border-top: 1px solid {inks.line}; }}
    #card {{ background: {inks.paper}; border: 1px solid {inks.line}; border-radius: 4px; }}
    QScrollArea, #plain {{ background: transparent; border: none; }}
    #sectionHeading {{ color: {inks.heading}; font-weight: 700; }}
    #soft {{ color: {inks.ink_soft}; }}
    #changed {{ background: transparent; border: 2px solid {inks.brass}; border-radius: 4px; }}
    #draft {{ background: {inks.paper}; border: 1px solid {inks.line}; border-radius: 5px; }}
    #chosenDraft {{ background: {inks.paper}; border: 2px solid {inks.green}; border-radius: 5px; }}
    #rule {{ background: {inks.line}; border: none; }}
    #readAs {{ color: {inks.green}; }}
    QPushButton#chip {{ border-radius: 11px; padding: 4px 18px; }}
    QPushButton#largeChip {{ border-radius: 15px; padding: 4px 11px; }}
    QPushButton#largeChip:checked {{ background: {inks.chosen}; border: 1px solid {inks.green};
        color: {inks.mark}; font-weight: 700; }}
    QPushButton#largeChip:focus {{ border: 2px solid {inks.green}; padding: 3px 10px; }}
    QPushButton#chip:checked {{ background: {inks.chosen}; border: 1px solid {inks.green};
        color: {inks.green}; }}
    QPushButton#chip:focus {{ border: 2px solid {inks.green}; padding: 3px 17px; }}
    QPushButton#switch {{ border-radius: 3px; padding: 0 7px; font-size: 90%; }}
    QPushButton#switch:checked {{ background: {inks.green}; color: {inks.on_green};
        border-color: {inks.green}; }}
    QPushButton#switch:focus {{ border: 2px solid {inks.green}; padding: 0 6px; }}
    QPushButton#switch:checked:focus {{
        border: 4px double {inks.on_green}; padding: 0 4px; }}
    QToolButton#wayBack {{ border: 1px solid transparent; background: transparent; padding: 0 4px;
        color: {inks.green}; font-weight: 700; }}
    QToolButton#wayBack:focus {{ border: 2px solid {inks.green}; padding: 0 3px; }}
    #chosenWay {{ background: {inks.paper}; border: 2px solid {inks.green}; border-radius: 4px; }}
    #differs {{ color: {inks.brass}; }}
    #doesNotFit {{ color: {inks.stop}; }}
    #stepNumber {{ color: {inks.green}; font-weight: 700; border: 1px solid {inks.green};
        border-radius: 9px; min-width: 18px; max-width: 18px; min-height: 18px; max-height: 18px; }}
    #notTaken {{ color: {inks.stop}; font-weight: 700; }}
    QToolTip {{ color: {inks.ink}; background: {inks.paper};
        border: 1px solid {inks.line_strong}; }}
    QLineEdit, QComboBox, QPlainTextEdit {{
        background: {inks.paper}; color: {inks.ink}; border: 1px solid {inks.line_strong};
        border-radius: 4px; padding: 3px 6px; selection-background-color: {inks.chosen};
        selection-color: {inks.ink}; placeholder-text-color: {inks.ink_soft}; }}
    QLineEdit:focus, QPlainTextEdit:focus {{
        border: 2px solid {inks.green}; padding: 2px 5px; }}
    QComboBox:focus {{ border: 2px solid {inks.green}; padding: 3px 5px; }}
    QLineEdit:disabled, QComboBox:disabled {{ background: {inks.ground}; color: {inks.ink_soft};
        border: 1px solid {inks.line}; }}
    QLineEdit[refused="true"] {{ border: 2px solid {inks.stop}; padding: 2px 5px; }}
    QLineEdit#recipeName {{ border: 1px solid transparent; background: transparent;
        font-weight: 700; }}
    QLineEdit#recipeName:hover {{ border: 1px solid {inks.line}; }}
    QLineEdit#recipeName:focus {{ border: 2px solid {inks.green}; background: {inks.paper}; }}
    QComboBox::drop-down {{ border: none; width: 20px; }}
    QComboBox::down-arrow {{ image: none; }}
    QComboBox QAbstractItemView {{ background: {inks.paper}; color: {inks.ink};
        selection-background-color: {inks.chosen}; selection-color: {inks.ink};
        border: 1px solid {inks.line_strong}; }}
    #offers {{ background: {inks.paper}; color: {inks.ink};
        border: 1px solid {inks.line_strong}; }}
    #offers::item {{ padding: 3px 5px; color: {inks.ink}; }}
    #offers::item:selected {{ background: {inks.chosen}; }}
    QPushButton, QToolButton {{ background: {inks.paper}; color: {inks.ink};
        border: 1px solid {inks.line_strong}; border-radius: 5px; padding: 4px 10px; }}
    QPushButton:hover, QToolButton:hover {{ background: {inks.green_soft}; }}
    QPushButton:focus, QToolButton:focus {{ border: 2px solid {inks.green}; padding: 3px 9px; }}
    QFileDialog QToolButton, QFileDialog QToolButton:focus {{ padding: 1px; }}
    QFileDialog QToolButton:enabled {{ background: {under_signs}; }}
    QPushButton:disabled, QToolButton:disabled {{ color: {inks.line_strong};
        border-color: {inks.line}; }}
    QPushButton#primary {{ background: {inks.green}; color: {inks.on_green};
        border: 1px solid {inks.green}; font-weight: 700; }}
    QPushButton#primary:focus {{ border: 4px double {inks.on_green}; padding: 1px 7px; }}
    QPushButton#primary:disabled {{ background: {inks.raised}; color: {inks.line_strong};
        border-color: {inks.line}; }}
    QPushButton#thing {{ text-align: left; border: 1px solid transparent;
        background: transparent; }}
    QPushButton#thing:hover {{ background: {inks.green_soft}; }}
    QPushButton#thing:focus {{ border: 2px solid {inks.green}; }}
    #firstSteps {{ background: {inks.green_soft}; border-radius: 4px; }}
    QPushButton#door {{ text-align: left; }}
    QPushButton#door:checked {{ background: {inks.chosen}; border: 2px solid {inks.green}; }}
    QPushButton#door:focus {{ border: 4px solid {inks.green}; }}
    QPushButton#pageButton:disabled {{ color: {inks.line_strong}; background: transparent; }}
    QPushButton#pageButton {{ border: 1px solid transparent; background: transparent;
        color: {inks.ink_soft}; padding: 5px 14px; }}
    QPushButton#pageButton:hover {{ color: {inks.ink}; background: {inks.green_soft}; }}
    QPushButton#pageButton:checked {{ background: {inks.green}; color: {inks.on_green}; }}
    QPushButton#pageButton:focus {{ border: 2px solid {inks.line_strong}; padding: 4px 13px; }}
    QPushButton#pageButton:checked:focus {{
        border: 4px double {inks.on_green}; padding: 2px 11px; }}
    QPushButton#cure, QPushButton#link, QPushButton#quiet {{
        border: 1px solid transparent; background: transparent;
        color: {inks.green}; text-align: left; padding: 2px 4px; text-decoration: underline; }}
    QPushButton#grave {{ border: none; border-top: 2px solid {inks.stop}; border-radius: 0;
        background: {inks.boil_band}; color: {inks.stop}; font-weight: 700; text-align: left;
        padding: 5px 18px 5px 12px; }}
    QPushButton#grave:focus {{ border: 2px solid {inks.stop}; padding: 5px 16px 3px 10px; }}
    QPushButton#unkept {{ border: 1px solid {inks.stop}; background: {inks.boil_band};
        color: {inks.stop}; font-weight: 700; padding: 2px 8px; }}
    QPushButton#unkept:focus {{ border: 2px solid {inks.stop}; padding: 1px 7px; }}
    #takeCare {{ background: {inks.care_band}; border: none;
        border-left: 4px solid {inks.brass}; }}
    #stopBox {{ background: {inks.boil_band}; border: none;
        border-left: 4px solid {inks.stop}; }}
    #proposal {{ background: {inks.green_soft}; border-radius: 4px; }}
    #strong {{ font-weight: 700; }}
    QLineEdit#blank {{ font-weight: 700; padding: 3px 8px; }}
    QLineEdit#blank[next="true"] {{ border: 2px dashed {inks.green}; padding: 2px 7px; }}
    QLineEdit#blank[next="true"]:focus {{ border: 2px solid {inks.green}; }}
    QLineEdit#blank[refused="true"] {{ border: 2px solid {inks.stop}; padding: 2px 7px; }}
    #doubt {{ background: {inks.care_band}; border: 2px solid {inks.brass}; border-radius: 4px; }}
    #cardPanel {{ background: {inks.paper}; border: 2px solid {inks.green}; border-radius: 4px; }}
    #testCard {{ background: {inks.paper}; border: 2px solid {inks.green}; border-radius: 4px; }}
    #cureRow {{ border: none; border-top: 1px solid {inks.line}; }}
    #cardQuestion {{ color: {inks.ink}; font-weight: 700; }}
    #brewName {{ font-weight: 700; }}
    QPushButton#partButton {{ border: 1px solid transparent; border-radius: 2px;
        background: transparent; color: {inks.green}; font-weight: 700; padding: 4px 11px; }}
    QPushButton#partButton:checked {{ background: {inks.chosen}; color: {inks.mark}; }}
    QPushButton#partButton:focus {{ border: 2px solid {inks.green}; padding: 3px 10px; }}
    QPushButton#large {{ padding: 4px 16px; }}
    QPushButton#large:focus {{ padding: 3px 15px; }}
    QPushButton#largePrimary {{ background: {inks.green}; color: {inks.on_green};
        border: 1px solid {inks.green}; font-weight: 700; padding: 4px 24px; }}
    QPushButton#largePrimary:focus {{ border: 4px double {inks.on_green}; padding: 1px 21px; }}
    QPushButton#quiet {{ text-decoration: none; font-weight: 700; }}
    QPushButton#quiet:checked {{ background: {inks.chosen}; }}
    QPushButton#cure:hover, QPushButton#link:hover, QPushButton#quiet:hover {{
        background: {inks.green_soft}; }}
    QPushButton#cure:focus, QPushButton#link:focus, QPushButton#quiet:focus {{
        border: 2px solid {inks.green};
        padding: 1px 3px; }}
    QTableView {{ background: {inks.paper}; border: 1px solid {inks.line}; border-radius: 4px;
        gridline-color: {inks.line}; selection-background-color: {inks.chosen};
        selection-color: {inks.ink}; }}
    QTableView:focus {{ border: 1px solid {inks.green}; }}
    #readByKeys {{ padding: 2px; }}
    QPushButton, QToolButton, QCheckBox, QRadioButton, QSlider {{ outline: none; }}
    #readByKeys, RowList#plain, QCheckBox, QRadioButton, QSlider {{
        border: 2px solid transparent; border-radius: 4px; }}
    #readByKeys:focus, RowList#plain:focus, QCheckBox:focus, QRadioButton:focus, QSlider:focus {{
        border: 2px solid {inks.green}; }}
    QHeaderView {{ background: {inks.paper}; border: none; }}
    QHeaderView::section {{ background: {inks.paper}; color: {inks.ink_soft}; border: none;
        border-bottom: 1px solid {inks.line}; padding: 3px 6px; }}
    #messageBar {{ background: {inks.green_soft}; border: 1px solid {inks.green};
        border-radius: 6px; }}
    #messageBar[look="refused"] {{ background: {inks.paper}; border: 1px solid {inks.brass};
        border-left: 5px solid {inks.brass}; }}
    #messageBar[look="grave"] {{ background: {inks.boil_band}; border: 1px solid {inks.stop};
        border-left: 5px solid {inks.stop}; }}
    #beside {{ background: {inks.paper}; border: 1px solid {inks.green}; border-radius: 5px; }}
    #beside[refused="true"] {{ border: 1px solid {inks.stop}; border-left: 4px solid {inks.stop}; }}
    QTabWidget::pane {{ background: transparent; border: 1px solid {inks.line};
        border-radius: 4px; top: -1px; }}
    QTabBar::tab {{ background: transparent; color: {inks.ink_soft}; padding: 5px 14px;
        border: 1px solid transparent; border-bottom: none;
        border-top-left-radius: 4px; border-top-right-radius: 4px; }}
    QTabBar::tab:hover {{ background: {inks.green_soft}; color: {inks.ink}; }}
    QTabBar::tab:selected {{ background: {inks.chosen}; color: {inks.mark};
        border: 1px solid {inks.line}; border-bottom: none; }}
    QTabBar::tab:selected:focus {{ border: 2px solid {inks.green}; padding: 4px 13px; }}
    QProgressBar {{ background: {inks.paper}; border: 1px solid {inks.line_strong};
        border-radius: 4px; max-height: 10px; }}
    QProgressBar::chunk {{ background: {inks.green}; border-radius: 3px; }}
    QSplitter::handle {{ background: {inks.line}; }}
    QSplitter::handle:horizontal {{ width: 1px; }}
    QSplitter::handle:vertical {{ height: 1px; }}
    QScrollBar:vertical {{ background: transparent; width: 11px; margin: 0; }}
    QScrollBar:horizontal {{ background: transparent; height: 11px; margin: 0; }}
    QScrollBar::handle {{ background: {inks.strip}; border-radius: 2px; margin: 2px 3px;
        min-height: 28px; min-width: 28px; }}
    QScrollBar::handle:hover, QScrollBar::handle:pressed {{ background: {inks.line_strong}; }}
    QAbstractScrollArea::corner {{ background: transparent; border: none; }}
    QScrollBar::add-line, QScrollBar::sub-line {{ width: 0; height: 0; }}
    QScrollBar::add-page, QScrollBar::sub-page {{ background: transparent; }}
    QMenuBar {{ background: {inks.paper}; color: {inks.ink}; }}
    QMenuBar::item {{ padding: 4px 9px; background: transparent; }}
    QMenuBar::item:selected {{ background: {inks.green_soft}; }}
    QMenu {{ background: {inks.paper}; color: {inks.ink}; border: 1px solid {inks.line_strong}; }}
    QMenu::item {{ padding: 5px 28px 5px 22px; min-height: 16px; }}
    QMenu::icon {{ left: 9px; }}
    QMenu#largeMenu {{ font-size: 120%; }}
    QMenu#largeMenu::item {{ padding: 12px 28px 12px 22px; min-height: 22px; }}
    QMenu#largeMenu::indicator {{ left: 6px; }}
    QMenu::item:selected {{ background: {inks.chosen}; }}
    QMenu::item:disabled {{ color: {inks.line_strong}; }}
    QMenu::separator {{ height: 1px; background: {inks.line}; margin: 4px 8px; }}
    """


def inks_of_scheme(scheme: str, contrast: str = "usual") -> Inks:
    """Return the inks of "light" or "dark", or for "system" those of the desktop's scheme.

    With a "high" contrast they are black on white, or white on black.
    """
    is_dark = scheme == "dark"
    if scheme == "system":
        is_dark = QApplication.styleHints().colorScheme() is Qt.ColorScheme.Dark
    if contrast == "high":
        return HIGH_DARK if is_dark else HIGH_LIGHT
    return DARK if is_dark else LIGHT


def apply_scheme(
    application: QApplication, scheme: str, contrast: str = "usual", *, large: bool = False
) -> None:
    """Dress the whole program in a scheme of `SCHEMES`, with a contrast of `CONTRASTS`.

    `large` makes all that is pressed large enough for fingers.
    """
    inks = inks_of_scheme(scheme, contrast)
    make_large(large)
    application.setPalette(palette_of(inks))
    application.setStyleSheet(style_sheet(inks) + (sheet_of_targets(inks) if are_large() else ""))
