"""What Qt itself says and writes, in the language of the program: its dialogs, numbers, dates."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication, QLibraryInfo, QLocale, QTranslator

from designer.spoken_language import LANGUAGES
from designer.translation import message, spoken, tr

_OF_LANGUAGE = {"en": "en_GB", "de": "de_DE", "fr": "fr_FR"}
"""How numbers and dates are written where the system's are those of another language."""


_LEFT_OUT = {
    ("QFileDialog", "&Look in:"): message("&Look in:"),
    ("QFileDialog", "Files of &type:"): message("Files of &type:"),
    ("QAbstractFileIconProvider", "File"): message("File"),
    ("QAbstractFileIconProvider", "Folder"): message("Folder"),
    ("QAbstractFileIconProvider", "File Folder"): message("Folder"),
    ("QAbstractFileIconProvider", "%1 File"): message("%1 file"),
    ("QAbstractFileIconProvider", "Drive"): message("Drive"),
    ("QAbstractFileIconProvider", "Shortcut"): message("Shortcut"),
    ("QAbstractFileIconProvider", "Unknown"): message("Unknown"),
    ("QFileSystemModel", "Invalid filename"): message("No name of a file can be like that"),
    (
        "QFileSystemModel",
        '<b>The name "%1" cannot be used.</b><p>Try using another name, with fewer characters or '
        "no punctuation marks.",
    ): message(
        "<b>The name “%1” cannot be used.</b><p>Try another one, shorter or without punctuation "
        "marks."
    ),
}
"""What Qt's own translations leave in English, by where Qt says it: its dialog of files."""


class _LeftOut(QTranslator):
    """Says what Qt's own translations leave out."""

    def translate(
        self, context: str, source: str, disambiguation: str | None = None, n: int = -1
    ) -> str:
        """Return the words; None, which Qt takes for "ask the next", where it is not left out."""
        known = _LEFT_OUT.get((context, source))
        return tr(known) if known is not None else None  # type: ignore[return-value]


def locale_of(code: str, system: QLocale) -> QLocale:
    """Return how numbers and dates are written in a language: as the system does if it speaks it.

    So it is with a system whose language the program does not have, as long as that is not another
    of the program's: what is shown is English then, and figures are what one is used to.
    """
    own = QLocale.languageToCode(system.language())
    if own == code or (code == "en" and own not in LANGUAGES):
        return system
    return QLocale(_OF_LANGUAGE[code])


def speak_alike(application: QCoreApplication) -> None:
    """Let Qt speak the language of the program; for English nothing is loaded."""
    code = spoken()
    system = QLocale.system()
    wanted = locale_of(code, system)
    if wanted is not system:
        QLocale.setDefault(wanted)
    if code != "en":
        # Qt asks the last that was installed first: this one is for what its own leave out.
        application.installTranslator(_LeftOut(application))
        translator = QTranslator(application)
        folder = QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)
        if translator.load(f"qtbase_{code}", folder):
            application.installTranslator(translator)
