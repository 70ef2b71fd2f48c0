"""The words of the commands: in the user's language, and a way out where they are used wrongly."""

import argparse
import ast
import inspect

import pytest

from designer import translation
from designer.command_line import run
from designer.command_line.usage import COMMANDS, parser
from designer.command_line.words.argparse_words import SENTENCES
from designer.resource_files import resource_path

from .pseudo_language import PseudoLanguage, marked

PORTER = str(resource_path("examples/harbour_lamp_porter.hobwort"))


@pytest.fixture
def said(capsys):
    """Runs a command and returns its exit code and both outputs."""

    def say(*words):
        code = run([str(each) for each in words])
        return code, *capsys.readouterr()

    return say


def parsers(made, path=()):
    """Yield every parser with the words that lead to it."""
    yield path, made
    for action in made._actions:
        if isinstance(action, argparse._SubParsersAction):
            for name, each in action.choices.items():
                yield from parsers(each, (*path, name))


LISTED = [words for words, _ in parsers(parser()) if not words or words[0] in COMMANDS]


def test_every_option_and_command_has_a_help():
    for words, each in parsers(parser()):
        if words and words[0] not in COMMANDS:
            continue
        for action in each._actions:
            listed = isinstance(action, argparse._SubParsersAction)
            assert listed or action.help, (words, action)
            assert not listed or len(action._choices_actions) >= len(action.choices) - 1


def test_all_that_a_help_says_is_in_the_language_of_the_user():
    """Left in English are the words that are typed: names, choices and examples in quotes."""
    spoken = PseudoLanguage()
    translation.use(spoken, "xx")
    try:
        for words, each in parsers(parser()):
            if words and words[0] not in COMMANDS:
                continue
            texts = [
                each.description or "",
                each.epilog or "",
                *(a.help or "" for a in each._actions),
            ]
            texts += [group.title or "" for group in each._action_groups if group._group_actions]
            for text in filter(None, texts):
                assert "⟦" in text or text.replace("_", "").replace(", ", "").islower(), text
            usage = each.format_usage()
            assert usage.startswith(f"⟦{marked('usage: ')}⟧"), usage
    finally:
        translation.use(None)


def test_all_that_argparse_may_say_to_a_user_is_a_sentence_of_the_program():
    asked = [
        node.args[0].value
        for node in ast.walk(ast.parse(inspect.getsource(argparse)))
        if isinstance(node, ast.Call)
        and getattr(node.func, "id", "") == "_"
        and isinstance(node.args[0], ast.Constant)
    ]
    about_programmers = (
        "conflict", "cannot", "callable", "required' is", "invalid option string", "dest=",
        "mutually", ".__call__", "unexpected option", "subcommands", "deprecated", "default",
        "unknown parser", "mode", "can't open", "warning", "heading",
    )  # fmt: skip
    said_by_us = ("unrecognized", "invalid choice", "%(prog)s: error")
    others = [
        each
        for each in asked
        if each not in SENTENCES
        and not any(part in each for part in (*about_programmers, *said_by_us))
    ]
    assert others == []


@pytest.mark.parametrize(
    ("words", "usage", "told"),
    [
        (["forcast", "x.hobwort"], "hobwort [-h]", "no command “forcast”; did you mean forecast?"),
        (["frobnicate"], "hobwort [-h]", "no command “frobnicate”; hobwort --help lists them"),
        (["--versoin"], "hobwort [-h]", "no option “--versoin”; did you mean --version?"),
        (["forecast", PORTER, "--jsno"], "hobwort forecast", "“--jsno”; did you mean --json?"),
        (["forecast", PORTER, "--xyz"], "hobwort forecast", "there is no option “--xyz”"),
        (["brews", "shw", "1"], "hobwort brews", "no command “shw”; did you mean show?"),
        (["brews", "show", "one"], "hobwort brews show", "N: 'one' is not a whole number"),
        (
            ["sheet", PORTER, "-o", "x.pdf", "--paper", "lettre"],
            "hobwort sheet",
            "--paper: “lettre” is none of a4, letter; did you mean letter?",
        ),
        (["convert", "1 kg", "g", "oz"], "hobwort convert", "“oz” is one word too many"),
        (["fit"], "hobwort fit", "missing: FILE"),
        (["reading", PORTER], "hobwort reading", "one of these is missing: --sg --plato --brix"),
        (["check", PORTER, "--json=yes"], "hobwort check", "--json: takes no value, but has 'yes'"),
        (["sheet", PORTER, "-o"], "hobwort sheet", "-o/--output: a value is missing"),
        (
            ["kit", "A", "--makes", "9 L", "-o", "-", "--json"],
            "hobwort kit",
            "-o - and --json both write to standard output; choose one",
        ),
        (
            ["sheet", PORTER, PORTER, "-o", "-"],
            "hobwort sheet",
            "-o - writes one sheet to standard",
        ),
        (["sheet", PORTER], "hobwort sheet", "-o names the file to write; it is missing"),
        (["sheet", PORTER, "--serve"], "hobwort sheet", "--serve offers the page of --pocket"),
        (
            ["sheet", PORTER, "--pocket", "--serve", "-o", "-"],
            "hobwort sheet",
            "--serve says where the page is; -o - would mix both; name a file",
        ),
        (
            ["sheet", PORTER, "-o", "x.pdf", "--pocket", "--format", "pdf"],
            "hobwort sheet",
            "--pocket is a web page; leave --format out",
        ),
        (
            ["reading", PORTER, "--sg", "1.04", "--batch", "20 L"],
            "hobwort reading",
            "--batch: of a kit without a recipe; leave FILE out",
        ),
        (["reading", "--sg", "1.04"], "hobwort reading", "name a recipe FILE, or tell of a kit"),
    ],
)
def test_a_slip_of_the_pen_is_told_by_the_words_of_its_command_with_what_was_meant(
    said, words, usage, told
):
    code, out, err = said(*words)
    assert (code, out) == (2, "")
    assert err.startswith(f"usage: {usage}")
    assert told in err.splitlines()[-1]


def test_a_word_that_is_neither_a_command_nor_a_file_opens_no_window(said, tmp_path, monkeypatch):
    opened = []
    monkeypatch.setattr(
        "designer.command_line.open_command.open_window",
        lambda path, first: opened.append(path) or 0,
    )
    monkeypatch.chdir(tmp_path)
    assert said("portr")[0] == 2
    code, out, err = said("porter.hobwort")
    assert (code, out) == (1, "")
    assert err == "porter.hobwort is not there. Check the name and the folder.\n"
    assert opened == []
    (tmp_path / "porter").write_text("{}", "utf-8")
    assert said("porter")[0] == 0
    assert said()[0] == 0
    assert opened == [tmp_path / "porter", None]


def test_quiet_says_nothing_but_what_was_asked_for(said, tmp_path):
    assert said("sheet", PORTER, "-o", tmp_path / "a.txt", "--quiet") == (0, "", "")
    assert (tmp_path / "a.txt").stat().st_size > 1000
    assert said("check", PORTER, "-q") == (0, "", "")
    code, out, _ = said("forecast", PORTER, "-q")
    assert (code, out.splitlines()[0]) == (0, "Harbour Lamp Porter")
    assert said("check", "-q", tmp_path / "none.hobwort")[2] != ""


def test_every_help_tells_how_a_command_ends(said):
    for words in LISTED:
        _, out, _ = said(*words, "--help")
        assert "with 1 if something was refused" in " ".join(out.split())
