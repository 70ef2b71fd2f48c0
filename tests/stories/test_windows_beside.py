"""Further windows of the same Recipe box, and several files dropped at once."""

from PySide6.QtCore import QProcess, QUrl

from designer.library.recipe_file import document_text
from designer.workbench.examples import example


def _begun(monkeypatch):
    begun = []
    monkeypatch.setattr(
        QProcess, "startDetached", lambda program, words: begun.append(words) or (True, 1)
    )
    return begun


def _files(folder, count):
    text = document_text(example("slipway_bitter"))
    paths = [folder / f"bitter {number}.hobwort" for number in range(count)]
    for path in paths:
        path.write_text(text, encoding="utf-8")
    return paths


def test_a_new_window_is_a_program_of_its_own_at_the_doors(window, monkeypatch):
    begun = _begun(monkeypatch)
    (entry,) = [each for each in window.menus.actions if each.shortcut().toString() == "Ctrl+Alt+N"]
    entry.trigger()
    assert begun == [["-P", "-m", "designer", "open", "--begin"]]


def test_of_several_files_each_has_a_window(window, qtbot, monkeypatch, tmp_path):
    begun = _begun(monkeypatch)
    paths = _files(tmp_path, 3)
    window.files.take_dropped([QUrl.fromLocalFile(str(each)) for each in paths], is_passing=False)
    qtbot.waitUntil(lambda: window.opened.path == paths[0])
    assert [words[-1] for words in begun] == [str(each) for each in paths[1:]]


def test_too_many_files_are_no_windows(window, qtbot, monkeypatch, tmp_path):
    begun = _begun(monkeypatch)
    paths = _files(tmp_path, 7)
    window.files.take_dropped([QUrl.fromLocalFile(str(each)) for each in paths], is_passing=False)
    qtbot.waitUntil(lambda: window.opened.path == paths[0])
    assert not begun
