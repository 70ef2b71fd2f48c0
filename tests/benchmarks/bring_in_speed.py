"""Bring thousands of recipe files in, and see how long what is asked meanwhile waits.

Run it: `python tests/benchmarks/bring_in_speed.py [FILES]`. While the files come in through the
Recipe box page, a draft and a search are asked for in turn; then all recipes are written out, and a
backup is made. It prints how long each took, and how long a draft or a search waited at most.
"""

# ruff: noqa: T201 - it is run by hand and prints what it measured
from __future__ import annotations

import os
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))
SCREEN = Path(__file__).parents[1] / "screen.json"  # larger than the window
os.environ.setdefault("QT_QPA_PLATFORM", f"offscreen:configfile={SCREEN}")

FILES, WAIT_BOUND_MS, EVERY_MS = 5000, 100.0, 50


def main(count: int) -> int:
    with tempfile.TemporaryDirectory(prefix="hobwort-bring-in-") as name:
        os.environ["XDG_DATA_HOME"] = os.environ["HOME"] = name
        return _measured(Path(name), count)


def _measured(folder: Path, count: int) -> int:
    from PySide6.QtCore import QTimer

    from designer.library.recipe_file import document_text, load
    from designer.resource_files import resource_path
    from designer.window.main_window import MainWindow
    from designer.window.parts.settings import Settings
    from designer.window.session.autosave import Autosave
    from designer.window.session.open_recipe import OpenRecipe
    from designer.window.session.store_thread import StoreThread
    from designer.window.start import made_application

    porter = load(resource_path("examples/harbour_lamp_porter.hobwort"))
    (folder / "files").mkdir()
    (folder / "out").mkdir()
    paths = [folder / "files" / f"{number}.hobwort" for number in range(count)]
    for number, path in enumerate(paths):
        path.write_text(document_text(replace(porter, name=f"Porter {number}")), "utf-8")

    application = made_application()
    opened = OpenRecipe(porter)
    autosave = Autosave(opened, StoreThread(folder / "box"), folder / "box")
    window = MainWindow(opened, Settings(application), None, lambda: autosave)
    window.show()

    def until(done: Callable[[], bool]) -> float:
        begun = time.perf_counter()
        while not done():
            application.processEvents()
            time.sleep(0.001)
        return time.perf_counter() - begun

    until(
        lambda: (
            window.autosave is not None and not autosave.store.busy and not window.maintenance.busy
        )
    )
    window.show_page(window.page_names.index("Recipe box"))
    box = window.box
    assert box is not None
    until(lambda: not autosave.store.busy)
    waits: list[float] = []

    def ask() -> None:
        asked = time.perf_counter()
        kind = len(waits) % 2

        def answered(_: object) -> None:
            waits.append(1000.0 * (time.perf_counter() - asked))

        if kind:
            autosave.store.ask(lambda store: store.finder.find("porter 12"), answered, print)
        else:
            autosave.store.ask(lambda store: store.preferences.put("asked", asked), answered, print)

    def while_it_runs(what: str, busy: Callable[[], bool]) -> bool:
        waits.clear()
        ticker = QTimer(interval=EVERY_MS)
        ticker.timeout.connect(ask)
        ticker.start()
        taken = until(lambda: not busy())
        ticker.stop()
        until(lambda: not autosave.store.busy)
        if not waits:
            print(f"{what}: {taken:.2f} s, before anything else was asked")
            return True
        found = sorted(waits)
        worst, p99 = found[-1], found[int(0.99 * len(found))]
        print(
            f"{what}: {taken:.1f} s; {len(found)} drafts and searches meanwhile waited"
            f" {found[len(found) // 2]:.0f} ms (median), {p99:.0f} (p99), {worst:.0f} (most)"
        )
        return p99 <= WAIT_BOUND_MS

    box.bring_in(paths)
    ok = while_it_runs(f"{count} files brought in", lambda: box.job is not None)
    until(lambda: box.model.rowCount() == count and not autosave.store.busy)
    box.table.selectAll()
    window.questions.which_folder = lambda _parent: folder / "out"  # type: ignore[method-assign]
    box.export()
    ok &= while_it_runs("all written out", lambda: box.job is not None)
    assert len(list((folder / "out").iterdir())) == count
    window.maintenance.make_backup()
    ok &= while_it_runs("a backup made", lambda: window.maintenance.busy)
    opened.undo_stack.setClean()
    window.close()
    print("within bounds" if ok else "over bounds")
    return 0 if ok else 1


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else FILES))
