"""`hobwort box`: the Recipe box as a whole, and what is done to all recipes that are found."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Callable, Sequence
from pathlib import Path
from tempfile import TemporaryDirectory

from designer.command_line import find_command
from designer.command_line.new_file import new_file, refuse_those_there
from designer.command_line.no_box import no_box_yet
from designer.command_line.output import (
    FINE,
    REFUSED,
    STANDARD,
    complain,
    print_bytes,
    print_lines,
    remark,
)
from designer.errors import DesignerError
from designer.library.file_bytes import is_there, write_whole
from designer.library.file_names import file_name
from designer.library.recipe_file import SUFFIX, read_document
from designer.library.store import RecipeRow, Store, store_folder
from designer.library.store.collections_kept import collection_called, collections_of
from designer.library.store.folder import store_path
from designer.library.system_reason import reason_of
from designer.recipe.document import Recipe
from designer.recipe.message import refused, say
from designer.translation import labelled, tr, trn
from designer.units.quoting import one_line, quoted
from designer.workbench.box_files import keep_a_piece, write_recipes
from designer.workbench.box_tables import bills_csv, stock_csv


def carry_out(chosen: Namespace) -> int:
    """Do what is asked of the box; nothing is done where what is looked for is not understood."""
    if chosen.collection is not None:
        chosen.words = [_search_of(chosen.collection), *chosen.words]
    if chosen.does in ("list", "find"):
        return find_command.carry_out(chosen)
    deeds: dict[str, Callable[[Namespace], int]] = {
        "collections": _collections,
        "export": _export,
        "import": _import,
        "sheets": _sheets,
        "bill": _bill,
        "stock": _stock,
        "backup": _backup,
        "restore": _restore,
    }
    return deeds[chosen.does](chosen)


def _box() -> Store:
    """Open the box that is there; raises DesignerError where there is none."""
    folder = store_folder()
    if not store_path(folder).exists():
        raise DesignerError(no_box_yet(folder))
    return Store.open(folder, expected=True)


def _search_of(name: str) -> str:
    with _box() as store:
        found, names = collection_called(store, name), [x.name for x in collections_of(store)]
    if found is None:
        raise refused(
            "no-such-collection",
            "The Recipe box has no collection {name}; there are: {names}",
            name=quoted(name, 60),
            names=", ".join(names) or tr("none"),
        )
    return found.search


def _collections(chosen: Namespace) -> int:
    with _box() as store:
        found = collections_of(store)
    if found:
        print_lines(*(one_line(labelled(each.name, each.shown)) for each in found))
    else:
        remark(tr("There are no collections yet."))
    return FINE


def _found(store: Store, words: Sequence[str]) -> Sequence[RecipeRow]:
    """Return all recipes that are found; raises RefusedInputError where there is none."""
    found = store.finder.find(" ".join(words), limit=find_command.MOST, hurry_s=None)
    for problem in found.problems:
        raise refused("not-looked-for", "{problem}", problem=problem)
    if not found.rows:
        raise refused("nothing-found", "No recipe of the Recipe box is found so.")
    return found.rows


def _recipes(store: Store, rows: Sequence[RecipeRow]) -> list[Recipe]:
    return [read_document(store.recipes.newest(row.id).document, row.name) for row in rows]


def _folder(typed: str) -> Path:
    """Return the folder to write into, made if need be. Raises DesignerError."""
    folder = Path(typed)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        raise DesignerError(
            say(
                "no-folder",
                "{folder}: no folder can be made there ({reason}). Name another for -o.",
                folder=one_line(typed),
                reason=reason_of(fault),
            )
        ) from None
    return folder


def _export(chosen: Namespace) -> int:
    with _box() as store:
        rows = _found(store, chosen.words)
        for each in write_recipes(store, rows, _folder(chosen.output)):
            remark(tr("Written to {path}", path=one_line(str(each.path))))
    return FINE


def _import(chosen: Namespace) -> int:
    """Take in what can be read; what cannot is told, and the exit code says so."""
    paths = [path for typed in chosen.files for path in _files(Path(typed))]
    kept, faults = 0, list[str]()
    with Store.open(store_folder()) as store:
        while paths:
            done, piece = keep_a_piece(store, paths)
            kept, paths = kept + piece.kept, paths[done:]
            faults += piece.faults
    remark(trn("{number:,} recipe imported.", "{number:,} recipes imported.", kept))
    complain(faults)
    return REFUSED if faults else FINE


def _files(path: Path) -> list[Path]:
    return sorted(path.glob(f"*{SUFFIX}")) if path.is_dir() else [path]


def _sheets(chosen: Namespace) -> int:
    # Few of the deeds write on paper.
    from designer.command_line.sheet_command import write_sheets
    from designer.paper.files import places_for

    with _box() as store:
        rows = _found(store, chosen.words)
        recipes = _recipes(store, rows)
    folder = _folder(chosen.output)
    places = places_for(_named_apart(rows), str(folder), chosen.format)
    refuse_those_there(places, force=chosen.force)
    return write_sheets(chosen, recipes, places)


def _named_apart(rows: Sequence[RecipeRow]) -> list[Path]:
    """Return a file name for each recipe; those of one name get a number."""
    names: dict[str, int] = {}
    found = []
    for row in rows:
        name = file_name(row.name)
        names[name.casefold()] = count = names.get(name.casefold(), 0) + 1
        found.append(Path(f"{name} {count}{SUFFIX}" if count > 1 else f"{name}{SUFFIX}"))
    return found


def _bill(chosen: Namespace) -> int:
    with _box() as store:
        return _written(chosen, bills_csv(_recipes(store, _found(store, chosen.words))))


def _stock(chosen: Namespace) -> int:
    with _box() as store:
        return _written(chosen, stock_csv(store.cupboard.all()))


def _written(chosen: Namespace, text: str) -> int:
    if chosen.output in (None, STANDARD):
        print_lines(text.rstrip("\r\n").replace("\r\n", "\n"))
        return FINE
    write_whole(new_file(chosen.output, (".csv",), force=chosen.force), text.encode("utf-8"))
    remark(tr("Written to {path}", path=one_line(chosen.output)))
    return FINE


def _backup(chosen: Namespace) -> int:
    if chosen.output == STANDARD:
        with TemporaryDirectory() as folder, _box() as store:
            target = Path(folder, "box.db")
            store.copy_everything(target)
            print_bytes(target.read_bytes())
        return FINE
    target = _new_backup(chosen.output)
    with _box() as store:
        store.copy_everything(target)
    remark(tr("All that the Recipe box holds is in {path}.", path=one_line(chosen.output)))
    return FINE


def _new_backup(output: str) -> Path:
    """Return the file of a backup; none is written over another, whatever is asked for."""
    path = Path(output)
    if is_there(path):
        raise refused(
            "over-a-backup",
            "{path} is there already and stays as it is; name a file that is not there yet.",
            path=one_line(output),
        )
    return new_file(output, (".db",), force=False)


def _restore(chosen: Namespace) -> int:
    with Store.open(store_folder()) as store:
        before = store.bring_back(Path(chosen.file))
    remark(tr("The Recipe box holds what {path} holds.", path=one_line(chosen.file)))
    if before is not None:
        remark(tr("What it held before is in {path}.", path=one_line(str(before.path))))
    return FINE
