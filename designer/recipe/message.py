"""What the program has to say: put into words, units and a language only where it is shown.

A message is known by its id and never by its words: findings, steps of a way, refusals and what an
undo takes back are all messages.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple, TypeAlias

from designer.errors import RefusedInputError
from designer.recipe.kinds import metric
from designer.recipe.quantity import Kind, Quantity
from designer.translation import apart, isolated, named, tr, with_signs

Figure: TypeAlias = tuple[Kind, float | Quantity]
"""A number in the base unit of its kind; or a quantity, which is shown as it was typed."""


class Number(str):
    """A number without a kind among the names of a message, as English writes it.

    It is shown with the decimal sign of the language.
    """

    __slots__ = ()


class Message(NamedTuple):
    """A sentence or a part of one.

    `id` is a word for it that lasts. `template` is its English words, with `{0}`, `{1}` ... for its
    `figures` and `{name}` for its `names`: what a brewer typed, or another message.
    """

    id: str
    template: str
    figures: tuple[Figure, ...] = ()
    names: tuple[tuple[str, object], ...] = ()

    @property
    def text(self) -> str:
        """The message in metric units, in the language of the program."""
        return self.said()

    def __str__(self) -> str:
        return self.text

    def said(
        self,
        show: Callable[[Kind, float], str] | None = None,
        typed: Callable[[Kind, Quantity], str] | None = None,
        look_up: Callable[[str], str] = tr,
        name: Callable[[str], str] = named,
    ) -> str:
        """Return the message with its figures as `show` and `typed` write them.

        `look_up` gives its template in another language, `name` what a brewer typed, or a name of
        the catalogue, as it is shown.
        """
        template = look_up(self.template)
        if not self.figures and not self.names:
            return template
        show = show or plain_figure
        figures = [
            isolated(show(kind, value))
            if not isinstance(value, Quantity)
            else isolated(value.text if typed is None else typed(kind, value))
            for kind, value in self.figures
        ]
        names: dict[str, object] = {
            key: each.said(show, typed, look_up, name)
            if isinstance(each, Message)
            else with_signs(str(each))
            if isinstance(each, (Number, float))
            else name(str(each))
            for key, each in self.names
        }
        return template.format(*figures, **apart(names))


def say(id: str, template: str, /, *figures: Figure, **names: object) -> Message:
    """Return a message."""
    return Message(id, template, figures, tuple(names.items()))


def refused(id: str, template: str, /, *figures: Figure, **names: object) -> RefusedInputError:
    """Return the refusal that says a message, to be raised."""
    return RefusedInputError(say(id, template, *figures, **names))


def word(text: str) -> Message:
    """Return a word of a list of ours (a choice, the label of a field) as a part of a message."""
    return Message(text, text)


def within(label: str) -> Message:
    """Return the label of a field as it stands within a sentence."""
    return word(label[:1].lower() + label[1:])


def listed(parts: Sequence[object]) -> object:
    """Return parts, at least one, as one: the last after an "and"."""
    found = parts[0]
    for each in parts[1:]:
        found = say("and", "{first} and {last}", first=found, last=each)
    return found


def in_a_row(parts: Sequence[object]) -> object:
    """Return parts, at least one, as one with commas between them."""
    found = parts[0]
    for each in parts[1:]:
        found = say("comma", "{first}, {last}", first=found, last=each)
    return found


def in_turn(*sentences: Message) -> Message:
    """Return sentences as one message, in order."""
    found = sentences[0]
    for each in sentences[1:]:
        found = say("in-turn", "{first} {next}", first=found, next=each)
    return found


def plain_figure(kind: Kind, value: float) -> str:
    """Return a figure in metric units, rounded as a brewer reads it."""
    return metric(kind, value, rounded=True)
