"""What closed windows left behind: shown, or filed in the Recipe box; never written over.

All of it is asked for on the store's thread.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from designer.errors import DesignerError
from designer.library.recipe_file import SUFFIX, load, read_document, write_whole
from designer.library.store import Draft, Store, Version
from designer.library.store.windows import open_windows
from designer.recipe.document import Recipe
from designer.translation import tr
from designer.window.parts.settings import Written
from designer.window.session.sitting import (
    LAST,
    LAST_RECIPE,
    Sitting,
    drop_draft,
    file_of,
    keep_version,
    put_file,
)
from designer.workbench.recipe_summary import summary_of

UNREADABLE_FOLDER = "left-behind"


@dataclass(slots=True)
class Left:
    """What there is to go on with: a recipe as it was step after step, and which step is shown.

    It is a `draft`, which nothing else holds, or else a `version` of the box (of one of its
    examples with `is_example`) or the file `path`;
    `sitting` goes on with it. With `is_written` the file `path` holds the step that is shown, and
    those before are from a draft that is older. `filed` was put into the box instead of being
    shown; `told` are sentences about what could not be.
    """

    history: tuple[Recipe, ...] = ()
    position: int = 0
    phrases: tuple[str, ...] = ()
    path: Path | None = None
    file_mark: str = ""
    sitting: Sitting | None = None
    draft: Draft | None = None
    version: Version | None = None
    is_example: bool = False
    is_written: bool = False
    filed: list[Version] = field(default_factory=list)
    told: list[str] = field(default_factory=list)

    @property
    def recipe(self) -> Recipe:
        """What is to be shown."""
        return self.history[self.position]

    def tell(self, words: str) -> None:
        """Add a sentence, once."""
        if words not in self.told:
            self.told.append(words)


def find_left(
    store: Store,
    next_name: Callable[[], str],
    only: Path | None = None,
    written: Written | None = None,
) -> Left:
    """Take over what closed windows left; the last of it is to be shown, the rest is filed.

    With `only` a file was asked for: no draft but that of this file is taken over. `written` is a
    file that the store could take no note of: it is newer than what the store holds of that
    sitting. Raises DesignerError.
    """
    left, noted = Left(), noted_last(store)
    after = noted.get("after", 0)
    drafts = store.drafts.left_behind(open_windows(store.folder))
    if written is not None and only in (None, written.path):
        drafts = _show_written(store, drafts, written, left, next_name())
    if only is not None:
        drafts = [each for each in drafts if file_of(store, each.window)[0] == only]
    for draft in reversed(drafts):
        was_last = only is not None or not isinstance(after, int) or draft.number > after
        if left.history or not was_last or not show_draft(store, draft, left, next_name()):
            _put_away(store, draft, left, next_name())
    if not left.history and only is None:
        _show_last(store, noted, left, next_name())
    return left


def _show_written(
    store: Store, drafts: list[Draft], written: Written, left: Left, name: str
) -> list[Draft]:
    """Make a file the one to be shown, after the steps of its draft; return the other drafts.

    A file that cannot be read is told of.
    """
    try:
        recipe = load(written.path)
    except DesignerError as fault:
        left.tell(tr("{fault} It was saved last.", fault=fault))
        return drafts
    own = [each for each in drafts if each.window == written.sitting]
    if any(each.number > written.number for each in own):
        return drafts  # the program ended before it could note that a newer draft was kept
    for draft in own:
        if show_draft(store, draft, left, name) and left.history:
            left.path, left.file_mark, left.is_written = written.path, "", True
            if left.recipe != recipe:
                before = left.history[: left.position + 1]
                left.phrases = (
                    *left.phrases[: len(before)],
                    tr("take over what {file} holds", file=written.path.name),
                )
                left.history, left.position = (*before, recipe), len(before)
            return [each for each in drafts if each is not draft]
    if noted_last(store).get("path") != str(written.path):  # else it is shown as what was open last
        left.history, left.path, left.sitting = (recipe,), written.path, Sitting(name)
    return drafts


def show_draft(store: Store, draft: Draft, left: Left, name: str) -> bool:
    """Make a draft the one to be shown; False if it cannot be read."""
    try:
        recipe = read_document(draft.document, tr("draft"))
    except DesignerError:
        return False
    path, mark = file_of(store, draft.window)
    try:
        mine = taken_over(store, draft, name)
    except DesignerError as fault:
        mine = draft  # a disk that is full or read-only: it is shown, and stays where it is
        if not store.read_only:
            left.tell(str(fault))
    if mine is None:
        return True  # another window was quicker, and shows it
    left.history, left.position, left.phrases = readable_history(draft, recipe)
    left.path, left.file_mark, left.draft = path, mark, mine
    left.sitting = Sitting(name, draft.recipe, draft.base, _newest(store, draft.recipe))
    left.sitting.drafted = mine.window == name
    return True


def taken_over(store: Store, draft: Draft, name: str) -> Draft | None:
    """Give a draft, and the file it belongs to, to a new sitting; None if another has it now.

    Raises DesignerError.
    """
    path, mark = file_of(store, draft.window)

    def all_at_once(_: object) -> Draft | None:
        mine = store.drafts.take_over(draft, name)
        if mine is not None and path is not None:
            put_file(store, name, path, mark)
            put_file(store, draft.window, None)
        return mine

    return store.connection.write(all_at_once)


def readable_history(
    draft: Draft, recipe: Recipe
) -> tuple[tuple[Recipe, ...], int, tuple[str, ...]]:
    """Return the steps around the present one as far as they can be read, its place, the phrases.

    `recipe` is that of the draft's own text, which counts whatever its history says.
    """
    at = min(draft.position, max(len(draft.undo) - 1, 0))
    phrases = draft.phrases if len(draft.phrases) == len(draft.undo) else ("",) * len(draft.undo)
    steps = list(zip(draft.undo, phrases, strict=True))
    before, after = _read_on(reversed(steps[:at])), _read_on(steps[at + 1 :])
    own = phrases[at] if before else ""
    whole = [*reversed(before), (recipe, own), *after]
    return tuple(step for step, _ in whole), len(before), tuple(words for _, words in whole)


def _read_on(steps: Iterable[tuple[str, str]]) -> list[tuple[Recipe, str]]:
    """Return steps, one after another, until one cannot be read."""
    found: list[tuple[Recipe, str]] = []
    for text, phrase in steps:
        try:
            found.append((read_document(text, tr("draft")), phrase))
        except DesignerError:
            break
    return found


def _put_away(store: Store, draft: Draft, left: Left, name: str) -> None:
    """File a draft that is not to be shown."""
    try:
        mine = taken_over(store, draft, name)
        version = file_draft(store, mine) if mine is not None else None
    except DesignerError as fault:
        if not store.read_only:
            left.tell(str(fault))
    else:
        if version is not None:
            left.filed.append(version)


def file_draft(store: Store, draft: Draft) -> Version | None:
    """Put a draft into the Recipe box; None if the box has its text already.

    A text that is no recipe's goes into a file as it is. Raises DesignerError, in that case too: it
    says where the text is.
    """
    try:
        recipe = read_document(draft.document, tr("draft"))
    except DesignerError as fault:
        path = store.folder / UNREADABLE_FOLDER / f"{draft.window}{SUFFIX}"
        with suppress(OSError):  # writing into it then says why there is no folder
            path.parent.mkdir(exist_ok=True)
        write_whole(path, draft.document.encode("utf-8", "surrogatepass"))
        drop_draft(store, draft.window)
        raise DesignerError(
            tr(
                "A draft that was left behind cannot be read ({fault}). Its text is in {path}.",
                fault=fault,
                path=path,
            )
        ) from fault
    newest = _newest(store, draft.recipe)
    sitting = Sitting(draft.window, draft.recipe, draft.base, newest)
    keep_version(store, sitting, draft.document, summary_of(recipe), is_last=False)
    return store.recipes.version(sitting.base) if sitting.base != newest else None


def _newest(store: Store, recipe: int) -> int:
    """Return the newest version of a recipe; 0 if it is not in the box any more."""
    row = store.connection.row("select newest from recipes where id = ?", (recipe,))
    return int(row["newest"]) if row else 0


# what was open last, if no draft was left


def noted_last(store: Store) -> dict[str, object]:
    """Return what was noted of what was open last. Raises DesignerError."""
    found = store.preferences.get(LAST)
    if isinstance(found, dict):
        return found
    return {"recipe": store.preferences.get(LAST_RECIPE, 0)}


def _show_last(store: Store, noted: dict[str, object], left: Left, name: str) -> None:
    """Make what was open last the one to be shown: its file if it has one, else its version."""
    version = _version_open_last(store, noted)
    if version is None:
        left.sitting = Sitting(name)
    else:
        newest = _newest(store, version.recipe)
        left.sitting = Sitting(name, version.recipe, version.id, newest)
    try:
        path = noted.get("path")
        if isinstance(path, str) and path:
            left.history, left.path = (load(Path(path)),), Path(path)
    except DesignerError as fault:
        left.tell(tr("{fault} It was open last.", fault=fault))
    if version is not None and left.path is None:
        try:
            left.history = (read_document(version.document, version.called),)
        except DesignerError as fault:
            left.tell(str(fault))
        else:
            left.version = version
            left.is_example = store.examples.is_one(version.recipe)


def _version_open_last(store: Store, noted: dict[str, object]) -> Version | None:
    """Return the version that was open last; None if it was thrown away or deleted since."""
    recipe, version = noted.get("recipe"), noted.get("version")
    if not isinstance(recipe, int) or not recipe:
        return None
    try:
        if store.recipes.row(recipe).trashed:
            return None
        if isinstance(version, int) and store.recipes.has(recipe, version):
            return store.recipes.version(version)
        return store.recipes.newest(recipe)
    except DesignerError:
        return None
