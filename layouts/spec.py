"""What one field of a job file takes: its ``Spec``, carried by the dataclass field that holds its value."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, Literal

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


@dataclass(frozen=True)
class Spec:
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
    """A dataclass field with its spec: it must be given where it has neither a default nor may be *none*."""
    spec = Spec(kind, meaning, default, metric, least, most, choices, default is None and not none, none)
    return field(metadata={"spec": spec})


FOOT = 12.0
