"""Builds models from files, and turns what pydantic says of them into problems with a line and a remedy."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from enum import StrEnum
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, TypeVar, Union, get_args, get_origin

from annotated_types import Ge, Gt, Le, Lt
from pydantic import BaseModel, BeforeValidator, StringConstraints, Tag, ValidationError
from pydantic.fields import FieldInfo
from pydantic_core import ErrorDetails

from faultdoc.library.problems import MOST_PROBLEMS, FileProblems, Problem, as_found, choose, listed
from faultdoc.library.source import KeyPath, Source, scalar
from faultdoc.model import base
from faultdoc.quantities import ACCEPTED, Kind, QuantityError, parse

__all__ = ["allowed_in", "build", "kind_of", "quantity_in_words", "quantity_problem", "translate"]

M = TypeVar("M", bound=BaseModel)


def build(model: type[M], source: Source, *, data: Any = None, known: Sequence[Problem] = ()) -> M:
    """Return the model that a file describes.

    Args:
        model: what the file holds.
        source: the file as read.
        data: instead of the file's own data, when some of it has been understood already.
        known: mistakes found already; what the model finds at the same places is not told again.

    Raises:
        FileProblems: the known mistakes, and every one that the model's types and validators find.
    """
    try:
        built = model.model_validate(source.data if data is None else data)
    except ValidationError as refused:
        told = {(problem.line, problem.column) for problem in known}
        more = [one for one in translate(refused, model, source) if (one.line, one.column) not in told]
        raise FileProblems([*known, *more]) from None
    if known:
        raise FileProblems(list(known))
    return built


def translate(refused: ValidationError, model: type[BaseModel], source: Source) -> list[Problem]:
    """Return pydantic's errors on `source` as problems."""
    problems: list[Problem] = []
    in_unions: set[KeyPath] = set()
    errors = refused.errors(include_url=False)[:MOST_PROBLEMS]
    misspelt = [error["loc"] for error in errors if error["type"] == "extra_forbidden"]
    for error in errors:
        # A key spelt wrong is one mistake, although it is missing under its right name as well.
        if error["type"] == "missing" and _misspelt(error["loc"], misspelt):
            continue
        path, annotation, owner = _locate(error["loc"], model)
        # pydantic counts the items that are right; each wrong one is told by itself.
        if error["type"] == "too_short" and len(error["input"]) >= error["ctx"]["min_length"]:
            continue
        if _is_union(_bare(annotation)):
            if path in in_unions:  # one error for each member; the type in words names them all
                continue
            in_unions.add(path)
        problems.extend(_problems(error, path, annotation, owner, source))
    return problems


def _misspelt(missing: tuple[int | str, ...], unknown: list[tuple[int | str, ...]]) -> bool:
    beside = [str(loc[-1]) for loc in unknown if loc[:-1] == missing[:-1]]
    return any(choose(name, [str(missing[-1])], otherwise="") for name in beside)


# --- where: pydantic's location -> path in the file, and the type wanted there ---


def _locate(loc: tuple[int | str, ...], model: type[BaseModel]) -> tuple[KeyPath, Any, type[BaseModel] | None]:
    """Return the path in the file, the type wanted there and the model whose field it is.

    pydantic's locations carry, besides keys and indices, the tags of unions and '[key]'; walking
    them along the types tells which is which.
    """
    annotation: Any = model
    key_type: Any = None
    owner: type[BaseModel] | None = None
    path: list[str | int] = []
    for step in loc:
        bare = _bare(annotation)
        if step == "[key]":
            annotation = key_type
        elif isinstance(bare, type) and issubclass(bare, BaseModel):
            path.append(step)
            owner = bare
            known = bare.model_fields.get(str(step))
            annotation = _of_field(known) if known else None
        elif get_origin(bare) is tuple:
            path.append(step)
            annotation = get_args(bare)[0]
        elif get_origin(bare) is dict:
            path.append(step)
            key_type, annotation = get_args(bare)
        elif _is_union(bare):
            annotation = _member(bare, step, annotation)
        # Anything else is a label of pydantic's own, such as 'float' for a member of a union.
    return tuple(path), annotation, owner


def _of_field(known: FieldInfo) -> Any:
    """Return a field's type with its constraints, which pydantic keeps apart."""
    if not known.metadata and known.discriminator is None:
        return known.annotation
    return Annotated[known.annotation, *known.metadata]


def _bare(annotation: Any) -> Any:
    """Return the type without its constraints, and without the None that 'optional' adds."""
    while get_origin(annotation) is Annotated:
        annotation = get_args(annotation)[0]
    if _is_union(annotation):
        members = [member for member in get_args(annotation) if member is not NoneType]
        if len(members) == 1:
            return _bare(members[0])
    return annotation


def _is_union(annotation: Any) -> bool:
    return get_origin(annotation) in (Union, UnionType)


def _member(union: Any, step: int | str, otherwise: Any) -> Any:
    for member in get_args(union):
        if Tag(str(step)) in _constraints(member):
            return member
    return otherwise


def _constraints(annotation: Any) -> list[Any]:
    """Return all that is attached to a type, from `Annotated` at any depth and through 'optional'."""
    found: list[Any] = []
    while True:
        if get_origin(annotation) is Annotated:
            first, *more = get_args(annotation)
            for item in more:
                found.extend(item.metadata if isinstance(item, FieldInfo) else [item])
            annotation = first
            continue
        members = [member for member in get_args(annotation) if member is not NoneType]
        if _is_union(annotation) and len(members) == 1:
            annotation = members[0]
            continue
        return found


# --- what is allowed: a type in words ---


def _kinds() -> dict[Callable[..., Any], Kind]:
    """Return the kind of quantity that each of the quantity fields of `model.base` reads."""
    kinds: dict[Callable[..., Any], Kind] = {}
    for name in base.__all__:
        for item in _constraints(getattr(base, name)):
            if isinstance(item, BeforeValidator):
                kinds[item.func] = Kind(re.sub(r"(?<!^)(?=[A-Z])", " ", name).lower())
    return kinds


_KIND_OF = _kinds()


def kind_of(known: FieldInfo) -> Kind | None:
    """Return the kind of quantity that a model's field holds, or each item of its list; None for anything else.

    >>> kind_of(base.Measured.model_fields["text"]) is None
    True
    """
    annotation = _of_field(known)
    if (kind := _kind_in(annotation)) is None and get_origin(_bare(annotation)) is tuple:
        kind = _kind_in(get_args(_bare(annotation))[0])
    return kind


def _kind_in(annotation: Any) -> Kind | None:
    for item in _constraints(annotation):
        if isinstance(item, BeforeValidator) and item.func in _KIND_OF:
            return _KIND_OF[item.func]
    return None


def _a(word: str) -> str:
    return f"{'an' if word[0] in 'aeiou' else 'a'} {word}"


def quantity_in_words(kind: Kind) -> str:
    """Return what is allowed where a quantity is wanted."""
    return f"{_a(kind.value)} in {', '.join(ACCEPTED[kind])}" if ACCEPTED[kind] else _a(kind.value)


def allowed_in(annotation: Any) -> str:
    """Return in words what a type allows.

    >>> allowed_in(base.Minutes)
    'a number from 0 to 10000'
    >>> allowed_in(tuple[base.Id, ...])
    'a list, each item a name of lower-case letters, digits and _'
    """
    if kind := _kind_in(annotation):
        return quantity_in_words(kind)
    bare = _bare(annotation)
    constraints = _constraints(annotation)
    if bare in (int, float):
        return f"a{' whole' if bare is int else ''} number{_range(constraints)}"
    if bare is bool:
        return "true or false"
    if bare is str:
        return _text_in_words(constraints)
    if get_origin(bare) is Literal:
        return "one of " + listed(map(str, get_args(bare)))
    if get_origin(bare) is tuple:
        return f"a list, each item {allowed_in(get_args(bare)[0])}"
    if get_origin(bare) is dict:
        key, value = get_args(bare)
        return f"a map, each key {allowed_in(key)} and each value {allowed_in(value)}"
    if _is_union(bare):
        return " or ".join(allowed_in(member) for member in get_args(bare) if member is not NoneType)
    if isinstance(bare, type) and issubclass(bare, StrEnum):
        return "one of " + listed(bare)
    if isinstance(bare, type) and issubclass(bare, BaseModel):
        return f"a map with the keys {listed(bare.model_fields)}"
    return str(bare)


def _range(constraints: list[Any]) -> str:
    low = high = ""
    for item in constraints:
        if isinstance(item, Ge):
            low = f"from {item.ge:g}"
        elif isinstance(item, Gt):
            low = f"above {item.gt:g}"
        elif isinstance(item, Le):
            high = f"to {item.le:g}" if low.startswith("from") else f"at most {item.le:g}"
        elif isinstance(item, Lt):
            high = f"below {item.lt:g}"
    glue = " and " if low and high and not high.startswith("to ") else " "
    words = (low + glue + high).strip()
    return f" {words}" if words else ""


def _pattern(constraints: list[Any]) -> str | None:
    for item in constraints:
        pattern = item.pattern if isinstance(item, StringConstraints) else getattr(item, "pattern", None)
        if isinstance(pattern, str):
            return pattern
    return None


_ID_PATTERN = _pattern(_constraints(base.Id))


def _text_in_words(constraints: list[Any]) -> str:
    pattern = _pattern(constraints)
    if pattern is None:
        longest = [item.max_length for item in constraints if isinstance(item, StringConstraints)]
        return "text, not empty" + (f", of at most {longest[0]} characters" if longest and longest[0] else "")
    if pattern == _ID_PATTERN:
        return "a name of lower-case letters, digits and _"
    if re.fullmatch(r"\^[a-z_]+\$", pattern):
        return f"'{pattern[1:-1]}'"
    return f"text of the form {pattern}"


# --- one pydantic error -> problems ---


def _problems(
    error: ErrorDetails, path: KeyPath, annotation: Any, owner: type[BaseModel] | None, source: Source
) -> list[Problem]:
    kind = error["type"]
    found = as_found(error["input"])
    if kind == "missing":
        return [_missing(path, annotation, source)]
    if kind == "extra_forbidden":
        return [_unknown_key(path, owner, source)]
    if kind == "too_long":
        most = error["ctx"]["max_length"]
        return [source.problem(path, found, f"at most {most} of them", "take out what is not needed")]
    if kind == "value_error":
        if quantity := _kind_in(annotation):
            return [quantity_problem(source, path, error["input"], quantity)]
        return _broken_rules(error, path, annotation, source)
    allowed = allowed_in(annotation) if annotation is not None else error["msg"]
    at_key = error["loc"][-1:] == ("[key]",)
    if at_key:
        found = f"the key {found}"
    return [source.problem(path, found, allowed, _remedy(error, annotation), at_value=not at_key)]


def _missing(path: KeyPath, annotation: Any, source: Source) -> Problem:
    """Return the problem of a key that is not there, told at the map in which it should be."""
    name = str(path[-1])
    bare = _bare(annotation)
    purpose = ""
    if isinstance(bare, type) and issubclass(bare, BaseModel):
        purpose = f" ({re.split(r'[.](?: |$)', (bare.__doc__ or '').strip(), maxsplit=1)[0]})"
    return source.problem(
        path[:-1],
        f"no '{name}'",
        f"{allowed_in(annotation)}",
        f"add '{name}:' here{purpose}",
        at_value=False,
    )


def _unknown_key(path: KeyPath, owner: type[BaseModel] | None, source: Source) -> Problem:
    name = str(path[-1])
    known = list(owner.model_fields) if owner else []
    remedy = choose(name, known, otherwise="write one of these, or remove it")
    return source.problem(path, f"the unknown key '{name}'", listed(known), remedy, at_value=False)


def quantity_problem(source: Source, path: KeyPath, found: Any, kind: Kind) -> Problem:
    """Return the problem of a value that should be a quantity of `kind` with its unit."""
    allowed = quantity_in_words(kind)
    unit = ACCEPTED[kind][0] if ACCEPTED[kind] else ""
    number = scalar(found.strip()) if isinstance(found, str) else found
    if isinstance(found, str) and not isinstance(number, (int, float)):
        try:
            parse(found, kind, need_unit=True)
        except QuantityError as problem:
            reason = str(problem).partition("; ")[0].removeprefix(f"'{found}'").removeprefix(":").strip()
            return source.problem(path, as_found(found), allowed, f"{reason}; write it as such a quantity")
    if isinstance(number, (int, float)) and not isinstance(number, bool):
        remedy = f"write it with its unit, such as {number} {unit}".rstrip()
    else:
        remedy = f"write a number with its unit, such as 5 {unit}".rstrip()
    return source.problem(path, as_found(found), allowed, remedy)


def _remedy(error: ErrorDetails, annotation: Any) -> str:
    """Return what to do about a value of the wrong type, form or size."""
    value = error["input"]
    bare = _bare(annotation)
    if isinstance(bare, type) and issubclass(bare, StrEnum):
        return choose(str(value), list(bare))
    if get_origin(bare) is Literal:
        return choose(str(value), map(str, get_args(bare)))
    if bare is bool:
        return "write true or false"
    if bare in (int, float):
        return _number_remedy(value)
    if bare is str and isinstance(value, (int, float, bool)):
        return f'put it in quotes: "{str(value).lower()}"'
    if _pattern(_constraints(annotation)) == _ID_PATTERN and isinstance(value, str):
        return _as_id(value)
    if get_origin(bare) is tuple:
        if isinstance(value, (str, int, float)):
            return f"write a list: [{value}]"
        return "write a list, one '- ' a line" if not isinstance(value, list) else "add what is missing"
    if isinstance(bare, type) and issubclass(bare, BaseModel) and not isinstance(value, dict):
        return "write 'key: value' lines below it, further to the right"
    return "write that" if value is None else "change it"


_IN_WORDS = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
)  # fmt: skip


def _number_remedy(value: Any) -> str:
    """Return what to do where a plain number is wanted."""
    if not isinstance(value, str):
        return "write a number in that range" if isinstance(value, (int, float)) else "write such a number"
    text = value.strip()
    if isinstance(number := scalar(text), (int, float)):
        return f"write {number} without quotation marks"
    if text.lower() in _IN_WORDS:
        return f"write {_IN_WORDS.index(text.lower())}"
    if leading := re.match(r"-?\d+(\.\d+)?", text):
        return f"write {leading.group()} alone, without a unit"
    return "write such a number"


def _as_id(value: str) -> str:
    close = re.sub(r"[^a-z0-9]+", "_", value.lower()).strip("_")[:64]
    if re.fullmatch(_ID_PATTERN or "", close) and close != value:
        return f"write {close}"
    return "start with a letter and write 2 to 64 of these"


def _broken_rules(error: ErrorDetails, path: KeyPath, annotation: Any, source: Source) -> list[Problem]:
    """Return the problems a model's own validator found; it may name several, parted by semicolons."""
    bare = _bare(annotation)
    fields = list(bare.model_fields) if isinstance(bare, type) and issubclass(bare, BaseModel) else []
    data = error["input"]
    rules = str(error.get("ctx", {}).get("error", error["msg"])).split("; ")
    return [_broken_rule(rule, path, fields, data, source) for rule in rules]


def _broken_rule(rule: str, path: KeyPath, fields: list[str], data: Any, source: Source) -> Problem:
    """Return a broken rule as a problem at the part of the map that the rule speaks of."""
    if row := re.match(r"given row '(\w+)'", rule):
        at: KeyPath = (*path, "given", row[1])
        return source.problem(at, "a row of another sort", rule, "write the row in that form", at_value=False)
    named = [
        word
        for word in dict.fromkeys(re.findall(r"[a-z_]+(?:\.[a-z_]+)*(?!'s|[a-z_])", rule))
        if _leads(word, fields)
    ]
    present = [word for word in named if _holds(data, word.split("."))]
    absent = [word for word in named if word not in present]
    at = (*path, *present[0].split(".")) if present else path
    remedy = "change it so that this holds"
    if present:
        remedy = f"change {' or '.join(present)}"
    if absent:
        remedy = f"add {' or '.join(absent)}" if not present else f"{remedy}, or add {' or '.join(absent)}"
    found = as_found(data if not present else _get(data, present[0].split(".")))
    return source.problem(at, found, rule, remedy)


def _leads(word: str, fields: list[str]) -> bool:
    return word.split(".")[0] in fields


def _holds(data: Any, steps: list[str]) -> bool:
    return _get(data, steps) is not None


def _get(data: Any, steps: list[str]) -> Any:
    for step in steps:
        data = data.get(step) if isinstance(data, Mapping) else None
    return data
