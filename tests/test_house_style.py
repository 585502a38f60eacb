"""The habits of the code that can be seen by reading its sources.

Each test lists what it finds as ``file:line: what``, so that a failure says where to look. What
the linter sees better is left to it: public docstrings (ruff D), the length and the branches of
functions (PLR0915, C901), issue numbers of TODOs (TD), names of the standard library (A005). The
layers are import-linter's, and a ``match`` that forgets a node is mypy's (exhaustive-match).
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path, PurePosixPath

import pytest

PACKAGE = Path(__file__).parents[1] / "plugins" / "workeven"

#: stages that compute: no file, clock, environment, logging or chance in them
PURE: tuple[str, ...] = (
    "arithmetic",
    "grading",
    "level",
    "notation",
    "pattern",
    "problems",
    "proof",
    "safety",
)
PURE += ("yarn",)

#: modules whose records may be written without keywords, and why
POSITIONAL = {
    "arithmetic/per_size": "Sizes and PerSize are read like tuples: sizes, then values",
    "arithmetic/formulas": "a formula is a text and little more",
    "notation/vocabulary": "a table of stitches, one a line",
    "notation/tree": "the nodes of a row are matched by position",
    "review/records": "a change is a line of a table, read from left to right",
}

#: modules that may open packaged data (through packaged or importlib), beside the user's files
READERS = ("source", "standards", "problems/lesson", "pattern", "publish", "cache/engine")
#: (a commit's files are written where nobody else's lie, and taken away again)
#: (and the cache writes in a folder of its own)
WRITERS: tuple[str, ...] = ("publish/output", "publish/mkdocs_plugin", "cli")
WRITERS += ("commands/revision", "cache/folder", "cache/place")

#: one home for each foreign package, or for what only one place may do
HOMES = {
    "mkdocs": ("publish/mkdocs_plugin",),
    "jinja2": ("publish",),
    "markupsafe": ("publish",),
    "PIL": ("publish/photographs",),
    "pint": ("arithmetic/quantities",),
    "yaml": ("source",),
    "jsonschema": ("source", "pattern", "standards"),
}

#: one maker for each promise
MAKERS = {
    "ReadyPattern": ("pipeline",),
    "Outcome": ("pipeline",),
    "GradedPattern": ("grading",),
    "ProvenPattern": ("proof",),
    "YarnNeeds": ("yarn",),
    "Cautions": ("safety",),
    "JudgedLevel": ("level",),
}

READING = {"read_text", "read_bytes", "iterdir", "glob", "rglob", "scandir", "listdir", "walk"}
WRITING = {"write_text", "write_bytes", "mkdir", "makedirs", "unlink", "rmdir", "rmtree", "touch"}
WRITING |= {"copy2", "copyfile", "copytree", "symlink_to", "mkdtemp", "mkstemp", "renames"}

IMPURE = {"logging", "os", "random", "shutil", "socket", "subprocess", "tempfile", "threading"}
IMPURE |= {"time", "secrets", "uuid", "asyncio", "multiprocessing", "locale"}

WHOLE_NUMBERS = {"ceil", "comb", "floor", "gcd", "isqrt", "lcm", "perm", "prod"}

EMPTY_WORDS = {"helper", "helpers", "manager", "util", "utils"}
EMPTY_NAMES = {"data", "handle", "info", "item", "process"}


@cache
def modules() -> tuple[tuple[str, ast.Module], ...]:
    """Every module of the package: its path in the package, and its syntax tree."""
    return tuple(
        (str(path.relative_to(PACKAGE)), ast.parse(path.read_text(encoding="utf-8")))
        for path in sorted(PACKAGE.rglob("*.py"))
    )


@cache
def lies_in(module: str, places: tuple[str, ...]) -> bool:
    """Whether a module is one of the places (named without suffix) or lies below one."""
    name = PurePosixPath(module).with_suffix("")
    return any(name.is_relative_to(place) for place in places)


@cache
def every_node() -> tuple[tuple[str, ast.AST], ...]:
    """Every node of every module, with the path of its module."""
    return tuple((module, node) for module, tree in modules() for node in ast.walk(tree))


def nodes(*places: str) -> Iterator[tuple[str, ast.AST]]:
    """Every node of every module, or of these places only."""
    for module, node in every_node():
        if not places or lies_in(module, places):
            yield module, node


def called(node: ast.AST) -> str:
    """The last name of what is called (``open`` of ``path.open(...)``), or nothing.

    A function of our own may be called ``walk``: only that of a module or path reads a folder.
    """
    match node:
        case ast.Call(func=ast.Name(id="walk")):
            return ""
        case ast.Call(func=ast.Name(id=name)) | ast.Call(func=ast.Attribute(attr=name)):
            return name
        case _:
            return ""


def imported(node: ast.AST) -> tuple[str, ...]:
    """The modules that an import names, in full."""
    match node:
        case ast.Import(names=names):
            return tuple(alias.name for alias in names)
        case ast.ImportFrom(module=str(module), level=0):
            return (module,)
        case _:
            return ()


def at(module: str, node: ast.AST, what: str) -> str:
    """One offence, as a line."""
    return f"{module}:{getattr(node, 'lineno', 1)}: {what}"


# --- numbers -------------------------------------------------------------------------------


def floats(node: ast.AST) -> str:
    """What is a float in a node, or nothing."""
    match node:
        case ast.Constant(value=float() | complex() as value):
            return f"the float {value}"
        case ast.Call(func=ast.Name(id="float" | "complex" as name)):
            return f"{name}()"
        case ast.Attribute(value=ast.Name(id="math"), attr=name) if name not in WHOLE_NUMBERS:
            return f"math.{name}"
        case ast.ImportFrom(module="math", names=names):
            return ", ".join(a.name for a in names if a.name not in WHOLE_NUMBERS)
        case _:
            return ""


def test_no_float_decides_a_count() -> None:
    """Counts are whole and lengths exact, so no float is made where they are computed."""
    places = ("grading", "arithmetic", "proof")
    found = [at(module, node, floats(node)) for module, node in nodes(*places) if floats(node)]
    assert "\n".join(found) == ""


@pytest.mark.parametrize(
    "text", ["half = 0.5", "float(sts)", "math.sqrt(2)", "from math import pi", "2j"]
)
def test_a_float_would_be_seen(text: str) -> None:
    """The search for floats finds each way of writing one."""
    assert [floats(node) for node in ast.walk(ast.parse(text)) if floats(node)]


# --- records -------------------------------------------------------------------------------


#: what ``workeven.records`` makes of a class, in the options of a dataclass
RECORDS = {
    "record": {"frozen", "slots", "kw_only"},
    "record_by_position": {"frozen", "slots"},
}


def dataclass_options(node: ast.ClassDef) -> set[str] | None:
    """The options switched on in ``@dataclass(...)``; None when it is no dataclass."""
    for decorator in node.decorator_list:
        match decorator:
            case ast.Name(id=name) if name in RECORDS:
                return RECORDS[name]
            case ast.Name(id="dataclass") | ast.Attribute(attr="dataclass"):
                return set()
            case ast.Call() if called(decorator) == "dataclass":
                return {
                    word.arg
                    for word in decorator.keywords
                    if word.arg and isinstance(word.value, ast.Constant) and word.value.value
                }
    return None


def records() -> Iterator[tuple[str, ast.ClassDef, set[str]]]:
    """Every dataclass with its module and options."""
    for module, node in nodes():
        if isinstance(node, ast.ClassDef):
            options = dataclass_options(node)
            if options is not None:
                yield module, node, options


def stage_of(module: str) -> str:
    """The stage that a module belongs to: its folder, or itself."""
    return PurePosixPath(module).with_suffix("").parts[0]


@cache
def handed_over() -> frozenset[tuple[str, str]]:
    """Stage and name of what another stage imports, or the stage itself shows in ``__init__``."""
    found = set()
    for module, node in nodes():
        match node:
            case ast.ImportFrom(module=str(source), names=names) if source.startswith("workeven."):
                stage = source.split(".")[1]
                if stage != stage_of(module) or module.endswith("__init__.py"):
                    found |= {(stage, alias.name) for alias in names}
            case _:
                pass
    return frozenset(found)


def handed_records() -> Iterator[tuple[str, ast.ClassDef, set[str]]]:
    """The dataclasses that leave their stage."""
    for module, node, options in records():
        if (stage_of(module), node.name) in handed_over():
            yield module, node, options


def test_the_records_of_every_stage_are_seen() -> None:
    """The search for records that leave their stage finds those that the flow is made of."""
    names = {node.name for _, node, _ in handed_records()}
    assert {"Source", "Pattern", "GradedPattern", "ProvenPattern", "YarnNeeds"} - names == set()


def test_records_are_slotted() -> None:
    """No record takes a field that its class does not name."""
    found = [at(m, node, node.name) for m, node, options in records() if "slots" not in options]
    assert "\n".join(found) == ""


def test_records_are_facts() -> None:
    """What one stage hands to another is frozen, and written with the names of its fields."""
    found = []
    for module, node, options in handed_records():
        by_position = lies_in(module, tuple(POSITIONAL))
        wanted = {"frozen"} | (set() if by_position else {"kw_only"})
        if missing := sorted(wanted - options):
            found.append(at(module, node, f"{node.name} is not {', '.join(missing)}"))
    assert "\n".join(found) == ""


def test_records_hold_tuples() -> None:
    """What one stage hands to another holds no list, set or dict that could change later."""
    found = []
    for module, node, _ in handed_records():
        for field in node.body:
            if isinstance(field, ast.AnnAssign):
                kind = ast.unparse(field.annotation)
                if re.search(r"\b(list|set|dict|deque|defaultdict)\b", kind):
                    found.append(at(module, field, f"{ast.unparse(field.target)}: {kind}"))
    assert "\n".join(found) == ""


@pytest.mark.parametrize("record", MAKERS)
def test_a_promise_is_made_in_one_place(record: str) -> None:
    """Only the stage that proves a promise builds the record that stands for it."""
    found = [
        at(module, node, f"{record}(...)")
        for module, node in nodes()
        if called(node) == record and not lies_in(module, MAKERS[record])
    ]
    assert "\n".join(found) == ""


def test_a_ready_pattern_is_made_at_one_line() -> None:
    """There is one line that declares a pattern fit to publish."""
    found = [module for module, node in nodes() if called(node) == "ReadyPattern"]
    assert found == ["pipeline/one.py"]


# --- flow ----------------------------------------------------------------------------------


def test_only_source_opens_files_of_users() -> None:
    """Files are read by the source stage; packaged data by those who carry it."""
    found = [
        at(module, node, f"{called(node)}(...)")
        for module, node in nodes()
        if called(node) in READING | {"open"} and not lies_in(module, READERS + WRITERS)
    ]
    assert "\n".join(found) == ""


@pytest.mark.parametrize("place", [place for place in READERS if place != "source"])
def test_packaged_data_comes_through_importlib(place: str) -> None:
    """A module other than source that reads a file reads one that came with the package."""
    found = []
    for module, tree in modules():
        if not lies_in(module, (place,)) or lies_in(module, WRITERS):
            continue
        reads = [n for n in ast.walk(tree) if called(n) in READING | {"open"}]
        names = {name for n in ast.walk(tree) for name in imported(n)}
        if not any(name.startswith("importlib") for name in names):
            found += [at(module, node, f"{called(node)}(...)") for node in reads]
    assert "\n".join(found) == ""


def test_only_the_edge_writes() -> None:
    """Output is written by the publisher's output module, the command line and the plugin."""
    found = [
        at(module, node, f"{called(node)}(...)")
        for module, node in nodes()
        if called(node) in WRITING and not lies_in(module, WRITERS)
    ]
    assert "\n".join(found) == ""


def test_stages_are_pure() -> None:
    """From source to yarn the same text gives the same result: nothing else is asked."""
    found = [
        at(module, node, f"import {name}")
        for module, node in nodes(*PURE)
        for name in imported(node)
        if name.split(".")[0] in IMPURE
    ]
    found += [
        at(module, node, f"{called(node)}()")
        for module, node in nodes(*PURE)
        if called(node) in {"now", "today", "utcnow", "getenv", "print", "input"}
    ]
    assert "\n".join(found) == ""


def test_no_module_keeps_a_state() -> None:
    """No function changes a variable of its module."""
    found = [
        at(module, node, f"global {', '.join(node.names)}")
        for module, node in nodes()
        if isinstance(node, ast.Global)
    ]
    assert "\n".join(found) == ""


@pytest.mark.parametrize("package", HOMES)
def test_a_foreign_package_has_one_home(package: str) -> None:
    """Only the module made for it imports a library, so that it can be replaced there."""
    found = [
        at(module, node, f"import {name}")
        for module, node in nodes()
        for name in imported(node)
        if name.split(".")[0] == package and not lies_in(module, HOMES[package])
    ]
    assert "\n".join(found) == ""


def test_yaml_never_constructs() -> None:
    """A file is read as events; PyYAML never makes an object of it."""
    constructs = {"load", "load_all", "safe_load", "safe_load_all", "full_load", "unsafe_load"}
    found = [
        at(module, node, ast.unparse(node.func))
        for module, node in nodes()
        if isinstance(node, ast.Call) and called(node) in constructs
        if ast.unparse(node.func).startswith("yaml.")
    ]
    assert "\n".join(found) == ""


# --- how a module reads --------------------------------------------------------------------


def test_modules_open_alike() -> None:
    """A docstring says in four lines what a module takes, gives, reports and implements."""
    heads = ["Takes", "Gives", "Problems", "From"]
    found = []
    for module, tree in modules():
        if not module.endswith("__init__.py"):
            text = ast.get_docstring(tree) or ""
            if re.findall(r"^(Takes|Gives|Problems|From)  ", text, flags=re.MULTILINE) != heads:
                found.append(f"{module}:1: the docstring lacks Takes, Gives, Problems, From")
    assert "\n".join(found) == ""


def test_names_say_what_they_name() -> None:
    """Modules, classes and functions carry words of the trade, not words for anything."""
    found = []
    for module, node in nodes():
        if isinstance(node, ast.ClassDef | ast.FunctionDef):
            words = set(re.findall(r"[A-Z]?[a-z]+", node.name))
            if {word.lower() for word in words} & EMPTY_WORDS or node.name in EMPTY_NAMES:
                found.append(at(module, node, node.name))
    for module, _ in modules():
        name = PurePosixPath(module).stem
        if set(name.split("_")) & (EMPTY_WORDS | EMPTY_NAMES):
            found.append(f"{module}:1: {name}")
    assert "\n".join(found) == ""


def test_python_is_plain() -> None:
    """No metaclass, no delegation by ``__getattr__``, no class built at run time.

    One module does what ``dataclasses`` would: it gives records their slots and ``__init__``.
    """
    found = []
    for module, node in nodes():
        if module == "records.py":
            continue
        match node:
            case ast.ClassDef(keywords=[*words]) if any(w.arg == "metaclass" for w in words):
                found.append(at(module, node, "metaclass"))
            case ast.FunctionDef(name="__getattr__" | "__getattribute__" as name):
                found.append(at(module, node, name))
            case ast.Call(func=ast.Name(id="type"), args=[_, _, _]):
                found.append(at(module, node, "type(name, bases, members)"))
            case ast.Call(func=ast.Name(id="exec" | "eval" | "setattr" as name)):
                found.append(at(module, node, f"{name}(...)"))
            case _:
                pass
    assert "\n".join(found) == ""


def test_records_are_changed_by_what_made_them() -> None:
    """``dataclasses`` knows no record; it makes what is set again while pages are drawn."""
    found = [
        at(module, node, alias.name)
        for module, node in nodes()
        if isinstance(node, ast.ImportFrom) and node.module == "dataclasses"
        for alias in node.names
        if module != "records.py" and alias.name not in {"dataclass", "field"}
    ]
    assert found == []


def test_records_have_no_family() -> None:
    """Classes inherit from the standard library's types and MkDocs' two, never from ours."""
    ours = {node.name for _, node in nodes() if isinstance(node, ast.ClassDef)}
    found = [
        at(module, node, f"{node.name}({ast.unparse(base)})")
        for module, node in nodes()
        if isinstance(node, ast.ClassDef)
        for base in node.bases
        if isinstance(base, ast.Name) and base.id in ours
    ]
    assert "\n".join(found) == ""


def test_every_folder_with_code_is_a_package() -> None:
    """A folder without ``__init__.py`` would fall out of the layers and of the type check."""
    folders = {path.parent for path in PACKAGE.rglob("*.py")}
    found = [
        str(folder.relative_to(PACKAGE))
        for folder in sorted(folders)
        if not (folder / "__init__.py").exists()
    ]
    assert "\n".join(found) == ""
