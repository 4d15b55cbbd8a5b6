"""What one field of a job file takes: its ``Spec``, carried by the ``Part`` that holds its value."""

from __future__ import annotations

from typing import Any, Literal

from msgspec import Struct, StructMeta

Kind = Literal[
    "text",
    "name",
    "length",
    "lengths",
    "section",
    "sections",
    "choice",
    "count",
    "pitch",
    "bays",
    "line",
    "height",
    "density",
    "speed",
    "nailing",
    "prices",
    "date",
    "tags",
]


class Spec(Struct, frozen=True):
    """What one field takes. *default* ``None`` means the job must give it; *least* and *most* are inches (or a number
    for counts); *metric* is the default of a metric job where it differs; *many* is the most items a list may have."""

    kind: Kind
    help: str
    default: Any = None
    metric: Any = None
    least: float = 0.0
    most: float = 0.0
    choices: tuple[str, ...] = ()
    required: bool = False
    none: bool = False
    many: int = 600


def take(
    kind: Kind,
    meaning: str,
    default: Any = None,
    *,
    metric: Any = None,
    least: float = 0.0,
    most: float = 0.0,
    choices: tuple[str, ...] = (),
    none: bool = False,
) -> Any:
    """What a field of a ``Part`` takes: the job must give it where it has neither a default nor may be *none*."""
    return Spec(kind, meaning, default, metric, least, most, choices, default is None and not none, none)


class _PartType(StructMeta):
    """Keeps the specs of a part apart from its fields, all of which have to be given when one is made."""

    specs: dict[str, Spec]

    def __new__(mcs, name: str, bases: tuple[type, ...], space: dict[str, Any], **options: Any) -> _PartType:
        specs = {key: value for key, value in space.items() if isinstance(value, Spec)}
        made = super().__new__(mcs, name, bases, {k: v for k, v in space.items() if k not in specs}, **options)
        made.specs = specs
        return made


class Part(Struct, frozen=True, kw_only=True, metaclass=_PartType):
    """A table of the job file: its values as the program holds them, and in ``specs`` what each field takes."""


FOOT = 12.0
