"""The page of the manual, made of the words of the commands themselves, in each language.

python packaging/man_page.py [en|de|fr]  # prints it, for man -l -
"""

from __future__ import annotations

import argparse
import os
import re
import sys
from collections.abc import Iterator

from designer import __version__, translation
from designer.command_line.usage import COMMANDS, parser
from designer.spoken_language import catalogue_if_any

WORDS = {
    "en": {
        "manual": "User Commands",
        "NAME": "NAME",
        "does": "plan a brew day on a kitchen stove",
        "SYNOPSIS": "SYNOPSIS",
        "COMMAND": "COMMAND",
        "FILE": "FILE",
        "DESCRIPTION": "DESCRIPTION",
        "more": "Options are told below with each command, and by hobwort COMMAND --help.",
        "COMMANDS": "COMMANDS",
        "EXIT STATUS": "EXIT STATUS",
        "0": "All went well.",
        "1": "The input was refused: one line a problem on the standard error.",
        "2": "The words of the command are wrong.",
        "ENVIRONMENT": "ENVIRONMENT",
        "HOBWORT_STORE": "The folder of the Recipe box, in place of the usual one.",
        "HOBWORT_SETTINGS": "The folder of the preferences, in place of the usual one.",
        "LANGUAGE": "The language, unless one was chosen in the window.",
        "FILES": "FILES",
        "*.hobwort": "A recipe, as JSON; hobwort schema prints what may stand in it.",
        "~/.local/share/hobwort": "The Recipe box, with its backups.",
        "~/.config/hobwort": "The preferences.",
        "EXAMPLES": "EXAMPLES",
    },
    "de": {
        "manual": "Dienstprogramme für Benutzer",
        "NAME": "BEZEICHNUNG",
        "does": "einen Brautag auf dem Küchenherd planen",
        "SYNOPSIS": "ÜBERSICHT",
        "COMMAND": "BEFEHL",
        "FILE": "DATEI",
        "DESCRIPTION": "BESCHREIBUNG",
        "more": "Optionen stehen unten bei jedem Befehl; hobwort BEFEHL --help nennt sie auch.",
        "COMMANDS": "BEFEHLE",
        "EXIT STATUS": "EXIT-STATUS",
        "0": "Alles ging gut.",
        "1": "Die Eingabe wurde abgelehnt: eine Zeile je Fehler auf der Standardfehlerausgabe.",
        "2": "Die Wörter des Befehls stimmen nicht.",
        "ENVIRONMENT": "UMGEBUNGSVARIABLEN",
        "HOBWORT_STORE": "Der Ordner der Rezeptkiste, statt des üblichen.",
        "HOBWORT_SETTINGS": "Der Ordner der Einstellungen, statt des üblichen.",
        "LANGUAGE": "Die Sprache, falls im Fenster keine gewählt ist.",
        "FILES": "DATEIEN",
        "*.hobwort": "Ein Rezept als JSON; hobwort schema gibt aus, was darin stehen darf.",
        "~/.local/share/hobwort": "Die Rezeptkiste mit ihren Sicherungen.",
        "~/.config/hobwort": "Die Einstellungen.",
        "EXAMPLES": "BEISPIELE",
    },
    "fr": {
        "manual": "Commandes utilisateur",
        "NAME": "NOM",
        "does": "préparer un brassin sur la cuisinière",
        "SYNOPSIS": "SYNOPSIS",
        "COMMAND": "COMMANDE",
        "FILE": "FICHIER",
        "DESCRIPTION": "DESCRIPTION",
        "more": "Les options sont données plus bas avec chaque commande, et par "
        "hobwort COMMANDE --help.",
        "COMMANDS": "COMMANDES",
        "EXIT STATUS": "CODE DE RETOUR",
        "0": "Tout s'est bien passé.",
        "1": "L'entrée a été refusée : une ligne par problème sur la sortie d'erreur.",
        "2": "Les mots de la commande sont faux.",
        "ENVIRONMENT": "ENVIRONNEMENT",
        "HOBWORT_STORE": "Le dossier de la boîte à recettes, à la place de l'habituel.",
        "HOBWORT_SETTINGS": "Le dossier des préférences, à la place de l'habituel.",
        "LANGUAGE": "La langue, si aucune n'a été choisie dans la fenêtre.",
        "FILES": "FICHIERS",
        "*.hobwort": "Une recette, en JSON ; hobwort schema affiche ce qui peut y figurer.",
        "~/.local/share/hobwort": "La boîte à recettes, avec ses sauvegardes.",
        "~/.config/hobwort": "Les préférences.",
        "EXAMPLES": "EXEMPLES",
    },
}
EXAMPLES = (
    "hobwort forecast porter.hobwort",
    'hobwort fit porter.hobwort --pot "9 L" --fermenter "12 L"',
    "hobwort sheet porter.hobwort -o porter.pdf --units us",
    'hobwort convert "1.5 stone" kg',
)


def man_page(language: str, date: str) -> str:
    """Return the page in troff; `date` is that of the release, as ISO 8601 has it."""
    translation.use(catalogue_if_any(f"program_{language}"), language)
    told = WORDS[language]
    commands = parser()
    lines = [
        f'.TH HOBWORT 1 {date} "Hobwort {__version__}" "{told["manual"]}"',
        *_section(told["NAME"], rf"hobwort \- {_escaped(told['does'])}"),
        *_section(told["SYNOPSIS"]),
        rf".B hobwort\fR [\fI{told['FILE']}\fR]",
        ".br",
        rf".B hobwort \fI{told['COMMAND']}\fR ...",
        *_section(told["DESCRIPTION"], _escaped(commands.description or "")),
        ".PP",
        _escaped(told["more"]),
        *_section(told["COMMANDS"]),
        *_commands(commands),
        *_section(told["EXAMPLES"]),
        ".nf",
        *(_escaped(each) for each in EXAMPLES),
        ".fi",
    ]
    for title, names in (
        ("FILES", ("*.hobwort", "~/.local/share/hobwort", "~/.config/hobwort")),
        ("ENVIRONMENT", ("HOBWORT_STORE", "HOBWORT_SETTINGS", "LANGUAGE")),
        ("EXIT STATUS", ("0", "1", "2")),
    ):
        lines += _section(told[title])
        lines += [line for name in names for line in _item(rf"\fB{_escaped(name)}\fR", told[name])]
    return "\n".join(lines) + "\n"


def subparsers(of: argparse.ArgumentParser) -> dict[str, argparse.ArgumentParser]:
    """Return the parsers of the words that may follow, by these."""
    for action in of._actions:
        if isinstance(action, argparse._SubParsersAction):
            return dict(action.choices)
    return {}


def _commands(of: argparse.ArgumentParser) -> Iterator[str]:
    for name, command in subparsers(of).items():
        if name in COMMANDS:
            yield f'.SS "hobwort {name}"'
            _, *rest = _command(command)  # behind its heading no paragraph begins
            yield from rest


def _command(command: argparse.ArgumentParser) -> Iterator[str]:
    yield ".PP"
    inner = subparsers(command)
    if not inner:
        yield rf"\fB{_escaped(command.prog)}\fR {_escaped(_usage(command))}".rstrip()
        yield ".PP"
    yield _escaped(_sentence(command.description or ""))
    for action in command._actions:
        if isinstance(action, argparse._HelpAction | argparse._SubParsersAction):
            continue
        yield from _item(_named(action), _help(action))
    for each in inner.values():
        yield from _command(each)


def _usage(command: argparse.ArgumentParser) -> str:
    text = " ".join(command.format_usage().split())
    return text.partition(f"{command.prog} ")[2].replace("[-h] ", "").replace("[-h]", "")


def _named(action: argparse.Action) -> str:
    names = ", ".join(rf"\fB{_escaped(each)}\fR" for each in action.option_strings)
    if action.option_strings and action.nargs == 0:
        return names
    metavar = action.metavar or (
        "|".join(str(each) for each in action.choices) if action.choices else action.dest.upper()
    )
    value = rf"\fI{_escaped(str(metavar))}\fR"
    return f"{names} {value}".strip()


def _help(action: argparse.Action) -> str:
    text = action.help or ""
    if action.choices and action.metavar:
        listed = ", ".join(str(each) for each in action.choices)
        if listed not in text:
            text = f"{text} ({listed})".strip()
    return _sentence(text)


def _section(title: str, *lines: str) -> list[str]:
    return [f'.SH "{_escaped(title)}"', *lines]


def _item(name: str, text: str) -> list[str]:
    return [".TP", name, _escaped(text) if text else r"\&"]


def _sentence(text: str) -> str:
    text = text[:1].upper() + text[1:] if text else ""
    return text if not text or text.endswith((".", "!", "?")) else f"{text}."


def _escaped(text: str) -> str:
    """Return text that troff sets as it is: a leading dot or quote is none of its requests."""
    text = text.replace("\\", r"\e").replace("-", r"\-").replace("^", r"\(ha").replace("~", r"\(ti")
    text = re.sub(r"\s+", " ", text.replace("'", r"\(aq").replace("`", r"\(ga"))
    return rf"\&{text}" if text.startswith(".") else text


if __name__ == "__main__":
    os.environ["COLUMNS"] = "10000"
    sys.stdout.reconfigure(encoding="utf-8")
    sys.stdout.write(man_page((sys.argv[1:] or ["en"])[0], "2026-11-27"))
