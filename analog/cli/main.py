"""The entry point `analog`: one command a file, errors told in one line each."""

from __future__ import annotations

import sys

import typer

from analog.cli import align, bench, brief, build, check, compare, explain, link, scale, schema, search, show
from analog.cli.output import ReaderGone, close_quietly, data, progress, tolerate_streams
from analog.errors import AnalogError

app = typer.Typer(
    add_completion=False,
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    help="Find natural systems that already do what you need, and see step by step what carries over.",
)

for command in (search, explain, brief, show, compare, link, align, scale, check, build, bench, schema):
    command.register(app)


def version_wanted(value: bool) -> None:
    """Print the version and stop."""
    if value:
        from analog import __version__

        data(f"analog {__version__}")
        raise typer.Exit


@app.callback()
def main(
    version: bool = typer.Option(False, "--version", callback=version_wanted, is_eager=True, help="Print the version."),
) -> None:
    """Find natural systems that already do what you need, and see step by step what carries over."""


def run() -> None:
    """Run the command line. Exit 0 done, 1 the input has faults, 2 usage; never a traceback for bad input."""
    tolerate_streams()
    stream = sys.stdout
    try:
        try:
            app()
        except SystemExit:  # what is still held back must go out here, where a closed pipe can be told
            if sys.stdout is not stream:  # typer puts another in place when its own help meets a closed pipe
                raise ReaderGone from None
            sys.stdout.flush()
            raise
        sys.stdout.flush()
    except AnalogError as error:
        progress(f"analog: {error}")
        sys.exit(error.exit_status)
    except (BrokenPipeError, ReaderGone):
        close_quietly()
        sys.exit(0)
    except KeyboardInterrupt:
        progress("analog: interrupted")
        sys.exit(130)
    except OSError as error:
        name = f" {error.filename}" if error.filename else ""
        progress(f"analog: cannot read or write{name}: {error.strerror or error}")
        try:
            sys.stdout.flush()
        except OSError:  # the fault was that of the output itself: without this it would be told again at the end
            close_quietly()
        sys.exit(1)
