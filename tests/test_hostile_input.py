"""Hostile and broken input through the command line: told in a line, nothing executed, nothing hangs, nothing leaks.

What counts as hostile follows lists of the trade: the YAML and JSON entries of the OWASP Testing Guide (alias
expansion, deep nesting, tags that build objects) and terminal escapes (ECMA-48 control functions). No source but common
practice for the rest.
"""

from __future__ import annotations

import contextlib
import io
import json
import os
import shutil
import sys
from dataclasses import dataclass
from pathlib import Path

import pytest
import yaml

from analog.api import Library
from analog.locate import corpus_folder, index_folder
from analog.model.quantity import convert, is_unit

DUST = "remove dust from solar panels"
ESCAPE = "\x1b"
HOSTILE_TITLE = f"Tongue {ESCAPE}[31m<script>alert(1)</script> *b* \x07 \u202e \x9b0m {{{{7*7}}}}"


@dataclass(frozen=True)
class Ran:
    """What a call gave."""

    status: int
    out: str
    err: str


def call(*arguments: str, encoding: str = "utf-8") -> Ran:
    """`analog` in this process, with a standard output of the given encoding."""
    from analog.cli.main import run

    out, err = io.TextIOWrapper(io.BytesIO(), encoding), io.StringIO()
    before, sys.argv = sys.argv, ["analog", *arguments]
    status = 0
    try:
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
            run()
    except SystemExit as stop:
        status = stop.code if isinstance(stop.code, int) else int(stop.code is not None)
    finally:
        sys.argv = before
    out.flush()
    return Ran(status, out.buffer.getvalue().decode(encoding), err.getvalue())  # type: ignore[attr-defined]


def strict_json(text: str) -> object:
    """JSON as RFC 8259 has it: NaN and Infinity are no JSON."""

    def refuse(word: str) -> None:
        raise AssertionError(f"{word} is no JSON")

    return json.loads(text, parse_constant=refuse)


def is_told(ran: Ran, status: int = 1) -> bool:
    """One fault, told on standard error only, without a traceback or a character that steers a terminal."""
    return (
        ran.status == status
        and ran.out == ""
        and ran.err.startswith("analog: ")
        and len(ran.err) < 20_000
        and all(c.isprintable() or c == "\n" for c in ran.err)
    )


# Units -------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    [
        *("((", "m)", "m**", "*", "/", "//", "m**(1/0)", "m/0", "1/0", "\x00", "'m'", "[length]", "", " ", "3 m"),
        *("m**9**9**9", "m^(9^9^9)", "1/9**9**9", "9" * 5000, "m²²²²²²²²", "(" * 3000, "m" + "*m" * 5000),
        *("__import__('os')", "lambda: 0", "m;s", "m\u202es"),
    ],
)
def test_what_is_no_unit_is_said_to_be_none(text: str) -> None:
    """Brackets that do not pair, powers of powers that would be computed for ever, program text."""
    assert not is_unit(text)
    with pytest.raises(ValueError, match="cannot convert"):
        convert(1.0, text, "m")


@pytest.mark.parametrize(
    "text", ["m", "1/s", "kg/m**3", "W/(m*K)", "Pa**0.5", "m**-2", "m^-2", "m²", "N·m", "degC", "%", "kg/(m**2*s)"]
)
def test_ordinary_units_pass(text: str) -> None:
    """The spellings of SI units in NIST SP 811 and in the corpus."""
    assert is_unit(text)


# Sentences and conditions ------------------------------------------------------------------------------------------

SENTENCES = {
    "control characters": "\x01\x02\x1b[31m",
    "emoji": "🧹 🌞 🪟",
    "Chinese": "清除太阳能板上的灰尘",
    "Arabic, right to left": "\u202eإزالة الغبار من الألواح الشمسية",
    "only joints": "and " * 4900,
    "only articles": "a " * 9000,
    "only places": "from " * 3900,
    "one long word": "a" * 19_990,
    "brackets": "(" * 15_000,
    "digits": "9" * 19_990,
    "template": "{{7*7}} {% for %}",
    "100 kB": "remove dust " * 9000,
}


@pytest.mark.parametrize("name", SENTENCES)
def test_a_sentence_without_a_purpose_is_told(library: Library, name: str) -> None:
    """In the time of its length: a quadratic reader would need minutes for some of these."""
    assert is_told(call("search", "--", SENTENCES[name]))


@pytest.mark.parametrize(
    "text",
    [
        f"remove {ESCAPE}[31mdust{ESCAPE}[0m from {ESCAPE}]0;x\x07panels",
        "remove\x00dust",
        "<script>alert(1)</script> remove <b>dust</b>",
        "# remove **dust** [x](http://a) `from` panels",
        "remove \udc80dust",
    ],
)
def test_marks_around_a_purpose_do_no_harm(library: Library, text: str) -> None:
    """The purpose is read, or said to be unreadable; no character that steers a terminal comes out either way."""
    for arguments in (("search", text, "--top", "1"), ("search", DUST, "--top", "1", "--given", text)):
        ran = call(*arguments)
        assert is_told(ran) or (ran.status == 0 and all(c.isprintable() or c == "\n" for c in ran.out))
    assert ESCAPE not in call("link", text, "dust").out


@pytest.mark.parametrize("text", ["", "   ", "1e999 mm", "size NaN mm", "size 5 m**9**9**9", "x" * 100_000])
def test_a_senseless_condition_is_told_or_kept_as_a_note(library: Library, text: str) -> None:
    ran = call("search", DUST, "--top", "1", "--json", "--given", text)
    if ran.status == 0:
        record = strict_json(ran.out)
        assert isinstance(record, dict) and record["problem"]["given"] == [text]
    else:
        assert is_told(ran)


# Problem files -----------------------------------------------------------------------------------------------------

PROBLEMS: dict[str, bytes] = {
    "empty": b"",
    "zero bytes": b"text: a\0b",
    "UTF-16": "text: remove dust".encode("utf-16"),
    "Latin-1": "text: remove é dust".encode("latin-1"),
    "duplicate key": b"text: a\ntext: b",
    "aliases": b"a: &a [x,x]\nb: &b [*a,*a]\ntext: [*b,*b]",
    "tag": b"text: !!python/object/apply:os.system ['touch hacked']",
    "merge": b"<<: {text: remove dust}",
    "deep": b"text: " + b"[" * 10_000,
    "number as text": b"text: 5",
    "10,000 digits": b"text: remove dust\ngiven: [" + b"9" * 10_000 + b"]",
    "not finite": b"text: remove dust\nconditions: [{type: range, quantity: size, low: 1e999, unit: m}]",
    "list": b"[a]",
    "list as a key": b"? [a]\n: b",
    "escape": b"text: remove \x1b dust",
    "half a character": b'text: "remove \\ud800 dust"',
    "list as an object": b"purposes: [{verb: separate, object: [1]}]",
    "mapping as an object": b"purposes: [{verb: separate, object: {}}]",
    "number as a place": b"purposes: [{verb: separate, object: dust, where: 5}]",
    "list as a kind": b"text: remove dust\nthings: [{id: dust, kind: []}]",
    "brackets": b"text: remove dust\ninitial: ['a(((']",
    "mapping as a list": b"text: remove dust\ngiven: {a: b}",
    "3000 conditions": b"text: remove dust\ngiven: [" + b"dry," * 3000 + b"]",
    "two documents": b"text: remove dust\n---\ntext: x\n",
    "2 MB": b"text: remove dust\nnotes: ['" + b"y" * 2_000_000 + b"']",
}


@pytest.mark.parametrize("name", PROBLEMS)
def test_a_wrong_problem_file_is_told_with_its_name(library: Library, tmp_path: Path, name: str) -> None:
    path = tmp_path / "problem.yaml"
    path.write_bytes(PROBLEMS[name])
    ran = call("search", "--problem", str(path))
    assert is_told(ran)
    assert str(path) in ran.err
    assert not Path("hacked").exists()


@pytest.mark.parametrize(
    "raw", [b"\xef\xbb\xbftext: remove dust", b"text: remove dust\r\ngiven:\r\n- no water available\r\n"]
)
def test_files_from_windows_are_read(library: Library, tmp_path: Path, raw: bytes) -> None:
    """A byte order mark and carriage returns."""
    path = tmp_path / "problem.yaml"
    path.write_bytes(raw)
    assert call("search", "--problem", str(path), "--top", "1").status == 0


@pytest.mark.parametrize("place", ["/", "/dev/zero"])
def test_a_folder_or_an_endless_file_is_told(library: Library, place: str) -> None:
    if not Path(place).exists():
        pytest.skip("no such thing on this system")
    for option in ("--problem", "--batch"):
        assert is_told(call("search", option, place))


def test_every_wrong_line_of_a_batch_is_told_and_the_others_answered(library: Library, tmp_path: Path) -> None:
    wrong = [
        *(b'{"id":NaN,"text":"remove dust"}', b'{"id":1e999,"text":"remove dust"}', b'{"id":{},"text":"remove dust"}'),
        *(b'{"text":5}', b"[]", b'"x"', b'{"text":"remove dust","given":"x"}', b'{"text":"remove dust","given":[5]}'),
        *(b"\xff\xfe", b"[" * 100_000, b'{"id":' + b"9" * 10_000 + b',"text":"remove dust"}', b"\x00", b'{"text":""}'),
    ]
    right = [
        b'\xef\xbb\xbf{"id":"first","text":"remove dust"}',
        b'{"id":"\\u001b[31m","text":"remove dust"}',
        b'{"id":"\\ud800","text":"remove \\ud800dust"}\r',
        b'{"id":"last","text":"remove dust"}',
    ]
    path = tmp_path / "batch.jsonl"
    path.write_bytes(b"\n".join([right[0], b"", *wrong[:6], right[1], right[2], *wrong[6:], right[3]]))
    ran = call("search", "--batch", str(path), "--top", "1")
    assert ran.status == 1
    answered = [strict_json(line) for line in ran.out.splitlines()]
    assert [record["id"] for record in answered] == ["first", "\x1b[31m", "\ud800", "last"]  # type: ignore[index]
    assert ran.err.count(f"{path}:") == len(wrong)
    assert ESCAPE not in ran.out and "Traceback" not in ran.err


# Relation lists ----------------------------------------------------------------------------------------------------

GOOD_LIST = '["cause(pulls(x, y), moves(y, x))"]'

LISTS: dict[str, bytes] = {
    "empty": b"",
    "zero bytes": b"\0\0",
    "UTF-16": GOOD_LIST.encode("utf-16"),
    "Latin-1": '["a(é,b)"]'.encode("latin-1"),
    "null": b"null",
    "NaN": b"[NaN]",
    "Infinity": b'{"facts":[Infinity]}',
    "deep": b"[" * 100_000,
    "deep fact": b'["' + b"a(" * 3000 + b"x" + b")" * 3000 + b'"]',
    "10,000 digits": b"[" + b"9" * 10_000 + b"]",
    "text for a list": b'{"facts":"a(b)"}',
    "mapping in the list": b'{"facts":[{"a":1}]}',
    "open bracket": b'["a(b"]',
    "20,000 facts": json.dumps([f"r(a{i},b{i})" for i in range(20_000)]).encode(),
    "5000 arguments": json.dumps([f"r({','.join(f'a{i}' for i in range(5000))})"]).encode(),
}


@pytest.mark.parametrize("name", LISTS)
def test_a_wrong_relation_list_is_told_with_its_name(tmp_path: Path, name: str) -> None:
    wrong, good = tmp_path / "wrong.json", tmp_path / "good.json"
    wrong.write_bytes(LISTS[name])
    good.write_text(GOOD_LIST)
    for pair in ((wrong, good), (good, wrong)):
        ran = call("align", *map(str, pair))
        assert is_told(ran)
        assert str(wrong) in ran.err


# Model files -------------------------------------------------------------------------------------------------------


def pattern() -> dict[str, object]:
    """A shipped model that stands by itself."""
    path = corpus_folder() / "grooming" / "cat-tongue-papillae.yaml"
    return dict(yaml.safe_load(path.read_text("utf-8")))


@pytest.mark.parametrize(
    "raw",
    [b"", b"\xff", b"id: a\0b", b"a: &a [x]\nb: *a", b"id: !!python/name:os.system", b"id: [" * 10_000, b"[" * 900_000]
    + [f"id: {value}".encode() for value in ("5", ".nan", "1e999", "9" * 10_000, "[]", "{}", "x" * 900_000, "~")],
)
def test_a_wrong_model_is_a_finding_and_not_a_fault_of_the_program(tmp_path: Path, raw: bytes) -> None:
    from analog.model.load import load_corpus

    (tmp_path / "wrong.yaml").write_bytes(raw)
    loaded = load_corpus(tmp_path)
    assert loaded.models == ()
    assert loaded.findings
    assert all(finding.file == str(tmp_path / "wrong.yaml") for finding in loaded.findings)
    strict_json(json.dumps([finding.to_dict() for finding in loaded.findings]))


def test_every_field_survives_every_wrong_value(tmp_path: Path) -> None:
    """Each field of a shipped model in turn gets each kind of wrong value: findings or a sound model, no exception."""
    from analog.model.check import check_corpus
    from analog.model.findings import KnownTerms
    from analog.model.load import load_corpus

    wrong = [
        None,
        True,
        -1,
        [],
        {},
        "",
        f"a{ESCAPE}[31m",
        "((",
        "f(a,",
        float("nan"),
        float("inf"),
        10**400,
        [[]],
        [None],
    ]
    terms = KnownTerms(frozenset(), frozenset(), frozenset(), frozenset(), frozenset(), lambda a, b: 0.0)
    for field in pattern():
        for number, value in enumerate(wrong):
            path = tmp_path / f"{field}-{number}.yaml"
            path.write_text(json.dumps(pattern() | {field: value}))
            loaded = load_corpus(path)
            assert loaded.models or loaded.findings
            check_corpus(loaded, terms)


@pytest.fixture(scope="module")
def hostile(library: Library, tmp_path_factory: pytest.TempPathFactory) -> tuple[str, ...]:
    """A corpus of a model with a hostile title, a sound one, and all that may stand beside; with its index.

    The vocabulary and the encoder are taken over from the shipped index, which is linked and not copied.
    """
    folder = tmp_path_factory.mktemp("hostile")
    corpus, index = folder / "corpus", folder / "index"
    corpus.mkdir()
    (corpus / "cat-tongue-papillae.yaml").write_text(json.dumps(pattern() | {"title": HOSTILE_TITLE}))
    (corpus / "sound-tongue.yaml").write_text(json.dumps(pattern() | {"id": "sound-tongue"}))
    (corpus / "broken.yaml").write_text("format: [")
    (corpus / "folder.yaml").mkdir()
    (corpus / "nowhere.yaml").symlink_to(folder / "nothing")
    (corpus / "itself.yaml").symlink_to(corpus / "itself.yaml")
    if hasattr(os, "mkfifo"):
        os.mkfifo(corpus / "pipe.yaml")
    shutil.copytree(index_folder(), index, copy_function=_link)
    return "--corpus", str(corpus), "--index", str(index)


def _link(source: str, target: str) -> None:
    try:
        os.link(source, target)
    except OSError:
        shutil.copyfile(source, target)


def test_a_broken_file_pipes_and_dead_links_cost_no_other_model(hostile: tuple[str, ...]) -> None:
    """A pipe would be read for ever; the broken file is named."""
    ran = call("build", *hostile)
    assert ran.status == 1
    assert "2 models" in ran.out and "1 files left out" in ran.out
    assert "broken.yaml" in ran.err and "Traceback" not in ran.err
    checked = call("check", *hostile[:2], "--json")
    record = strict_json(checked.out)
    assert isinstance(record, dict)
    assert {Path(f["file"]).name for f in record["findings"] if f["rule"] == "format"} == {"broken.yaml"}


def test_no_escape_of_a_title_reaches_the_terminal(hostile: tuple[str, ...]) -> None:
    problem = ("--problem", DUST)
    for arguments in (
        ("search", DUST),
        ("explain", "cat-tongue-papillae", *problem),
        ("show", "cat-tongue-papillae"),
        ("compare", "cat-tongue-papillae", "sound-tongue", *problem),
    ):
        text, data = call(*arguments, *hostile), call(*arguments, *hostile, "--json")
        assert text.status == data.status == 0, text.err + data.err
        for ran in (text, data):
            assert all(c.isprintable() or c == "\n" for c in ran.out + ran.err), arguments
        strict_json(data.out)
        if arguments[0] == "show":
            assert strict_json(data.out)["title"] == HOSTILE_TITLE  # type: ignore[index]


def test_no_mark_of_a_title_works_in_a_brief(hostile: tuple[str, ...], tmp_path: Path) -> None:
    for ending in ("md", "html", "json"):
        path = tmp_path / f"brief.{ending}"
        ran = call("brief", "cat-tongue-papillae", "--problem", DUST, "-o", str(path), *hostile)
        assert ran.status == 0, ran.err
        text = path.read_text("utf-8")
        assert "Tongue" in text and "49" not in text.split("Tongue", 1)[1][:60]
        assert ending == "json" or "<script>alert" not in text
        assert ESCAPE not in text


# Names, places and endings -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["nope", f"{ESCAPE}[31m", "../../etc/passwd", "\x00", "a-" * 20_000, "{{7*7}}", "%s"])
def test_unknown_names_are_told(library: Library, name: str, tmp_path: Path) -> None:
    out = str(tmp_path / "x.md")
    for arguments in (
        ("show", name),
        ("explain", name, "--problem", DUST),
        ("compare", name, "cat-tongue-papillae"),
        ("brief", name, "--problem", DUST, "-o", out),
        ("scale", name),
    ):
        assert is_told(call(*arguments)), arguments
    assert not Path(out).exists()


def test_a_brief_is_written_nowhere_but_into_a_new_file(library: Library, tmp_path: Path) -> None:
    def brief(path: Path, *more: str) -> Ran:
        return call("brief", "cat-tongue-papillae", "--problem", DUST, "-o", str(path), *more)

    folder, kept = tmp_path / "folder.md", tmp_path / "kept.md"
    folder.mkdir()
    kept.write_text("kept")
    for path in (folder, kept, tmp_path / "none" / "x.md", tmp_path / "x", tmp_path / "x.exe"):
        assert is_told(brief(path), 2), path
    assert is_told(brief(folder, "--overwrite"), 2)
    assert kept.read_text() == "kept"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["folder.md", "kept.md"]
    assert brief(kept, "--overwrite").status == 0
    assert kept.read_text("utf-8").startswith("#")


def test_a_full_disk_leaves_no_half_brief(library: Library, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = os.fdopen

    def full(*arguments: object, **options: object) -> object:
        file = real(*arguments, **options)  # type: ignore[call-overload]
        file.write = lambda text: (_ for _ in ()).throw(OSError(28, "No space left on device"))
        return file

    monkeypatch.setattr("analog.files.os.fdopen", full)
    ran = call("brief", "cat-tongue-papillae", "--problem", DUST, "-o", str(tmp_path / "x.md"))
    assert is_told(ran)
    assert "No space left" in ran.err
    assert list(tmp_path.iterdir()) == []


def test_a_corpus_that_is_missing_or_a_file_is_a_wrong_call(library: Library, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    for place in (tmp_path / "none", tmp_path / "file"):
        assert is_told(call("search", DUST, "--corpus", str(place)), 2)
    assert is_told(call("search", DUST, "--index", str(tmp_path / "file")), 2)


def test_check_outside_the_current_folder_names_files_as_they_can_be_opened(tmp_path: Path) -> None:
    path = tmp_path / "elsewhere" / "bad.yaml"
    path.parent.mkdir()
    path.write_text("format: 1\nid: bad\n")
    ran = call("check", str(path), "--json")
    record = strict_json(ran.out)
    assert isinstance(record, dict)
    assert ran.status == 1
    assert all(Path(finding["file"]).is_file() for finding in record["findings"])


def test_all_models_at_once_are_valid_json(library: Library) -> None:
    record = strict_json(call("search", DUST, "--top", "1000", "--json").out)
    assert isinstance(record, dict)
    assert len(record["results"]) == len(library.ids)
    assert call("search", DUST, "--top", "1001").status == 2


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "utf-8"])
def test_json_is_valid_in_every_encoding(library: Library, encoding: str) -> None:
    """Characters the locale lacks are written as the escapes of RFC 8259, section 7, and mean the same."""
    whole = strict_json(call("show", "lotus-leaf-rolling-drops", "--json").out)
    assert strict_json(call("show", "lotus-leaf-rolling-drops", "--json", encoding=encoding).out) == whole
    text = call("search", DUST, "--top", "2", encoding=encoding)
    assert text.status == 0 and "1. " in text.out


@pytest.mark.parametrize("columns", ["0", "20", "40", "80", "200", "many"])
def test_lines_keep_to_the_width_of_the_terminal(
    library: Library, monkeypatch: pytest.MonkeyPatch, columns: str
) -> None:
    """Between 40 and 100 columns; a name that is longer than the line is broken."""
    monkeypatch.setenv("COLUMNS", columns)
    wide = {"20": 40, "40": 40, "200": 100}.get(columns, 80)
    for arguments in (("search", DUST, "--top", "5"), ("explain", "cat-tongue-papillae", "--problem", DUST)):
        lines = call(*arguments).out.splitlines()
        assert max(map(len, lines)) <= wide


def test_nothing_is_coloured(library: Library, monkeypatch: pytest.MonkeyPatch) -> None:
    """Not even when colour is asked for: the marks are words and plain characters."""
    for name, value in (("FORCE_COLOR", "1"), ("CLICOLOR_FORCE", "1"), ("TERM", "xterm-256color")):
        monkeypatch.setenv(name, value)
    for arguments in (("search", DUST, "--top", "1"), ("search", "--help"), ("fly",), ("schema",)):
        ran = call(*arguments)
        assert ESCAPE not in ran.out + ran.err
