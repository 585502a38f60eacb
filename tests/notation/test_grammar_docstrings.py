"""The grammar reads aloud: the phrases in the docstrings of its functions are run.

``Takes:`` is a phrase that the function reads to its end; ``Refuses:`` is one that it does not.
"""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable, Iterator
from functools import partial

import pytest

import workeven.notation
from workeven.notation import steps
from workeven.notation.endings import Inner
from workeven.notation.stream import NotUnderstood, Stream
from workeven.notation.vocabulary import Vocabulary

#: what a function is given beside the stream, by the name that it calls it
BESIDE: dict[str, Callable[[Stream], object]] = {
    "closing": lambda stream: stream.closing() if stream.is_mark("(", "[") else _end(stream),
    "inner": lambda _: Inner(partial(steps.steps, depth=1), partial(steps.one_step, depth=0)),
    "depth": lambda _: 0,
    "start": lambda _: 0,
    "corner": lambda _: False,
    "each": lambda _: False,
    "label": lambda _: None,
}
#: results that are no part of a tree: the function answers a question, or passes words
NO_TREE = re.compile(r"(?:bool|int|str|None|NotUnderstood)(?: \| None)?")
#: passes a verb that adds nothing, in front of a phrase that it does not read
NO_PHRASE = {"ends.verb"}
VOCABULARY = Vocabulary("us", ("shell",))


def _end(stream: Stream) -> int:
    return len(stream.tokens) - 1


def named_parts(function: Callable[..., object]) -> list[inspect.Parameter]:
    """What a function is given, without a list of words that may be empty."""
    parts = inspect.signature(function).parameters.values()
    return [part for part in parts if part.kind is not part.VAR_POSITIONAL]


def grammar() -> Iterator[tuple[str, Callable[..., object]]]:
    """Every function that reads a phrase of a stream and gives a part of the tree."""
    for module in pkgutil.iter_modules(workeven.notation.__path__, "workeven.notation."):
        for name, function in vars(importlib.import_module(module.name)).items():
            if not inspect.isfunction(function) or function.__module__ != module.name:
                continue
            parts = named_parts(function)
            if not parts or parts[0].annotation != "Stream":
                continue
            known = all(part.name in BESIDE for part in parts[1:])
            if known and not NO_TREE.fullmatch(inspect.signature(function).return_annotation):
                yield f"{module.name.rpartition('.')[2]}.{name}", function
    yield "stream.amount", Stream.amount


FUNCTIONS = {name: function for name, function in grammar() if name not in NO_PHRASE}


def phrase(name: str, word: str) -> str | None:
    """What stands behind "Takes:" or "Refuses:" in a docstring."""
    found = re.search(rf"^\s*{word}: (.*)$", FUNCTIONS[name].__doc__ or "", re.MULTILINE)
    return None if found is None else found[1]


def reads(name: str, text: str) -> bool:
    """Whether a function reads a phrase to its end."""
    stream = Stream(text, VOCABULARY)
    function = FUNCTIONS[name]
    given = {part.name: BESIDE[part.name](stream) for part in named_parts(function)[1:]}
    try:
        found = function(stream, **given)
    except NotUnderstood:
        return False
    whole = stream.at_end() or getattr(found, "end", -1) == len(text)
    return found is not None and whole


def test_the_grammar_is_found() -> None:
    """The search finds the functions of every module of the grammar."""
    modules = {name.partition(".")[0] for name in FUNCTIONS}
    assert modules >= {
        "places",
        "targets",
        "contents",
        "groups",
        "stars",
        "stitches",
        "changes",
        "ends",
    }
    assert modules >= {"steps", "labels", "lengths", "whole_rows", "remarks", "parser", "stream"}


@pytest.mark.parametrize("name", FUNCTIONS)
def test_every_function_of_the_grammar_holds_a_phrase(name: str) -> None:
    """Each says by an example what it reads."""
    assert phrase(name, "Takes") is not None


@pytest.mark.parametrize("name", FUNCTIONS)
def test_a_function_takes_its_phrase(name: str) -> None:
    """The phrase that a docstring says is taken is read to its end."""
    text = phrase(name, "Takes")
    assert text is not None
    assert reads(name, text)


@pytest.mark.parametrize("name", [name for name in FUNCTIONS if phrase(name, "Refuses")])
def test_a_function_refuses_the_other_phrase(name: str) -> None:
    """The phrase that a docstring says is refused is not read, or not to its end."""
    text = phrase(name, "Refuses")
    assert text is not None
    assert not reads(name, text)
