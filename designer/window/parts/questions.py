"""The few questions that must be asked in a dialog. Tests put their own answers in their place.

Dialogs are imported when first needed: the window opens sooner.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from designer.library.recipe_file import SUFFIX
from designer.translation import message, tr

if TYPE_CHECKING:
    from PySide6.QtPrintSupport import QPrinter

RECIPES = message("Hobwort recipes (*.hobwort)")
LOGS = message("Brew logs (*.jsonl)")
ANY = message("All files (*)")
TABLES = (".csv", ".tsv", ".txt")
"""Endings of files that lines are brought in from."""


class Questions:
    """Asks by dialogs of the system."""

    def which_file(self, parent: QWidget, folder: str) -> Path | None:
        """Return the recipe file to open; None for none."""
        return _found(parent, tr("Open a recipe"), folder, _kinds(RECIPES, ANY))

    def which_files(self, parent: QWidget) -> list[Path]:
        """Return the recipe files to bring in; none is an empty list."""
        from PySide6.QtWidgets import QFileDialog

        names, _ = QFileDialog.getOpenFileNames(
            parent, tr("Import recipes"), str(Path.home()), _kinds(RECIPES, LOGS, ANY)
        )
        return [Path(name) for name in names]

    def which_folder(self, parent: QWidget) -> Path | None:
        """Return the folder to write files to; None for none."""
        from PySide6.QtWidgets import QFileDialog

        name = QFileDialog.getExistingDirectory(
            parent, tr("Export the recipes to"), str(Path.home())
        )
        return Path(name) if name else None

    def which_backup_folder(self, parent: QWidget, folder: str) -> Path | None:
        """Return the folder that backups are copied to; None for none."""
        from PySide6.QtWidgets import QFileDialog

        name = QFileDialog.getExistingDirectory(parent, tr("Copy each backup to"), folder)
        return Path(name) if name else None

    def which_box_folder(self, parent: QWidget, folder: str) -> Path | None:
        """Return the folder that the Recipe box is to lie in; None for none."""
        from PySide6.QtWidgets import QFileDialog

        name = QFileDialog.getExistingDirectory(parent, tr("Keep the Recipe box in"), folder)
        return Path(name) if name else None

    def version_name(self, parent: QWidget) -> str | None:
        """Return the name for a version, which may be empty; None for no version."""
        from PySide6.QtWidgets import QInputDialog

        text, taken = QInputDialog.getText(parent, tr("Keep a version"), tr("Name of the version"))
        return text.strip() if taken else None

    def collection_name(self, parent: QWidget, now: str) -> str | None:
        """Return the name for a collection; None for none."""
        from PySide6.QtWidgets import QInputDialog, QLineEdit

        text, taken = QInputDialog.getText(
            parent,
            tr("Name a collection"),
            tr("Name of the collection, such as Beginners"),
            QLineEdit.EchoMode.Normal,
            now,
        )
        return text.strip() if taken else None

    def bill_where(self, parent: QWidget, suggested: str) -> Path | None:
        """Return where to write the bill, .csv or .txt; None for nowhere."""
        kinds = _kinds(message("Table (*.csv)"), message("Text (*.txt)"))
        return _named(parent, tr("Export the ingredient list"), suggested, kinds, ".csv")

    def which_bill(self, parent: QWidget, folder: str) -> Path | None:
        """Return the table of ingredients to bring in; None for none."""
        tables = tr("Tables ({endings})", endings=" ".join(f"*{each}" for each in TABLES))
        kinds = f"{tables};;{tr(ANY)}"
        return _found(parent, tr("Import lines from a table"), folder, kinds)

    def copy_where(self, parent: QWidget) -> Path | None:
        """Return where to copy everything; None for nowhere."""
        suggested = str(Path.home() / "hobwort-everything.db")
        return _named(
            parent, tr("Copy everything to a file"), suggested, tr("Copies (*.db)"), ".db"
        )

    def which_pocket_log(self, parent: QWidget, folder: str) -> Path | None:
        """Return the file that a phone saved its log in; None for none."""
        texts = _kinds(message("Text (*.txt)"), ANY)
        return _found(parent, tr("Open the log of a phone"), folder, texts)

    def which_copy(self, parent: QWidget, folder: str) -> Path | None:
        """Return the backup, or copy of everything, to bring back; None for none."""
        return _found(
            parent, tr("Restore everything from"), folder, tr("Backups and copies (*.db)")
        )

    def save_where(self, parent: QWidget, suggested: str) -> Path | None:
        """Return where to save the recipe; None for nowhere."""
        return _named(parent, tr("Save the recipe as"), suggested, tr(RECIPES), SUFFIX)

    def pdf_where(self, parent: QWidget, suggested: str) -> Path | None:
        """Return where to write the sheet; None for nowhere."""
        return _named(
            parent, tr("Export the brew sheet as PDF"), suggested, tr("PDF (*.pdf)"), ".pdf"
        )

    def picture_where(self, parent: QWidget, suggested: str) -> Path | None:
        """Return where to save a picture, .png or .svg; None for nowhere."""
        from PySide6.QtWidgets import QFileDialog

        pixels, drawing = tr("Picture (*.png)"), tr("Drawing, sharp in every size (*.svg)")
        name, kind = QFileDialog.getSaveFileName(
            parent, tr("Save the picture as"), suggested, f"{pixels};;{drawing}"
        )
        if not name:
            return None
        path = Path(name)
        if kind == drawing and path.suffix in ("", ".png"):  # the kind was chosen, the name left
            return path.with_suffix(".svg")
        return path if path.suffix else path.with_suffix(".png")

    def guide_where(self, parent: QWidget, suffix: str) -> Path | None:
        """Return where to write the guide, as ".pdf" or ".html"; None for nowhere."""
        kinds = tr("PDF (*.pdf)") if suffix == ".pdf" else tr("Web page (*.html)")
        suggested = f"hobwort-guide{suffix}"
        return _named(parent, tr("Write the guide to a file"), suggested, kinds, suffix)

    def html_where(self, parent: QWidget, suggested: str) -> Path | None:
        """Return where to write the sheet as a web page; None for nowhere."""
        kinds = tr("Web page (*.html)")
        return _named(parent, tr("Export the brew sheet as a web page"), suggested, kinds, ".html")

    def brew_log_where(self, parent: QWidget, suggested: str) -> Path | None:
        """Return where to write a brew log that cannot be kept; None for nowhere."""
        return _named(parent, tr("Save the brew log to"), suggested, tr(LOGS), ".jsonl")

    def log_where(self, parent: QWidget, suggested: str) -> Path | None:
        """Return where to write a brew's log, .txt, .csv or .json; None for nowhere."""
        kinds = _kinds(message("Text (*.txt)"), message("Table (*.csv)"), message("Data (*.json)"))
        return _named(parent, tr("Export the log of the brew"), suggested, kinds, ".txt")

    def calendar_where(self, parent: QWidget, suggested: str) -> Path | None:
        """Return where to write what a calendar takes; None for nowhere."""
        kinds = tr("Calendar (*.ics)")
        return _named(parent, tr("Save the dates for a calendar"), suggested, kinds, ".ics")

    def labels_where(self, parent: QWidget, suggested: str) -> Path | None:
        """Return where to write the labels; None for nowhere."""
        return _named(parent, tr("Save the labels as PDF"), suggested, tr("PDF (*.pdf)"), ".pdf")

    def which_warmth_table(self, parent: QWidget, folder: str) -> Path | None:
        """Return the table of temperatures to take in; None for none."""
        kinds = _kinds(message("Table (*.csv)"), ANY)
        return _found(parent, tr("Take in temperatures from a table"), folder, kinds)

    def which_printer(self, parent: QWidget, paper: str) -> QPrinter | None:
        """Return a printer set up by the dialog of the system; None for none."""
        from PySide6.QtGui import QPageSize
        from PySide6.QtPrintSupport import QPrintDialog, QPrinter

        printer = QPrinter(QPrinter.PrinterMode.HighResolution)
        sizes = {"a4": QPageSize.PageSizeId.A4, "letter": QPageSize.PageSizeId.Letter}
        printer.setPageSize(QPageSize(sizes[paper]))
        dialog = QPrintDialog(printer, parent)
        return printer if dialog.exec() else None

    def forget_taught(self, parent: QWidget, pot: str) -> bool:
        """Return whether what brews in a pot taught is to be forgotten."""
        from PySide6.QtWidgets import QMessageBox

        box = QMessageBox(parent)
        box.setIcon(QMessageBox.Icon.Question)
        box.setWindowTitle(tr("Forget all"))
        box.setTextFormat(Qt.TextFormat.PlainText)
        box.setText(tr("Forget what the brews in “{pot}” taught?", pot=pot))
        box.setInformativeText(
            tr("None of them counts any more, and what was taken is given back. Logs stay.")
        )
        forget = box.addButton(tr("Forget all"), QMessageBox.ButtonRole.DestructiveRole)
        stay = box.addButton(tr("Leave it"), QMessageBox.ButtonRole.RejectRole)
        box.setDefaultButton(stay)
        box.exec()
        return box.clickedButton() is forget

    def about_unsaved(self, parent: QWidget, name: str) -> str:
        """Return what to do with unsaved changes: "save", "leave" or "stay"."""
        from PySide6.QtWidgets import QMessageBox

        box = QMessageBox(parent)
        box.setIcon(QMessageBox.Icon.Question)
        box.setWindowTitle(tr("Unsaved changes"))
        box.setTextFormat(Qt.TextFormat.PlainText)
        box.setText(tr("“{name}” has changes that no file holds yet.", name=name))
        box.setInformativeText(tr("Save them before you go on?"))
        save = box.addButton(tr("Save"), QMessageBox.ButtonRole.AcceptRole)
        leave = box.addButton(tr("Do not save"), QMessageBox.ButtonRole.DestructiveRole)
        box.addButton(tr("Stay here"), QMessageBox.ButtonRole.RejectRole)
        box.setDefaultButton(save)
        box.exec()
        pressed = box.clickedButton()
        if pressed is save:
            return "save"
        return "leave" if pressed is leave else "stay"


def _kinds(*kinds: str) -> str:
    """Return kinds of files as a dialog is asked to offer them."""
    return ";;".join(tr(each) for each in kinds)


def _found(parent: QWidget, title: str, folder: str, kinds: str) -> Path | None:
    """Ask for a file that is there."""
    from PySide6.QtWidgets import QFileDialog

    name, _ = QFileDialog.getOpenFileName(parent, title, folder, kinds)
    return Path(name) if name else None


def _named(parent: QWidget, title: str, suggested: str, kinds: str, ending: str) -> Path | None:
    """Ask for a file to be written; one named without an ending is given it."""
    from PySide6.QtWidgets import QFileDialog

    name, _ = QFileDialog.getSaveFileName(parent, title, suggested, kinds)
    if not name:
        return None
    path = Path(name)
    return path if path.suffix else path.with_suffix(ending)
