"""The command line. Every command imports what it needs when it runs: --help and --version stay quick.

Exit codes: 0 done; 1 the input is wrong, with a message on standard error; 2 the command line is wrong.
"""

from __future__ import annotations

import sys
from contextlib import contextmanager, redirect_stdout
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from faultdoc.plain import plain

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from faultdoc.diagnosis.assess import Assessment
    from faultdoc.library.lint import CheckFacts
    from faultdoc.library.load import Library
    from faultdoc.model.safety import Qualification
    from faultdoc.practice.scenario import Scenario
    from faultdoc.quantities import System
    from faultdoc.record.casebook import CaseBook
    from faultdoc.record.settings import Settings
    from faultdoc.terminal.wizard import Wish

__all__ = ["app", "main"]

app = typer.Typer(
    name="faultdoc",
    help="Finds out why a packaged air-cooled water chiller has tripped: safely, and in the fewest minutes.",
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)

unit_app = typer.Typer(
    help="Units: list them, show one, or enter a new one from its nameplate.", no_args_is_help=True
)
app.add_typer(unit_app, name="unit")

handover_app = typer.Typer(
    help="Hand a case over: to another person's FaultDoc and back, as a file or as QR codes.", no_args_is_help=True
)
app.add_typer(handover_app, name="handover")

learn_app = typer.Typer(help="What closed cases teach about rates and answers; nothing changes unless accepted.")
app.add_typer(learn_app, name="learn")

cases_app = typer.Typer(help="The cases of the case book: find them, or show one.")
app.add_typer(cases_app, name="cases")

book_app = typer.Typer(
    help="The case book as a whole: back-up, restore, export, import, forgetting people.", no_args_is_help=True
)
app.add_typer(book_app, name="book")

CaseFile = Annotated[Path, typer.Argument(help="A case file (YAML).", show_default=False)]
MaybeCase = Annotated[Path | None, typer.Argument(help="A case file to go on from.", show_default=False)]
Units = Annotated[bool | None, typer.Option("--si/--us", help="Units to show.", show_default="as last chosen")]
AsJson = Annotated[bool, typer.Option("--json", help="Print JSON.")]
Size = Annotated[int, typer.Option(min=1, max=4, help="Most faults at once that are looked at.")]


class InputError(Exception):
    """What was given cannot be worked with; the message says why and what helps."""


def main() -> None:
    """Run the command line and exit."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")  # a terminal without the sign for ohm shall not end the work
    try:
        with redirect_stdout(_PlainOut(sys.stdout)):
            app()
    except Exception as problem:
        if not isinstance(problem, _input_problems()):
            raise
        print(plain(f"faultdoc: {problem}"), file=sys.stderr)
        sys.exit(1)


class _PlainOut:
    """Standard output on which only text comes out: what cases and trees say never commands the terminal."""

    def __init__(self, stream: Any) -> None:
        self._stream = stream

    def write(self, text: str) -> int:
        """Write the text with every character replaced that does not just print."""
        return int(self._stream.write(plain(text)))

    def __getattr__(self, name: str) -> Any:
        return getattr(self._stream, name)


def _input_problems() -> tuple[type[Exception], ...]:
    from faultdoc.library.problems import FileProblems
    from faultdoc.record.casebook import CaseBookError
    from faultdoc.terminal.compute import ComputeError
    from faultdoc.terminal.demo import DemoError
    from faultdoc.terminal.learn import LearnError
    from faultdoc.terminal.output import OutputError

    # An EvaluateError is told by its command: its module imports the simulator, which is slow.
    return InputError, FileProblems, ComputeError, DemoError, LearnError, OutputError, CaseBookError


def _version(wanted: bool) -> None:
    if wanted:
        from faultdoc import __version__

        print(f"faultdoc {__version__}")
        raise typer.Exit


@app.callback(invoke_without_command=True)
def _top(
    context: typer.Context,
    _version_wanted: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Print the version.")
    ] = False,
) -> None:
    if context.invoked_subcommand is None:
        window(None)


@app.command()
def window(case: MaybeCase = None) -> None:
    """Open the window; the same as no command."""
    if case is not None and not case.is_file():
        raise InputError(f"{case}: no such file; name a case file, or leave it out")
    try:
        from faultdoc.app import main as open_window

        code = open_window([] if case is None else [str(case)])
    except ImportError as problem:
        raise InputError(
            f"the window cannot open, as Qt cannot be loaded here ({problem}). Install the system libraries it "
            "names (start.py lists them), or use 'faultdoc ask' in this terminal."
        ) from None
    raise typer.Exit(code)


@app.command()
def ask(
    case: MaybeCase = None,
    unit: Annotated[str | None, typer.Option(help="Id or path of a data sheet.", show_default=False)] = None,
    symptom: Annotated[
        list[str] | None, typer.Option(help="Id of a fault tree; may be given several times.", show_default=False)
    ] = None,
    who: Annotated[
        list[str] | None,
        typer.Option(
            help="On the job: caller, crew, technician, electrical_worker, refrigerant_handler; "
            "may be given several times.",
            show_default=False,
        ),
    ] = None,
    si: Units = None,
    save: Annotated[Path | None, typer.Option(help="Write the case to this file at the end.")] = None,
) -> None:
    """Lead through a case in this terminal."""
    from faultdoc.library.load import load_case
    from faultdoc.terminal.wizard import Wish

    people = _people(who or [])
    if case is not None and (unit or symptom or who):
        raise typer.BadParameter("a case file says unit, symptom and people itself: leave the options out")
    library = _library()
    if unknown := [one for one in symptom or [] if one not in library.trees]:
        raise InputError(f"no fault tree '{unknown[0]}'; there are: {', '.join(library.trees)}")
    wish = Wish(
        case=None if case is None else load_case(case, library),
        unit=unit,
        symptoms=tuple(symptom or ()),
        who=people,
        save=save,
    )
    _lead(library, wish, si)


@app.command()
def phone(
    case: MaybeCase = None,
    unit: Annotated[str | None, typer.Option(help="Id or path of a data sheet.", show_default=False)] = None,
    symptom: Annotated[
        list[str] | None, typer.Option(help="Id of a fault tree; may be given several times.", show_default=False)
    ] = None,
    travel: Annotated[
        float | None, typer.Option(help="Minutes to travel to the site.", min=0.0, max=1440.0, show_default=False)
    ] = None,
    si: Units = None,
    save: Annotated[Path | None, typer.Option(help="Write the case to this file at the end.")] = None,
) -> None:
    """Lead a caller through a case: what to read aloud, and what a visit costs against asking on."""
    from faultdoc.library.load import load_case
    from faultdoc.model.safety import Qualification
    from faultdoc.terminal.wizard import Wish

    if case is not None and (unit or symptom):
        raise typer.BadParameter("a case file says unit and symptoms itself: leave the options out")
    library = _library()
    if unknown := [one for one in symptom or [] if one not in library.trees]:
        raise InputError(f"no fault tree '{unknown[0]}'; there are: {', '.join(library.trees)}")
    wish = Wish(
        case=None if case is None else load_case(case, library),
        unit=unit,
        symptoms=tuple(symptom or ()),
        who=(Qualification.CALLER,),
        save=save,
        by_phone=True,
        travel=travel,
    )
    _lead(library, wish, si)


def _lead(library: Library, wish: Wish, si: bool | None) -> None:
    """Lead through a case in this terminal."""
    from faultdoc.record.casebook import CaseBook
    from faultdoc.terminal.wizard import run

    settings, system = _settings(si)
    book = CaseBook.open()
    try:
        run(input, print, library, book, settings.model_copy(update={"system": system}), wish)
    except (KeyError, ValueError) as problem:
        raise _in_words(problem) from problem
    finally:
        book.dispose()


@app.command()
def diagnose(case: CaseFile, as_json: AsJson = False, si: Units = None, size: Size = 2) -> None:
    """Diagnose a case file: checks, likely causes, and the next step with its cautions first."""
    assessment = _assess(case, size)
    if as_json:
        from faultdoc.diagnosis.explain import as_json as promised

        _print_json(promised(assessment, _fixed_system(si)))
    else:
        from faultdoc.terminal.text import diagnosis_text

        print(diagnosis_text(assessment, _settings(si)[1]))


@app.command()
def report(
    case: Annotated[
        str,
        typer.Argument(help="A case file (YAML), or the number of a case in the case book.", show_default=False),
    ],
    output: Annotated[
        Path, typer.Option("-o", "--output", help="File to write: .html or .pdf.", show_default=False)
    ],
    photos: Annotated[bool, typer.Option("--photos", help="Print the photos kept with the case.")] = False,
    people: Annotated[bool, typer.Option("--people", help="Print names and telephone numbers.")] = False,
    customer: Annotated[
        bool, typer.Option("--customer", help="Only the page for the customer, in plain words, to sign.")
    ] = False,
    si: Units = None,
    size: Size = 2,
) -> None:
    """Write the service record of a case."""
    from faultdoc.library.load import load_library
    from faultdoc.record.casebook import CaseBook
    from faultdoc.terminal import paper
    from faultdoc.terminal.output import write_report

    system = _settings(si)[1]
    in_book = paper.is_in_book(case)
    if (photos or people) and not in_book:
        raise InputError(
            f"{case} is a case file, and only the case book keeps photos and names: give the case's number there, "
            "or leave --photos and --people out"
        )
    book = CaseBook.open() if in_book else None
    try:
        if book is None:
            made = paper.file_report(Path(case), load_library(), system, size, customer=customer)
        else:
            made = paper.kept_report(
                book, case, load_library(), system, size,
                customer=customer, with_photos=photos, with_people=people,
            )  # fmt: skip
    except (KeyError, ValueError) as problem:
        raise _in_words(problem) from problem
    finally:
        if book is not None:
            book.dispose()
    write_report(made, output)
    print(f"The report is written to {output}.")


@app.command()
def kit(
    case: CaseFile,
    kg: Annotated[float | None, typer.Option(min=0, max=1e6, help="Most mass.", show_default="stock.yaml")] = None,
    litres: Annotated[
        float | None, typer.Option(min=0, max=1e6, help="Most room.", show_default="stock.yaml")
    ] = None,
    items: Annotated[
        int | None,
        typer.Option(min=0, max=1000, help="Most things beyond those on every van.", show_default="stock.yaml"),
    ] = None,
    people: Annotated[
        int | None, typer.Option(min=0, max=8, help="Most people.", show_default="stock.yaml")
    ] = None,
    who: Annotated[
        list[str] | None,
        typer.Option(
            help="One who may be sent: technician, electrical_worker, refrigerant_handler, or several of them "
            "joined by +; once for each person.",
            show_default="stock.yaml",
        ),
    ] = None,
    have: Annotated[
        list[str] | None,
        typer.Option(help="Id of a thing that had to be ordered or hired and has come.", show_default=False),
    ] = None,
    as_json: AsJson = False,
    si: Units = None,
    size: Size = 2,
) -> None:
    """What to send: parts, tools and people with the best chance of a fix on the first visit."""
    from faultdoc.record.kit import KitError, best_kit, kit_json, sending
    from faultdoc.terminal.kit import asked_limits, kit_text

    try:
        limits = asked_limits(kg, litres, items, people, who or (), have or ())
        best = best_kit(sending(_assess(case, size), None, limits))
    except KitError as problem:
        raise InputError(str(problem)) from None
    if as_json:
        _print_json(kit_json(best, _fixed_system(si)))
    else:
        print(kit_text(best, _settings(si)[1]))


@app.command()
def lint(
    path: Annotated[
        Path | None,
        typer.Argument(
            help="A folder of fault trees, one of them, or a data sheet (path or id); all there are if left out.",
            show_default=False,
        ),
    ] = None,
    stats: Annotated[bool, typer.Option("--stats", help="Count what each tree has.")] = False,
    as_json: AsJson = False,
) -> None:
    """Look for mistakes in fault trees and data sheets; exit code 1 when there are warnings."""
    from faultdoc.checks.lint_units import lint_units
    from faultdoc.library import lint as linter
    from faultdoc.library.load import load_library

    counts = {}
    if path is not None and _is_sheet(path):
        warnings = lint_units([path])
    else:
        # Lint is about what is shipped, not about what was learned here.
        library = load_library(path, learned=False)
        warnings = linter.lint(library, _check_facts())
        counts = linter.stats(library, warnings) if stats else {}
        if path is None:
            warnings = [*warnings, *lint_units()]
    if as_json:
        from dataclasses import asdict

        told = {id: asdict(one) for id, one in counts.items()} if stats else [asdict(one) for one in warnings]
        _print_json(told if stats else {"warnings": told})
    else:
        for id, one in counts.items():
            print(
                f"{id}: {one.causes} causes, {one.questions} questions, {one.readings} readings; "
                f"{one.told_apart} of {one.pairs} pairs of causes told apart; "
                f"{one.simulated} of {one.rows} rows simulated; "
                f"{one.helped} of {one.caller} questions to a caller with help; "
                + "".join(f"{said} of {one.texts} texts in {name}; " for name, said in one.said.items())
                + f"{one.warnings} warnings"
            )
        print(linter.render(warnings))
    raise typer.Exit(1 if warnings else 0)


@app.command()
def safeties(
    case: CaseFile,
    before: Annotated[
        Path | None, typer.Option(help="An earlier case on the same unit, for the drift.", show_default=False)
    ] = None,
    apart: Annotated[
        str | None, typer.Option(help="Time between the two, such as '30 days'.", show_default=False)
    ] = None,
    si: Units = None,
) -> None:
    """Show every safety of the unit: setting, reading, margin, where it trips, drift, and its test."""
    from faultdoc.library.load import load_case, load_library, load_unit
    from faultdoc.quantities import Kind, parse
    from faultdoc.terminal.safeties import safeties_text

    if apart is not None and before is None:
        raise typer.BadParameter(
            "it is the time since an earlier case: give that with --before", param_hint="--apart"
        )
    library = load_library()
    now = load_case(case, library)
    earlier = None if before is None else load_case(before, library)
    try:
        elapsed = None if apart is None else parse(apart, Kind.TIME, need_unit=True).value
        text = safeties_text(load_unit(now.unit), now, library.points, _settings(si)[1], earlier, elapsed)
    except ValueError as problem:
        raise _in_words(problem) from problem
    print(text)


@app.command()
def timers(
    case: CaseFile,
    log: Annotated[
        Path | None,
        typer.Option(
            help="CSV with the columns time, supply, compressor (or compressor_1 ...), each on or off.",
            show_default=False,
        ),
    ] = None,
    now: Annotated[
        str | None, typer.Option(help="Time to tell it for; the log's last line if left out.", show_default=False)
    ] = None,
) -> None:
    """Show what is left of the oil warm-up and the anti-recycle time, and the starts in the last hour."""
    from datetime import datetime

    from faultdoc.library.load import load_case, load_unit
    from faultdoc.terminal.timers import log_text, read_log, timers_text

    if now is not None and log is None:
        raise typer.BadParameter(
            "it goes with --log; a case's readings tell of their own time", param_hint="--now"
        )
    found = load_case(case)
    sheet = load_unit(found.unit)
    if log is None:
        print(timers_text(sheet, found))
        return
    try:
        print(log_text(sheet, read_log(log), None if now is None else datetime.fromisoformat(now)))
    except ValueError as problem:
        raise _in_words(problem) from problem


@unit_app.command("new")
def unit_new(si: Units = None) -> None:
    """Enter a new unit from its nameplate, in this terminal."""
    from faultdoc.library.load import load_library
    from faultdoc.terminal.units import new_unit

    settings, system = _settings(si)
    new_unit(input, print, load_library(), settings.model_copy(update={"system": system}))


@unit_app.command("list")
def unit_list() -> None:
    """List all units, your own first."""
    from faultdoc.terminal.units import list_text

    print(list_text())


@unit_app.command("show")
def unit_show(
    id: Annotated[str, typer.Argument(help="Id or path of a data sheet.", show_default=False)], si: Units = None
) -> None:
    """Show one unit: what it is, its safeties, what is assumed, what is to be doubted."""
    from faultdoc.terminal.units import unit_text

    print(unit_text(id, _settings(si)[1]))


@handover_app.command("make")
def handover_make(
    case: Annotated[
        str, typer.Argument(help="A case file, or a case's number or uid in the case book.", show_default=False)
    ],
    output: Annotated[
        Path | None, typer.Option("-o", "--output", help="File to write.", show_default=False)
    ] = None,
    people: Annotated[bool, typer.Option("--people", help="With names and telephone numbers.")] = False,
    photos: Annotated[bool, typer.Option("--photos", help="With photos and documents, up to 8 MB.")] = False,
    qr: Annotated[
        str | None,
        typer.Option(help="Draw QR codes: FILE.svg, FILE.png, or 'terminal'.", show_default=False),
    ] = None,
) -> None:
    """Make a hand-over of a case."""
    from faultdoc.library.load import load_library
    from faultdoc.terminal.handover import Wish, make

    if output is None and qr is None:
        raise typer.BadParameter("say where to: a file with -o, or codes with --qr")
    wish = Wish(case, output, people, photos, qr)
    with _book() as book:
        make(print, wish, load_library(), book, _settings(None)[0].station)


@handover_app.command("open")
def handover_open(
    path: Annotated[
        str, typer.Argument(metavar="FILE", help="The file, or '-' to paste scanned codes.", show_default=False)
    ],
    take: Annotated[
        list[str] | None,
        typer.Option(
            metavar="ID=CHOICE",
            help="Decide a conflict: ID=mine, ID=theirs or ID=note; may be given several times.",
            show_default=False,
        ),
    ] = None,
) -> None:
    """Take a hand-over into the case book, and say what is different here."""
    from faultdoc.library.load import load_library
    from faultdoc.record.handover.merge import UnsettledError
    from faultdoc.terminal.handover import choices_from, open_, received

    try:
        choices = choices_from(take or [])
    except ValueError as problem:
        raise typer.BadParameter(str(problem), param_hint="--take") from None
    came = received(path, sys.stdin.read() if path == "-" else None)
    ask = input if path != "-" and sys.stdin.isatty() else None
    with _book() as book:
        try:
            open_(print, came, choices, load_library(), book, _settings(None)[0].station, ask)
        except UnsettledError as problem:
            ways = " ".join(f"--take {one.id}={'|'.join(one.choices)}" for one in problem.conflicts)
            raise InputError(f"nothing was taken; decide first: {ways}") from None


@handover_app.command("diff")
def handover_diff(
    one: Annotated[str, typer.Argument(metavar="A", help="A hand-over.", show_default=False)],
    other: Annotated[str, typer.Argument(metavar="B", help="Another of the same case.", show_default=False)],
) -> None:
    """Say how two hand-overs of one case differ; exit code 1 when they do."""
    from faultdoc.library.load import load_library
    from faultdoc.terminal.handover import compare, received

    try:
        same = compare(print, received(one, None), received(other, None), load_library())
    except ValueError as problem:
        raise _in_words(problem) from problem
    raise typer.Exit(0 if same else 1)


@cases_app.callback(invoke_without_command=True)
def cases(
    context: typer.Context,
    text: Annotated[str, typer.Option(help="Words to find: title, notes, remarks, journal.")] = "",
    unit: Annotated[str | None, typer.Option(help="Id of a unit.", show_default=False)] = None,
    symptom: Annotated[str | None, typer.Option(help="Id of a fault tree.", show_default=False)] = None,
    cause: Annotated[str | None, typer.Option(help="Id of the cause found.", show_default=False)] = None,
    outcome: Annotated[
        str | None, typer.Option(help="fixed, handed_over, made_safe or not_found.", show_default=False)
    ] = None,
    only_open: Annotated[
        bool | None, typer.Option("--open/--closed", help="Only these.", show_default="both")
    ] = None,
    since: Annotated[
        str | None, typer.Option(metavar="YYYY-MM-DD", help="Worked on that day or later.", show_default=False)
    ] = None,
    until: Annotated[
        str | None, typer.Option(metavar="YYYY-MM-DD", help="Begun that day or before.", show_default=False)
    ] = None,
    limit: Annotated[int, typer.Option(min=1, help="Most that are listed.")] = 200,
    as_json: AsJson = False,
) -> None:
    """Find cases, the one worked on last first."""
    if context.invoked_subcommand is not None:
        return
    from datetime import date

    from faultdoc.record.casebook import Wanted
    from faultdoc.terminal.cases import list_text, summary_data

    with _book() as book:
        first, last = (None if day is None else date.fromisoformat(day) for day in (since, until))
        found = book.cases(Wanted(text, unit, symptom, cause, outcome, only_open, first, last, limit))
    if as_json:
        _print_json({"cases": [summary_data(one) for one in found]})
    else:
        print(list_text(found, limit))


@cases_app.command("show")
def cases_show(
    case: Annotated[str, typer.Argument(help="Its number or uid.", show_default=False)],
    people: Annotated[bool, typer.Option("--people", help="With names and telephone numbers.")] = False,
    as_json: AsJson = False,
) -> None:
    """Show one case with its journal."""
    from faultdoc.terminal.cases import case_data, case_text

    with _book() as book:
        summary = book.summary(book.number(case))
        if as_json:
            _print_json(case_data(book, summary, people))
            return
        from faultdoc.library.load import load_library

        print(case_text(book, summary, load_library(), people))


@book_app.command("use")
def book_use(
    where: Annotated[
        str | None,
        typer.Argument(help="A file, a postgresql://... address, or 'usual'; says which is used if left out."),
    ] = None,
) -> None:
    """Say where the case book lies, or use another from now on."""
    from faultdoc.terminal.casebook import use

    use(print, where, _settings(None)[0])


@book_app.command("backup")
def book_backup(
    path: Annotated[Path, typer.Argument(metavar="FILE", help="File to write.", show_default=False)],
) -> None:
    """Write a copy of the whole case book into one file, wherever the book lies."""
    from faultdoc.terminal.casebook import backup

    with _book() as book:
        backup(print, book, path)


@book_app.command("restore")
def book_restore(
    path: Annotated[Path, typer.Argument(metavar="FILE", help="A back-up.", show_default=False)],
    to: Annotated[
        str | None, typer.Option(help="File or postgresql://... address.", show_default="the usual place")
    ] = None,
) -> None:
    """Make a case book of a back-up; one that is there already is left as it is."""
    from faultdoc.terminal.casebook import restore

    restore(print, path, to)


@book_app.command("export")
def book_export(
    folder: Annotated[Path, typer.Argument(help="A folder that is not there yet.", show_default=False)],
    people: Annotated[bool, typer.Option("--people", help="With names and telephone numbers.")] = False,
    case: Annotated[
        list[str] | None,
        typer.Option(help="Number or uid of a case; may be given several times.", show_default="all"),
    ] = None,
) -> None:
    """Write cases as plain files: one folder each, with journal and attachments."""
    from faultdoc.terminal.casebook import export

    with _book() as book:
        export(print, book, folder, people, [book.number(one) for one in case or []])


@book_app.command("import")
def book_import(
    folder: Annotated[Path, typer.Argument(help="Of an export, or of one case of it.", show_default=False)],
) -> None:
    """Take in the cases of an export, all or none; exit code 1 when some went on both here and there."""
    from faultdoc.terminal.casebook import import_

    with _book() as book:
        done = import_(print, book, folder)
    raise typer.Exit(1 if done.apart else 0)


@book_app.command("erase")
def book_erase(
    case: Annotated[str, typer.Argument(help="Its number or uid.", show_default=False)],
    yes: Annotated[bool, typer.Option("--yes", help="Do not ask.")] = False,
) -> None:
    """Forget the people of a case, also where they were typed into it."""
    from faultdoc.terminal.casebook import erase

    with _book() as book:
        try:
            done = erase(input, print, book, book.number(case), yes)
        except EOFError:
            done = False
    raise typer.Exit(0 if done else 1)


@app.command()
def tree(
    id: Annotated[str | None, typer.Argument(help="Id of a fault tree; all are listed if left out.")] = None,
    cut_sets: Annotated[bool, typer.Option("--cut-sets", help="List the minimal cut sets.")] = False,
    importance: Annotated[bool, typer.Option("--importance", help="Rank the events by importance.")] = False,
    sensitivity: Annotated[
        bool, typer.Option("--sensitivity", help="How far the numbers may be off before the first cause changes.")
    ] = False,
    svg: Annotated[Path | None, typer.Option(help="Draw the tree into this SVG file.", show_default=False)] = None,
    case: Annotated[
        Path | None, typer.Option(help="Show the belief in this case, and the sensitivity with its answers.")
    ] = None,
) -> None:
    """Show a fault tree: its events and causes, cut sets, importance and sensitivity."""
    from faultdoc.library.load import load_library
    from faultdoc.terminal.treeshow import cut_sets_text, importance_text, sensitivity_text, shown_tree, tree_list

    library = load_library()
    if id is None:
        print(tree_list(library))
        return
    if id not in library.trees:
        raise InputError(f"no fault tree '{id}'; there are: {', '.join(library.trees)}")
    assessment = None if case is None else _assess(case, 2)
    graph, chances = shown_tree(library, id, assessment)
    if svg is not None:
        from faultdoc.diagnosis.drawing import tree_svg
        from faultdoc.terminal.output import write_text

        write_text(tree_svg(graph, chances), svg)
        print(f"The tree is drawn in {svg}.")
    parts = []
    if cut_sets:
        parts.append(cut_sets_text(graph, library))
    if importance:
        parts.append(importance_text(graph, library))
    if sensitivity:
        parts.append(sensitivity_text(library, id, assessment))
    if not parts and svg is None:
        from faultdoc.diagnosis.drawing import tree_text

        parts.append(tree_text(graph, chances))
    print("\n\n".join(parts))


@app.command()
def compute(
    check: Annotated[
        str | None, typer.Argument(help="The check's id; --list shows them.", show_default=False)
    ] = None,
    readings: Annotated[
        list[str] | None,
        typer.Argument(metavar="NAME=VALUE", help="Readings, such as 'water_flow=72 gpm'.", show_default=False),
    ] = None,
    unit: Annotated[str, typer.Option(help="Id or path of a data sheet.")] = "bluff_30",
    listed: Annotated[bool, typer.Option("--list", help="List the checks and their readings.")] = False,
    as_json: AsJson = False,
    si: Units = None,
) -> None:
    """Make one check by hand, with its arithmetic."""
    from faultdoc.checks.base import CheckResult
    from faultdoc.terminal.compute import render, run, table
    from faultdoc.terminal.text import wrapped

    if listed:
        print(table())
        return
    if check is None:
        raise typer.BadParameter("name a check, or give --list to see them")
    system = _fixed_system(si) if as_json else _settings(si)[1]
    made = run(check, readings or [], unit, system)
    if not isinstance(made, CheckResult):
        raise InputError(render(made, system))
    if as_json:
        from faultdoc.diagnosis.explain import check_json

        _print_json(check_json(made, system))
    else:
        print(wrapped(render(made, system)))


@app.command()
def calibrate(
    tree: Annotated[
        str | None, typer.Option(help="Id of a fault tree; all if left out.", show_default=False)
    ] = None,
    draws: Annotated[int, typer.Option(min=3, help="Simulated units for each cause and data sheet.")] = 8,
    seed: Annotated[int, typer.Option(min=0, help="Seed of the draws.")] = 1,
    write: Annotated[bool, typer.Option("--write", help="Write the rows into resources/calibration.")] = False,
    score: Annotated[
        int, typer.Option(min=0, help="Play so many cases of other seeds before and after, and score them.")
    ] = 0,
) -> None:
    """Derive rows of the trees' tables from simulated units, and show how they differ from the authored ones."""
    from faultdoc.library.load import load_library
    from faultdoc.terminal.calibrate import run

    library = load_library(calibrated=False)
    if tree is not None and tree not in library.trees:
        raise InputError(f"no fault tree '{tree}'; there are: {', '.join(library.trees)}")
    try:
        run(print, library, tree=tree, draws=draws, seed=seed, write=write, score=score)
    except (OSError, ValueError) as problem:
        raise InputError(str(problem)) from problem


@app.command()
def fleet(
    unit: Annotated[str | None, typer.Option(help="Only this unit.", show_default=False)] = None,
    symptom: Annotated[
        str | None, typer.Option(help="Only this symptom (id of a tree).", show_default=False)
    ] = None,
    since: Annotated[
        str | None, typer.Option(help="Opened on this day (2026-11-25) or later.", show_default=False)
    ] = None,
    until: Annotated[str | None, typer.Option(help="Opened on this day or before.", show_default=False)] = None,
    to_csv: Annotated[
        Path | None, typer.Option("--csv", help="Write every table into this folder.", show_default=False)
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Show the fleet by its case book: open cases, what comes back, causes, minutes to the fix, first-go fixes."""
    from datetime import date

    from faultdoc.terminal.fleet import fleet_json, fleet_text, look, write_csv

    days = []
    for text, option in ((since, "--since"), (until, "--until")):
        try:
            days.append(None if text is None else date.fromisoformat(text))
        except ValueError:
            raise typer.BadParameter(f"'{text}' is no day; write it as 2026-11-25", param_hint=option) from None
    seen = look(unit, symptom, *days)
    if to_csv is not None:
        print(write_csv(seen, to_csv))
    elif as_json:
        _print_json(fleet_json(seen))
    else:
        print(fleet_text(seen))


LineIds = Annotated[
    list[str] | None,
    typer.Argument(metavar="ID...", help="Lines as 'faultdoc learn' names them, or trees.", show_default=False),
]


@learn_app.callback(invoke_without_command=True)
def learn(
    context: typer.Context,
    every: Annotated[
        bool, typer.Option("--every", help="Show lines that moved by no more than noise too.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Show what closed cases with proved causes would change, with before, after and how sure that is."""
    if context.invoked_subcommand is not None:
        return
    from faultdoc.terminal.learn import learn_json, learn_text, look

    known = look()
    if as_json:
        _print_json(learn_json(known))
    else:
        print(learn_text(known, every))


@learn_app.command("accept")
def learn_accept(
    ids: LineIds = None,
    everything: Annotated[bool, typer.Option("--all", help="All lines that moved by more than noise.")] = False,
) -> None:
    """Accept lines: from then on they stand in for the trees' own values."""
    from faultdoc.terminal.learn import accept_lines

    if not ids and not everything:
        raise typer.BadParameter("name lines or trees, or give --all", param_hint="ID...")
    print(accept_lines(ids or [], everything))


@learn_app.command("forget")
def learn_forget(
    ids: LineIds = None,
    everything: Annotated[bool, typer.Option("--all", help="All that was ever accepted.")] = False,
) -> None:
    """Forget lines that were accepted: the trees' own values hold again."""
    from faultdoc.terminal.learn import forget_lines

    if not ids and not everything:
        raise typer.BadParameter("name lines or trees, or give --all", param_hint="ID...")
    print(forget_lines(ids or [], everything))


@learn_app.command("export")
def learn_export(
    file: Annotated[Path, typer.Argument(help="File to write (YAML).", show_default=False)],
) -> None:
    """Write all that was accepted into one file for another machine: no names, no site."""
    from faultdoc.terminal.learn import export_to

    print(export_to(file))


@learn_app.command("import")
def learn_import(
    file: Annotated[Path, typer.Argument(help="A file that 'learn export' wrote.", show_default=False)],
    look: Annotated[bool, typer.Option("--look", help="Only say what would change.")] = False,
) -> None:
    """Take in what another machine's cases taught, and say what changes."""
    from faultdoc.terminal.learn import import_from

    print(import_from(file, look))


@app.command()
def menu(
    remove: Annotated[bool, typer.Option("--remove", help="Take it out of the menu again.")] = False,
) -> None:
    """Put FaultDoc into the menu of this desktop, with its icon (Linux)."""
    from faultdoc.app.menu import add_entry, remove_entry

    try:
        if remove:
            print("FaultDoc is out of the menu." if remove_entry() else "FaultDoc was not in the menu.")
        else:
            print(f"FaultDoc is in the menu: {add_entry()}")
    except OSError as problem:
        raise InputError(f"the menu entry could not be changed: {problem}") from None


@app.command()
def demo(
    output: Annotated[Path, typer.Option("-o", "--output", help="File of the report, .html or .pdf.")] = Path(
        "faultdoc-demo-report.html"
    ),
    si: Units = None,
) -> None:
    """Play a case from the first question to the proved fix, without anyone at the keys."""
    from faultdoc.record.printing import full_report
    from faultdoc.terminal.demo import play, shipped
    from faultdoc.terminal.output import write_report

    library, case, script = shipped()
    system = _settings(si)[1]
    session, entries = play(library, case, script, system, print)
    write_report(full_report(session.assessment, system, entries, case), output)
    print(f"The report is written to {output}.")


@app.command()
def evaluate(
    cases: Annotated[int, typer.Option(min=1, help="How many hidden cases are played.")] = 100,
    seed: Annotated[int, typer.Option(min=0, help="Of the first case; the others follow it.")] = 0,
    tree: Annotated[
        str | None, typer.Option(help="Id of a fault tree; any if left out.", show_default=False)
    ] = None,
    faults: Annotated[int, typer.Option(min=1, max=2, help="Hidden faults at once.")] = 1,
    processes: Annotated[
        int | None, typer.Option(min=1, help="How many are played at once.", show_default="all processors")
    ] = None,
    save: Annotated[
        Path | None, typer.Option(help="Write the lost cases into this folder.", show_default=False)
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Play hidden faults on simulated units, and score what the engine makes of them."""
    from contextlib import nullcontext

    from faultdoc.terminal import evaluate as evaluation

    shown = not as_json and sys.stderr.isatty()
    bar = typer.progressbar(length=cases, label="Cases played", file=sys.stderr) if shown else nullcontext()
    with bar as playing:
        try:
            found = evaluation.evaluate(
                cases,
                seed,
                tree=tree,
                faults=faults,
                processes=processes,
                progress=None if playing is None else lambda _: playing.update(1),
            )
        except evaluation.EvaluateError as problem:
            raise _in_words(problem) from problem
    files = None if save is None else evaluation.save_lost(found, save)
    if as_json:
        _print_json(evaluation.as_json(found, files))
    else:
        print(evaluation.evaluation_text(found, files))


@app.command()
def practice(
    scenario: Annotated[
        str | None,
        typer.Argument(help="Id of a scenario or a file; what fits next if left out.", show_default=False),
    ] = None,
    level: Annotated[int | None, typer.Option(min=1, max=3, help="Level, 1 to 3.", show_default=False)] = None,
    random: Annotated[
        int | None, typer.Option(min=0, metavar="SEED", help="A scenario nobody wrote.", show_default=False)
    ] = None,
    listed: Annotated[bool, typer.Option("--list", help="List the scenarios.")] = False,
    trainee: Annotated[str | None, typer.Option(help="Whose progress is kept.", show_default=False)] = None,
    sheet: Annotated[
        Path | None, typer.Option(help="Write the result sheet: .txt, .html or .pdf.", show_default=False)
    ] = None,
    write: Annotated[
        Path | None, typer.Option(help="Write a scenario set by hand to this file.", show_default=False)
    ] = None,
    unit: Annotated[str | None, typer.Option(help="Of a scenario set by hand.", show_default=False)] = None,
    tree: Annotated[str | None, typer.Option(help="Of a scenario set by hand.", show_default=False)] = None,
    fault: Annotated[
        list[str] | None,
        typer.Option(
            metavar="CAUSE=SEVERITY", help="Hidden fault, 0 to 1; may be given twice.", show_default=False
        ),
    ] = None,
    briefing: Annotated[str, typer.Option(help="What the trainee is told, set by hand.", show_default=False)] = "",
    si: Units = None,
) -> None:
    """Practise on a live simulated unit with a hidden fault, in this terminal."""
    from faultdoc.library.load import load_library
    from faultdoc.practice.progress import ProgressError, load_progress
    from faultdoc.practice.scenario import save_scenario
    from faultdoc.terminal import practice as practising

    by_hand = bool(unit or tree or fault)
    if by_hand and (scenario is not None or random is not None):
        raise typer.BadParameter("a fault set by hand is a scenario of its own: name no other one with it")
    if write is not None and not by_hand and random is None:
        raise typer.BadParameter("give --unit, --tree and --fault, or --random, with it", param_hint="--write")
    try:
        progress = load_progress(trainee) if trainee else None
        if listed:
            print(practising.list_text(progress))
            return
        if by_hand:
            hidden = _set_by_hand(unit, tree, fault or [], level, briefing, write)
        else:
            hidden = practising.chosen(scenario, level, random, progress)
        if write is not None:
            try:
                save_scenario(hidden, write)
            except OSError as problem:
                raise InputError(f"{write} cannot be written: {problem.strerror}") from None
            print(f"The scenario is written to {write}; play it with: faultdoc practice {write}")
            return
        settings, system = _settings(si)
        chosen_units = settings.model_copy(update={"system": system})
        practising.run(input, print, hidden, load_library(learned=False), chosen_units, trainee, sheet)
    except ProgressError as problem:
        raise InputError(str(problem)) from None
    except (KeyError, ValueError) as problem:
        raise _in_words(problem) from problem


def _set_by_hand(
    unit: str | None, tree: str | None, faults: list[str], level: int | None, briefing: str, path: Path | None
) -> Scenario:
    """Return the scenario that an instructor has set by hand."""
    import re

    from faultdoc.practice.scenario import by_hand

    if unit is None or tree is None or not faults:
        raise typer.BadParameter("a scenario set by hand needs --unit, --tree and at least one --fault")
    severities = {}
    for one in faults:
        cause, _, severity = one.partition("=")
        try:
            severities[cause.strip()] = float(severity)
        except ValueError:
            raise typer.BadParameter(f"'{one}' is not CAUSE=SEVERITY, such as strainer_clogged=0.8") from None
    stem = "" if path is None else re.sub(r"[^a-z0-9]+", "_", path.stem.lower()).strip("_")
    id = stem[:64] if re.match(r"[a-z].", stem) else "by_hand"
    return by_hand(unit, tree, severities, id=id, level=2 if level is None else level, briefing=briefing)


def _library() -> Library:
    """Return the library; what had to be passed over of what was learned is told on standard error."""
    from faultdoc.library.load import load_library

    library = load_library()
    for problem in library.left_out:
        print(f"faultdoc: passed over: {problem}", file=sys.stderr)
    return library


def _assess(path: Path, size: int) -> Assessment:
    from faultdoc.diagnosis.assess import assess, bench_for
    from faultdoc.library.load import load_case, load_unit

    library = _library()
    case = load_case(path, library)
    try:
        return assess(bench_for(library, load_unit(case.unit), case.symptoms, size), case)
    except (KeyError, ValueError) as problem:
        raise _in_words(problem) from problem


@contextmanager
def _book() -> Iterator[CaseBook]:
    """Give the case book, and let go of it; what cannot be worked with is told in words."""
    from faultdoc.record.casebook import CaseBook

    book = CaseBook.open()
    try:
        yield book
    except (KeyError, ValueError) as problem:
        raise _in_words(problem) from problem
    finally:
        book.dispose()


def _in_words(problem: KeyError | ValueError) -> Exception:
    """Return a problem of the input as one that is told; the file's own problems tell themselves."""
    if isinstance(problem, _input_problems()):
        return problem
    return InputError(str(problem.args[0]) if problem.args else str(problem))


def _is_sheet(path: Path) -> bool:
    """Say whether a path is that of a data sheet, or the id of one."""
    from faultdoc.library.load import units
    from faultdoc.library.problems import FileProblems
    from faultdoc.library.source import read

    if not path.exists():
        return str(path) in units()
    if not path.is_file():
        return False
    try:
        source = read(path)
        return source.get(("causes",)) is None and any(source.get((key,)) for key in ("compressors", "electrical"))
    except FileProblems:
        return False


def _settings(si: bool | None) -> tuple[Settings, System]:
    """Return the settings, and the units wished for or, where none are, last chosen."""
    from faultdoc.quantities import System
    from faultdoc.record.settings import Settings

    settings = Settings.load()
    return settings, settings.system if si is None else System.SI if si else System.US


def _fixed_system(si: bool | None) -> System:
    """Return the units of machine-readable output: the same for everyone, unless told."""
    from faultdoc.quantities import System

    return System.SI if si else System.US


def _people(names: list[str]) -> tuple[Qualification, ...]:
    from faultdoc.model.safety import Qualification

    known = [one.value for one in Qualification]
    if wrong := [name for name in names if name not in known]:
        raise typer.BadParameter(f"'{wrong[0]}' is not one of {', '.join(known)}", param_hint="--who")
    return tuple(dict.fromkeys(Qualification(name) for name in names))


def _check_facts() -> Mapping[str, CheckFacts]:
    """Return what the checks want, as the lint of trees must know it."""
    from faultdoc.checks.all import registry
    from faultdoc.checks.base import Need
    from faultdoc.library.lint import CheckFacts

    def ways(need: Need) -> frozenset[frozenset[str]]:
        return frozenset({frozenset({need.name}), *([frozenset(need.instead)] if need.instead else [])})

    facts = {}
    for id, check in registry.items():
        read = [need for need in check.needs if not need.name.startswith("sheet.")]
        wanted = tuple(ways(need) for need in read if need.default is None)
        spare = frozenset[str]().union(*(way for need in read if need.default for way in ways(need)))
        facts[id] = CheckFacts(required=wanted, optional=spare)
    return facts


def _print_json(data: Any) -> None:
    import json

    print(json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False))


if __name__ == "__main__":
    main()
