"""Care of the whole Recipe box: backups, copies, bringing back, and rescue of what is damaged."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import QObject, QTimer, Signal

from designer.library.store.backup_keeping import copied_elsewhere
from designer.library.store.backups import copy_store, make_backup
from designer.library.store.folder import VARIABLE, named_folder, store_path
from designer.library.store.health import SOUND, check
from designer.library.store.windows import window_of
from designer.translation import message, tr, trn
from designer.window.session.background_jobs import BackgroundJobs

if TYPE_CHECKING:
    from designer.library.store import Store
    from designer.library.store.backup_files import Backup
    from designer.library.store.backups import Told
    from designer.library.store.health import Health
    from designer.library.store.moving import Moved
    from designer.library.store.rescue import Offer
    from designer.window.session.autosave import Autosave

T = TypeVar("T")
CARE_MS = 15 * 60_000
LIES = message("The Recipe box is now kept in {folder}, with {holds}.")
COPIED = message(
    "The Recipe box is now kept in {folder}, with {holds}, copied from where it was before."
)


class BoxMaintenance(QObject):
    """Looks after the Recipe box of one window, now and then and when asked.

    `progressed` tells of what is being copied how much is done and of how much; (0, 0) ends it.
    """

    progressed = Signal(str, int, int)
    backed_up = Signal()
    ways_found = Signal(object)
    """What can be done about a store that failed: an `Offer`."""

    def __init__(self, autosave: Autosave) -> None:
        super().__init__(autosave)
        self._autosave = autosave
        self._not_copied = ""
        self._timer = QTimer(self, interval=CARE_MS)
        self._timer.timeout.connect(self.look_after)
        self._beside = BackgroundJobs(self)
        self._beside.progressed.connect(self.progressed)
        self._looking = BackgroundJobs(self)
        autosave.trouble.connect(self._look_for_ways)
        autosave.opened_anew.connect(self.look_after)

    def begin(self) -> None:
        """Look now, and from now on every quarter of an hour."""
        self._timer.start()
        self._autosave.store.ask(
            lambda store: store.read_only, self._note_read_only, key="writable"
        )
        self.look_after()

    def _note_read_only(self, why: str) -> None:
        """Say at once, not at the first key, that nothing can be kept here."""
        if why:
            self._autosave.say_broken(why)

    def look_after(self) -> None:
        """Make a backup if anything changed since the last, and look whether the store is sound.

        It is done beside the store's own thread: a large store holds up nothing that is kept.
        """
        if self._beside.busy:
            return

        def work(store: Store, told: Told) -> tuple[Health | None, Backup | None, str]:
            if store.read_only:
                return None, None, ""
            health = check(store.path)
            is_sound = health.state == SOUND
            made = make_backup(store.connection, told=told) if is_sound else None
            return health, made, copied_elsewhere(store.folder, made) if made is not None else ""

        def done(found: tuple[Health | None, Backup | None, str]) -> None:
            health, made, not_copied = found
            if health is not None:
                self._autosave.note_health(health)
            if made is not None:
                self.backed_up.emit()
            if not_copied != self._not_copied:  # said once, not every quarter of an hour
                self._not_copied = not_copied
                if not_copied:
                    self._autosave.said.emit(not_copied, True)

        def begin(_: None) -> None:
            self._beside.ask("", self._autosave.folder, work, done, self._tell_unless_broken)

        # Once the store's own thread has it open, which also makes a new one.
        self._autosave.store.ask(
            lambda store: None, begin, self._tell_unless_broken, key="look after"
        )

    def make_backup(self) -> None:
        """Make a backup now, though nothing may have changed since the last."""

        def work(store: Store, told: Told) -> tuple[Backup, str]:
            made = make_backup(store.connection, forced=True, told=told)
            assert made is not None
            return made, copied_elsewhere(store.folder, made)

        def done(found: tuple[Backup, str]) -> None:
            made, self._not_copied = found
            words = tr("A backup was made and read back: {file}.", file=made.path.name)
            self._autosave.said.emit(self._not_copied or words, bool(self._not_copied))
            self.backed_up.emit()

        self._ask(tr("Making a backup"), work, done)

    def _ask(
        self, doing: str, work: Callable[[Store, Told], T], done: Callable[[T], object]
    ) -> None:
        self._beside.ask(doing, self._autosave.folder, work, done, self._tell)

    @property
    def busy(self) -> bool:
        """Whether anything is being looked after, or copied."""
        return self._beside.busy

    def stop(self) -> None:
        """End what is being copied; nothing half made is kept."""
        self._beside.stop()

    def close(self, within_s: float | None = None) -> bool:
        """For the end of the program: end what is being copied, and wait until it has ended.

        False if it has not.
        """
        self._timer.stop()
        looked = self._looking.close(within_s)
        return self._beside.close(within_s) and looked

    def _look_for_ways(self) -> None:
        """Look in the background what can be done about a store that failed; a salvage is tried.

        The store's own thread lets go of it first, and is free for what is typed meanwhile.
        """
        folder = self._autosave.folder

        def look(told: Told) -> Offer:
            # Rescue and moving are for few windows: they come on the thread that does them.
            from designer.library.store.rescue import offer

            return offer(folder, lambda: told(0, 0))

        def begin() -> None:
            if not self._looking.busy:
                self._looking.ask_without("", look, self.ways_found.emit, self._tell)

        self._autosave.store.let_go(begin)

    def rescue(self, offer: Offer, way: str, failed: Callable[[], None]) -> None:
        """Set a damaged store aside and go on by "backup", "salvage" or "empty".

        If that cannot be, `failed` is called before it is said why.
        """
        folder = self._autosave.folder

        def work() -> str:
            from designer.library.store import rescue

            if way == "backup" and offer.backup is not None:
                return rescue.go_on_with_backup(folder, offer.backup).words
            if way == "salvage":
                return rescue.go_on_with_salvage(folder, offer.backup).words
            return rescue.begin_empty(folder).words

        recipe_id, base = self._autosave.recipe_id, self._autosave.base

        def look(store: Store) -> bool:
            return not recipe_id or store.recipes.has(recipe_id, base)

        def done(words: str) -> None:
            self._autosave.said.emit(words, True)
            self._autosave.store.ask(look, self._autosave.go_on_in_another_box, tell)

        def tell(fault: str) -> None:
            failed()
            self._tell(fault)

        self._autosave.store.ask_without(work, done, tell)

    def move_to(self, folder: Path) -> None:
        """Let the box lie in another folder, with what it holds if that can be read."""
        old = self._autosave.folder

        def work(told: Told) -> Moved:
            from designer.library.store.moving import move_box

            return move_box(old, folder, told)

        def done(moved: Moved) -> None:
            self._autosave.move_to(moved.folder, moved.is_copy)
            told = [tr(COPIED if moved.is_copy else LIES, folder=moved.folder, holds=moved.holds)]
            if named_folder() is None:
                told.append(tr("The next start finds it there."))
            else:
                told.append(
                    tr(
                        "{variable} names another folder, which counts again at next start.",
                        variable=VARIABLE,
                    )
                )
            self._autosave.moved.emit(" ".join(told), old)

        self._beside.ask_without(tr("Copying the Recipe box"), work, done, self._tell)

    def copy_all(self, target: Path) -> None:
        """Write everything the store holds into one file."""

        def work(store: Store, told: Told) -> None:
            copy_store(store.connection, target, told)

        said = tr("Everything was copied to {path}, and the copy was read back.", path=target)
        self._ask(tr("Copying everything"), work, lambda _: self._autosave.said.emit(said, False))

    def bring_back_all(self, source: Path, called: str = "") -> None:
        """Put a backup, or a copy of everything, in place of what the store holds.

        What it holds is made a backup first, and can be taken back; a store that is beyond use is
        set aside, whole. `called` is how the backup is spoken of.
        """
        recipe_id, base = self._autosave.recipe_id, self._autosave.base
        name = called or source.name

        def work(store: Store) -> tuple[Backup | None, int, bool]:
            before = store.bring_back(source)
            window = self._autosave.window_name()
            for draft in store.drafts.all():
                if window_of(draft.window) == window:  # the present draft stays apart from it
                    store.drafts.take_over(draft, self._autosave.next_sitting())
            is_in_it = not recipe_id or store.recipes.has(recipe_id, base)
            return before, store.recipes.count(), is_in_it

        def done(result: tuple[Backup | None, int, bool]) -> None:
            before, count, is_in_it = result
            told = trn(
                "{name} is restored, with {number:,} recipe. What the box held before is kept as "
                "its newest backup.",
                "{name} is restored, with {number:,} recipes. What the box held before is kept as "
                "its newest backup.",
                count,
                name=name,
            )
            ways = []
            if before is not None:
                undo = partial(self.bring_back_all, before.path, tr("What was there before"))
                ways.append((tr("Undo that"), undo))
            self._autosave.go_on_in_another_box(is_in_it or self._autosave.recipe_id != recipe_id)
            self._autosave.offered.emit(told, ways)

        def instead(fault: str) -> None:
            self._replace_what_is_beyond_use(source, fault)

        self._autosave.store.ask(work, done, instead)

    def _replace_what_is_beyond_use(self, source: Path, fault: str) -> None:
        """Where the store could not even be opened: set it aside and put the backup there."""
        folder = self._autosave.folder

        def work() -> str:
            from designer.library.store import rescue

            if check(store_path(folder)).state not in rescue.BEYOND_USE:
                return ""
            return rescue.go_on_with_copy(folder, source).words

        def done(words: str) -> None:
            if not words:
                self._tell(fault)
                return
            self._autosave.go_on_in_another_box(True)
            self._autosave.said.emit(words, True)

        self._autosave.store.ask_without(work, done, self._tell)

    def _tell(self, fault: str) -> None:
        self._autosave.said.emit(fault, True)

    def _tell_unless_broken(self, fault: str) -> None:
        if not self._autosave.broken:
            self._tell(fault)
