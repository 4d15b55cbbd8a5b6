"""The house rules that can be counted: how long modules and functions are, that what is public says what it is, that
every test asserts something."""

from __future__ import annotations

import ast
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
MODULE, FUNCTION = 300, 40
TABLES = {"TARGETS"}  # of functions, all of which assert: of fuzz_parsers
WHY = "long because"  # stands in a function that is longer, or in the line before it, with its reason

OURS = ("layouts", "sheets")
MODULES = sorted(path for part in (*OURS, "fonts", "tests") for path in (ROOT / part).rglob("*.py"))
SOURCES = sorted(path for part in OURS for path in (ROOT / part).rglob("*.py"))

Function = ast.FunctionDef | ast.AsyncFunctionDef


@cache
def lines(path: Path) -> tuple[str, ...]:
    """The lines of a module."""
    return tuple(path.read_text(encoding="utf-8").splitlines())


@cache
def tree(path: Path) -> ast.Module:
    """The same, parsed."""
    return ast.parse("\n".join(lines(path)))


def name(path: Path) -> str:
    """How a module is called in what fails."""
    return path.relative_to(ROOT).as_posix()


def begins(function: Function) -> int:
    """The line where it begins: its first decorator's, if it has one."""
    return min([function.lineno, *(one.lineno for one in function.decorator_list)])


def too_long(source: tuple[str, ...], module: ast.Module) -> Iterator[str]:
    """Functions over the limit without a reason, nested ones too. Decorators are not counted."""
    for node in ast.walk(module):
        if isinstance(node, Function):
            end = node.end_lineno or node.lineno
            said = any(WHY in line for line in source[max(begins(node) - 2, 0) : end])
            if end - node.lineno + 1 > FUNCTION and not said:
                yield f"{node.name}, {end - node.lineno + 1} lines"


def silent(module: ast.Module | ast.ClassDef, of: str = "") -> Iterator[str]:
    """Public functions, classes and methods without a docstring."""
    for node in module.body:
        if isinstance(node, (Function, ast.ClassDef)) and not node.name.startswith("_"):
            if not ast.get_docstring(node):
                yield of + node.name
            if isinstance(node, ast.ClassDef):
                yield from silent(node, f"{of}{node.name}.")


def test_the_modules_are_found() -> None:
    assert {"layouts/job.py", "sheets/packet.py", "fonts/__init__.py", "tests/test_house.py"} <= set(map(name, MODULES))
    assert {path.parent.name for path in SOURCES} >= set(OURS)


def test_no_module_is_longer_than_it_may_be() -> None:
    assert {name(path): len(lines(path)) for path in MODULES if len(lines(path)) > MODULE} == {}


def test_no_function_is_longer_than_it_may_be_without_a_reason() -> None:
    assert {name(path): found for path in SOURCES if (found := list(too_long(lines(path), tree(path))))} == {}


def asserts(function: Function) -> bool:
    """Whether it asserts or expects an error itself."""
    return any(
        isinstance(node, ast.Assert) or (isinstance(node, ast.Attribute) and node.attr in ("raises", "fail"))
        for node in ast.walk(function)
    )


def called(function: Function) -> Iterator[str]:
    """The names of what it calls; of an entry of a table the table's."""
    for node in ast.walk(function):
        if isinstance(node, ast.Call):
            what = node.func.value if isinstance(node.func, ast.Subscript) else node.func
            yield what.id if isinstance(what, ast.Name) else getattr(what, "attr", "")


def idle(modules: Mapping[str, ast.Module]) -> Iterator[str]:
    """Tests of these modules that assert nothing and call no function of theirs that does. A benchmark measures."""
    functions = [
        (name, node) for name, module in modules.items() for node in ast.walk(module) if isinstance(node, Function)
    ]
    sure = {node.name for _, node in functions if asserts(node)} | TABLES
    for name, node in functions:
        measured = "benchmark" in (argument.arg for argument in node.args.args)
        if node.name.startswith("test_") and not measured and not asserts(node) and not sure.intersection(called(node)):
            yield f"{name}: {node.name}"


def test_every_test_asserts_something() -> None:
    assert list(idle({path.name: tree(path) for path in MODULES if path.parent.name == "tests"})) == []


def test_a_test_that_asserts_nothing_is_found() -> None:
    text = """
def holds(x):
    assert x
def does(x):
    x()
def test_itself(): assert True
def test_by_a_helper(): holds(1)
def test_an_error():
    with pytest.raises(ValueError): does(1)
def test_nothing(): does(1)
def test_speed(benchmark): benchmark(does)
"""
    assert list(idle({"one": ast.parse(text)})) == ["one: test_nothing"]


def test_all_that_is_public_says_what_it_is() -> None:
    assert {name(path): found for path in SOURCES if (found := list(silent(tree(path))))} == {}


def function(inside: int, before: str = "") -> str:
    """A function of so many lines, its first counted."""
    return f"{before}\n@cache\ndef long() -> None:\n" + "    pass\n" * (inside - 1)


@pytest.mark.parametrize(
    ("text", "found"),
    [
        (function(FUNCTION), []),
        (function(FUNCTION + 1), [f"long, {FUNCTION + 1} lines"]),
        (function(FUNCTION + 1, f"# {WHY} it is a list"), []),
        (function(FUNCTION) + f"    # {WHY} it is a list\n    pass\n", []),
        (f"# {WHY} it is another\n\n" + function(FUNCTION + 1), [f"long, {FUNCTION + 1} lines"]),
        ("class One:\n" + "\n".join("    " + line for line in function(FUNCTION + 2).splitlines()), ["long, 42 lines"]),
    ],
)
def test_a_long_function_is_found(text: str, found: list[str]) -> None:
    assert list(too_long(tuple(text.splitlines()), ast.parse(text))) == found


def test_what_is_silent_is_found() -> None:
    text = '''
def told() -> None:
    """What it does."""
    def nested() -> None: ...
def _own() -> None: ...
def bare() -> None: ...
class Thing:
    """What it is."""
    def __init__(self) -> None: ...
    def _own(self) -> None: ...
    async def bare(self) -> None: ...
    class Inner: ...
'''
    assert list(silent(ast.parse(text))) == ["bare", "Thing.bare", "Thing.Inner"]
