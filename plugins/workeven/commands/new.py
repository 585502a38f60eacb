"""``workeven new``: a pattern file that already checks, to be changed into one's own.

Takes     the words behind ``new``; what is missing is asked for on a terminal.
Gives     ``add_new``.
Problems  none of its own: what cannot be begun is a ``CannotRun``.
From      the guide, "Your first pattern".

Nothing is written before all is known, and nothing that stands there is written over.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable, Sequence
from typing import Any

from workeven.commands.answer import OK, CannotRun, Report, one_of, our_bug, size_names
from workeven.problems.words import did_you_mean, joined, quote

_UNITS = ("cm", "in")
_LONGEST_TITLE = 200
_SCHEMA = "schema/pattern.schema.json"


def add_new(commands: argparse._SubParsersAction[Any]) -> None:
    """The words of the command."""
    new = commands.add_parser(
        "new",
        allow_abbrev=False,
        help="begin a pattern",
        description="Write a new pattern file that already checks, with a comment on every part. "
        "On a terminal you are asked for what you do not say here. "
        "Exit status: 0 it is written, 2 it is not.",
    )
    new.add_argument(
        "name",
        nargs="?",
        metavar="NAME",
        help="the folder of the pattern within `patterns`, or a path: a to z, digits, hyphens",
    )
    new.add_argument("--title", metavar="WORDS", help="what the pattern is called")
    new.add_argument("--kind", metavar="KIND", help="square, scarf, cowl, hat or top")
    new.add_argument(
        "--for", dest="wearer", metavar="WHOM", help="women, men, youth, children or babies"
    )
    new.add_argument(
        "--sizes", type=size_names, metavar="LIST", help='names of the sizes, such as "S (M, L)"'
    )
    new.add_argument(
        "--worked", metavar="HOW", help="how it is worked, where its kind leaves a choice"
    )
    new.add_argument(
        "--units", type=one_of(_UNITS), default=_UNITS[0], help="cm or in (default: cm)"
    )
    new.add_argument(
        "--schema",
        metavar="ADDRESS",
        help="where an editor finds the schema (default: `schema` beside `patterns`, written there "
        "where it is missing)",
    )
    new.set_defaults(run=_new)


def _new(options: argparse.Namespace) -> Report:
    from workeven import starter
    from workeven.publish.output import OutputFault, write_new

    asks = sys.stdin is not None and sys.stdin.isatty()
    if options.name is not None and (fault := _folder_fault(options.name)):
        raise CannotRun(fault)
    title = _title(options, asks=asks)
    folder = _folder(options, title, asks=asks)
    kind = _chosen("--kind", options.kind, starter.KINDS, "What is it?", asks=asks)
    wearers = {name: wearer.told for name, wearer in starter.WEARERS.items()}
    wearer = _chosen(
        "--for", options.wearer, wearers, "Who is it for?", asks=asks, usual=next(iter(wearers))
    )
    sizes = _sizes(options, kind, wearer, asks=asks)
    ways = dict.fromkeys(starter.ways_of(kind), "")
    worked = _chosen(
        "--worked", options.worked, ways, "How is it worked?", asks=asks, usual=next(iter(ways))
    )
    schema, missing = _schema(options.schema, folder)
    wanted = starter.Wanted(
        title=title,
        kind=kind,
        wearer=wearer,
        sizes=sizes,
        worked=worked,
        units=options.units,
        schema=schema,
    )
    file = f"{folder}/pattern.yaml"
    with our_bug(file):
        text = starter.pattern_text(wanted)
    _checked(file, text)
    try:
        write_new({file: text, **missing})
    except OutputFault as fault:
        raise CannotRun(str(fault)) from fault
    told = [f"{file} is written.", *(f"{other} too, which your editor reads." for other in missing)]
    return Report(text="\n".join([*told, f"Check it: workeven check {folder}"]), status=OK)


# --- what is to be made --------------------------------------------------------------------


def _title(options: argparse.Namespace, *, asks: bool) -> str:
    """What the pattern is called; without a terminal the name says it."""
    words = options.title
    if words is None and not asks:
        if options.name is None:
            raise CannotRun("`NAME` is missing: say what the folder of the pattern is called.")
        words = os.path.basename(options.name).replace("-", " ").title()  # noqa: PTH119 -- as typed
    while words is None:
        words = _asked("What is the pattern called?", "", _title_fault)
    if fault := _title_fault(words):
        raise CannotRun(f"`--title` cannot be {quote(words)}: {fault}")
    return " ".join(words.split())


def _title_fault(words: str) -> str:
    """Why words make no title, or nothing."""
    from workeven.source.characters import refused_characters

    if not words.strip():
        return "a title is needed."
    if len(words) > _LONGEST_TITLE:
        return f"it has {len(words)} characters, and at most {_LONGEST_TITLE} are taken."
    problems = refused_characters("title", words)
    return f"{problems[0].found}" if problems else ""


def _folder(options: argparse.Namespace, title: str, *, asks: bool) -> str:
    """The folder of the pattern, as it was typed, within ``patterns`` where no other is named."""
    from workeven.source.collection import DEFAULT

    name = options.name
    if name is None and asks:
        name = _asked("What shall its folder be called?", _slug(title), _folder_fault)
    if name is None:
        raise CannotRun("`NAME` is missing: say what the folder of the pattern is called.")
    path = str(name).replace(os.sep, "/").rstrip("/")
    return path if "/" in path else f"{DEFAULT}/{path}"


def _folder_fault(path: str) -> str:
    """Why a path cannot be the folder of a pattern, or nothing."""
    from workeven.source.collection import LONGEST_SLUG, SLUG

    name = path.replace(os.sep, "/").rstrip("/").rpartition("/")[2]
    if SLUG.fullmatch(name) and len(name) <= LONGEST_SLUG:
        return ""
    better = _slug(name)
    offered = f" Call it `{better}`." if better else ""
    return (
        f"The folder cannot be called {quote(name)}: small letters a to z, digits and single "
        f"hyphens, since it becomes an address.{offered}"
    )


def _slug(words: str) -> str:
    import re

    from workeven.source.collection import LONGEST_SLUG

    return "-".join(re.findall(r"[a-z0-9]+", words.lower()))[:LONGEST_SLUG].strip("-")


def _sizes(options: argparse.Namespace, kind: str, wearer: str, *, asks: bool) -> tuple[str, ...]:
    """The names of the sizes; those of a chart in its order, where the kind has one."""
    from workeven import starter

    charted = starter.sizes_of(kind, wearer)
    usual = starter.usual_sizes(kind, wearer)

    def fault(text: str) -> str:
        try:
            return _sizes_fault(size_names(text), charted)
        except argparse.ArgumentTypeError as slip:
            return str(slip)

    if options.sizes is None:
        told = f" The chart has {joined(charted)}." if charted else ""
        text = _asked(f"Which sizes?{told}", usual, fault) if asks else usual
        return size_names(text)
    sizes: tuple[str, ...] = options.sizes
    if wrong := _sizes_fault(sizes, charted):
        raise CannotRun(f"`--sizes` cannot be {quote(', '.join(sizes))}: {wrong}")
    return sizes


def _sizes_fault(sizes: Sequence[str], charted: Sequence[str]) -> str:
    """Why sizes are not to be had, or nothing."""
    from workeven.pattern.size_names import MOST_SIZES
    from workeven.source.characters import refused_characters

    if len(sizes) > MOST_SIZES:
        return f"there are {len(sizes)}, and a pattern has at most {MOST_SIZES}."
    if problems := refused_characters("sizes", " ".join(sizes)):
        return problems[0].found
    if not charted:
        return ""
    strange = next((name for name in sizes if name not in charted), None)
    if strange is not None:
        hint = did_you_mean(strange, charted)
        return f"the chart has no {quote(strange)}. {hint or f'It has {joined(charted)}.'}"
    if list(sizes) != [name for name in charted if name in sizes]:
        return f"the smallest stands first: {joined(name for name in charted if name in sizes)}."
    return ""


def _schema(address: str | None, folder: str) -> tuple[str, dict[str, str]]:
    """What the file says of its schema, and the schema where it is to be written too."""
    from workeven import packaged
    from workeven.source.characters import refused_characters

    if address is not None:
        if not address or address.split() != [address] or refused_characters("schema", address):
            raise CannotRun("`--schema` is an address or a path without spaces.")
        return address, {}
    beside = os.path.normpath(os.path.join(folder, os.pardir, os.pardir, _SCHEMA))  # noqa: PTH118 -- a path stays as typed
    from_there = f"../../{_SCHEMA}"
    if os.path.exists(beside):  # noqa: PTH110 -- a path stays as typed
        return from_there, {}
    if os.path.isabs(beside) or beside.startswith(os.pardir):  # noqa: PTH117 -- as typed
        return "", {}  # nothing is written beside the folder that the user stands in
    text = packaged.text("schemas/pattern.schema.json")
    return from_there, {beside.replace(os.sep, "/"): text}


def _checked(file: str, text: str) -> None:
    """What is begun must have no error; where it has, the words that were given are the reason."""
    from workeven import pattern, pipeline, source
    from workeven.problems import Severity
    from workeven.problems.catalogue import severity

    with our_bug(file):
        read = source.read(file, text.encode("utf-8"))
        problems = read.problems
        if read.value is not None:
            problems = pipeline.run(read.value, pattern.NO_STUDIO, read.problems).problems
    wrong = next((one for one in problems if severity(one.code) is Severity.ERROR), None)
    if wrong is not None:
        raise CannotRun(f"Nothing is written: {wrong.found} {wrong.mend}".rstrip())


# --- questions -----------------------------------------------------------------------------


def _chosen(
    option: str,
    given: str | None,
    choices: dict[str, str],
    question: str,
    *,
    asks: bool,
    usual: str | None = None,
) -> str:
    """One of several words: that of the option, or the answer to a question."""
    allowed = "; ".join(choices)

    def fault(word: str) -> str:
        plain = " ".join(word.split()).lower()
        hint = did_you_mean(plain, choices)
        return "" if plain in choices else f"{hint} It is one of: {allowed}.".strip()

    if given is not None:
        if wrong := fault(given):
            raise CannotRun(f"`{option}` cannot be {quote(given)}. {wrong}")
        return " ".join(given.split()).lower()
    if len(choices) == 1 or (usual is not None and not asks):
        return usual or next(iter(choices))
    if not asks:
        raise CannotRun(f"`{option}` is missing. It is one of: {allowed}.")
    for name, told in choices.items():
        sys.stderr.write(f"  {name}{f': {told}' if told and told != name else ''}\n")
    answer = _asked(question, usual or next(iter(choices)), fault)
    return " ".join(answer.split()).lower()


def _asked(question: str, usual: str, fault: Callable[[str], str]) -> str:
    """An answer that will do; Enter alone takes what stands in brackets."""
    while True:
        sys.stderr.write(f"{question}{f' [{usual}]' if usual else ''} ")
        sys.stderr.flush()
        line = sys.stdin.readline()
        if not line:
            raise CannotRun("Nothing is written: the questions were not answered.")
        answer = line.strip() or usual
        wrong = fault(answer)
        if not wrong:
            return answer
        sys.stderr.write(f"{wrong[:1].upper()}{wrong[1:]}\n")
