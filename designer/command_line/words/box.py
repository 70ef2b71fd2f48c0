"""Words of `box`: the Recipe box as a whole, and what is done to all recipes that are found."""

from __future__ import annotations

from designer.command_line.words.lookups import search_grammar
from designer.command_line.words.parsing import CommandParser, given
from designer.command_line.words.shared import (
    Deeds,
    add_deed,
    add_force,
    add_json,
    add_output,
    write_anew,
)
from designer.command_line.words.sheets import FORMATS, add_paper_wishes
from designer.translation import tr


def box(command: CommandParser) -> None:
    """Add the words of `box`."""
    command.set_defaults(does="list", words=[], json=False, collection=None)
    does = command.add_subparsers(
        metavar=tr(
            "list | find WORD | collections | export -o FOLDER | import FILE | sheets -o FOLDER "
            "| bill | stock | backup -o FILE | restore FILE"
        )
    )
    add_json(add_deed(does, "list", tr("all recipes; so without a word")), "find")
    add_json(
        _found(does, "find", tr("recipes that are found, as hobwort find prints them")), "find"
    )
    add_deed(does, "collections", tr("searches that are kept under a name"))
    export = _found(does, "export", tr("recipes that are found, as recipe files"))
    add_output(export, tr("the folder for the files; none there is overwritten"), required=True)
    taking = add_deed(does, "import", tr("recipe files, and those of folders, into the box"))
    taking.add_argument(
        "files", type=given, nargs="+", metavar=tr("FILE"), help=tr("a recipe file, or a folder")
    )
    _add_paper(does)
    backup = add_deed(does, "backup", tr("all that the box holds, in one file"))
    add_output(
        backup,
        tr("the file to write, .db; it must not be there yet; - writes it to standard output"),
        required=True,
    )
    restore = add_deed(
        does, "restore", tr("a backup, or such a file, in place of what the box holds now")
    )
    restore.add_argument(
        "file",
        type=given,
        metavar=tr("FILE"),
        help=tr("a backup; what the box holds now is made a backup first"),
    )


def _add_paper(does: Deeds) -> None:
    sheets = _found(does, "sheets", tr("brew sheets of all recipes that are found"))
    add_output(sheets, tr("the folder for the sheets"), required=True)
    write_anew(sheets)
    sheets.add_argument(
        "--format", choices=FORMATS, default="pdf", help=tr("what to write; PDF if left out")
    )
    add_paper_wishes(sheets)
    for name, tells in (
        ("bill", tr("the ingredients of all recipes that are found, as CSV")),
        ("stock", tr("what lies in the cupboard, as CSV")),
    ):
        table = _found(does, name, tells) if name == "bill" else add_deed(does, name, tells)
        add_output(table, tr("the file to write, .csv; left out, it is printed"))
        add_force(table)


def _found(does: Deeds, name: str, tells: str) -> CommandParser:
    command = add_deed(does, name, tells)
    command.add_argument(
        "words",
        type=given,
        nargs="*",
        metavar=tr("WORD"),
        help=tr("what is looked for; left out, all of them"),
    )
    command.add_argument(
        "--collection", type=given, metavar=tr("NAME"), help=tr("only those of that collection")
    )
    command.told_below = search_grammar
    return command
