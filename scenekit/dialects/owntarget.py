"""Makes a dialect and a machine of one's own out of answers, as TOML."""

from collections.abc import Mapping
from typing import Any

from scenekit.dialects.answers import Answers, Question, asked, questions
from scenekit.dialects.dialect import read_dialect
from scenekit.dialects.samples import NAMES, SIGNS, merged, to_spelling
from scenekit.dialects.spellings import ANYWHERE, CONSTANTS, STATEMENTS
from scenekit.errors import DialectError
from scenekit.machines.abilities import FLIPS
from scenekit.machines.modes import load_timing
from scenekit.routines.words import WORDS

Tables = dict[str, Any]
SUMS = {sign: f"{{a}} {sign} {{b}}" for sign in ("+", "-", "*", "<", "<=", ">", ">=")}
PLAIN_SIGNAL = "vga-640x480-60"
PRINTED_SCREEN = (320, 200)
"""What scene arithmetic is reckoned for where nothing is drawn."""
ARRANGED = ("names", "limits", "statements", "operators", "words", "run", "transfer")


def dialect_tables(answers: Mapping[str, str], name: str, like: Tables | None = None) -> Tables:
    """Return the tables of a dialect file.

    answers  key of a question -> answer; what is not answered stays as in `like`, or is left out
    raises   DialectError: an answer that does not say what it must; ProjectError, of the whole
    """
    given = Answers(answers)
    tables: Tables = {
        key: dict(value) if isinstance(value, dict) else value for key, value in (like or {}).items()
    }
    for part in ARRANGED:
        tables.setdefault(part, {})
    if like is None:
        tables["operators"].update(SUMS)
    for question in questions():
        text = given.get(question.key)
        if question.to and text and (like is not None or asked(question, answers)):
            section, key = question.to.split(".", 1)
            tables[section][key] = _spelling(question, text, given)
    _facts(tables, given, like is None, name)
    _names(tables, given, like is None)
    _shared_words(tables, given, like is None)
    _run(tables, given)
    read_dialect(tables, name)
    return {key: value for key, value in tables.items() if value != {}}


def _spelling(question: Question, text: str, given: Answers) -> str:
    section, _, key = question.to.partition(".")
    if section == "words":
        allowed: tuple[str, ...] = (*WORDS[key].parameters, *CONSTANTS)
    elif section == "statements":
        allowed = (*STATEMENTS[key], *ANYWHERE)
    else:
        allowed = ("a", "b")
    where = f"answer {question.key}"
    if "\n" in text and not question.several:
        raise DialectError(
            f"{where}: got {text[:40]!r}, several lines; must be one line: put the sign "
            "between its statements that your BASIC has for that, such as a colon"
        )
    return to_spelling(where, text, question.samples, question.needs, allowed, given.screen())


def _facts(tables: Tables, given: Answers, new: bool, name: str) -> None:
    """Set what is no spelling; without another dialect to start from, every fact gets a value."""
    tables.setdefault("summary", f"answers about {name}")
    if new or given.get("file_ending"):
        tables["file_ending"] = given.get("file_ending", ".bas")
    flags = {"line_numbers": "numbered", "loop_once": "loops_once", "first": "definitions_first"}
    for key, fact in flags.items():
        if new or given.get(key):
            tables[fact] = given.flag(key, key == "loop_once")
    if new or given.get("element_bytes"):
        tables["element_bytes"] = given.whole("element_bytes", 1, 64, 4)
    if new:
        tables["blocks"] = bool(given.get("while"))
        tables["procedures"] = bool(given.get("routine"))
        tables["statements"].setdefault("end", given.get("end"))
        if tables["procedures"]:
            tables["statements"].setdefault("local", "")
    if given.get("image_format"):
        tables["image_formats"] = [given.choice("image_format", ("bmp", "png"), "bmp"), "raw"]
    elif new:
        tables["image_formats"] = ["raw"]
    if new or given.get("line_length"):
        tables["limits"]["line_length"] = given.whole("line_length", 20, 1_000_000)
    if new or given.get("largest_number"):
        tables["limits"]["integer_high"] = given.whole("largest_number", 255, 1 << 39)


def _names(tables: Tables, given: Answers, new: bool) -> None:
    """Read the marks of variables and arrays off the answers that name some."""
    names = tables["names"]
    if new or given.get("short_names"):
        names["style"] = "short" if given.flag("short_names", False) else "long"
    for key, answer, word in (("scalar", "variable", "total"), ("array", "array", "list")):
        found = _marks(given.get(answer), word)
        if found:
            names[key] = found
    if given.get("underscore"):
        names["underscore"] = {"nothing": ""}.get(given.get("underscore"), given.get("underscore"))
    if given.get("reserved"):
        names["reserved"] = given.get("reserved").replace(",", " ").split()


def _marks(text: str, word: str) -> str:
    """Return a pattern such as {name}% for a word with its marks, or "" where it has none."""
    assert any(word in places for places in NAMES.values())
    at = text.lower().find(word)
    if at < 0:
        return ""
    first, last = at, at + len(word)
    while first and text[first - 1] in SIGNS:
        first -= 1
    while last < len(text) and text[last] in SIGNS:
        last += 1
    marks = text[first:at], text[at + len(word) : last]
    return f"{marks[0]}{{name}}{marks[1]}" if any(marks) else ""


def _shared_words(tables: Tables, given: Answers, new: bool) -> None:
    """Make the words that several answers go into, and lists of stops within the program."""
    words, operators = tables["words"], tables["operators"]
    by_key = {question.key: question for question in questions()}
    div, mod = operators.get("div", ""), operators.get("mod", "")
    keyed = [("copy_keyed", 0), ("copy_keyed_h", 1), ("copy_keyed_v", 2), ("copy_keyed_hv", 3)]
    allowed = (*WORDS["blit_keyed"].parameters, *CONSTANTS)
    copies = {}
    for key, code in keyed:
        if given.get(key) and (code == 0 or code - 1 in copies or code == 3):
            ask = by_key[key]
            copies[code] = to_spelling(
                f"answer {key}", given.get(key), ask.samples, ask.needs, allowed, given.screen()
            )
    if copies and 0 not in copies:
        raise DialectError("answer copy_keyed: empty; must be given before the mirrored ones")
    if 1 not in copies and any(given.get(key) for key, code in keyed if code > 1):
        raise DialectError("answer copy_keyed_h: empty; must be given before those mirrored otherwise")
    if copies:
        words["blit_keyed"] = merged("answers copy_keyed", copies, "flip", div, mod)
    if words.get("load_image") and "keyed_entry" not in words:
        words["keyed_entry"] = ""
    if given.get("screen") and (new or given.get("draw_page") or given.get("show_page")):
        begin = _page(given, "draw_page", "draw_other_page", div, mod)
        shown = _page(given, "show_page", "show_other_page", div, mod)
        words["begin_frame"] = begin
        words["end_frame"] = "\n".join(part for part in (_plain(given.get("await_refresh")), shown) if part)
    elif given.get("await_refresh"):
        words["end_frame"] = _plain(given.get("await_refresh"))
    if new:
        for word in ("say_open", "say_close", "rewind", "quit"):
            words.setdefault(word, "")
        if not given.get("stops_open") and not given.get("stop_next"):
            words["stops_open"], words["stop_next"] = "", words.get("read", "")
    if "stops.txt" in words.get("stops_open", ""):
        words["keys_open"] = words["stops_open"].replace("stops.txt", "keys.txt")
        words["keys_next"] = words.get("stop_next", "")
    if new and not words["quit"]:
        words["quit"] = tables["statements"].get("end", "")


def _page(given: Answers, one: str, other: str, div: str, mod: str) -> str:
    first, second = given.get(one), given.get(other)
    lines = {0: first, 1: second} if second else {0: first}
    plain = {code: _plain(text) for code, text in lines.items()}
    return merged(f"answers {one} and {other}", plain, "page", div, mod)


def _plain(text: str) -> str:
    """Return text whose braces stand for themselves."""
    return text.replace("{", "{{").replace("}", "}}")


def _run(tables: Tables, given: Answers) -> None:
    run, way = tables["run"], tables["transfer"]
    if given.get("command"):
        run["command"] = given.get("command").split()
        run["reader"] = given.choice("reader", ("screenfile", "windowtext", "printed"), "screenfile")
        run["package"] = given.get("package", f"install {run['command'][0]}")
        if not any("{program}" in part for part in run["command"]):
            raise given.error("command", "arguments with {program} among them")
    if given.get("environment"):
        pairs = [part.partition("=") for part in given.get("environment").split()]
        run["environment"] = {key: value for key, _, value in pairs}
    for key, to, allowed in (
        ("carried_by", "by", ("card", "serial")),
        ("file_names", "names", ("any", "8.3")),
        ("line_end", "line_end", ("lf", "crlf", "cr")),
    ):
        if given.get(key):
            way[to] = given.choice(key, allowed, "")
    if given.get("baud"):
        way["baud"] = given.whole("baud", 50, 100_000_000)
    if given.get("line_pause"):
        way["line_pause_ms"] = given.whole("line_pause", 0, 60_000)


def machine_tables(answers: Mapping[str, str], name: str, words: Mapping[str, str]) -> Tables:
    """Return the tables of a machine file: what the answers tell, and no cost, since none is known yet.

    words    spellings of the dialect, which say what the display can do
    raises   DialectError, MachineError
    """
    given = Answers(answers)
    draws = bool(given.get("screen"))
    width, height = given.screen() if draws else PRINTED_SCREEN
    colours = given.get("colours", "256").lower()
    mode: Tables = {"name": f"{width}x{height}", "picture": [width, height]}
    mode.update(_signal(given, height))
    mode["colour"] = "direct" if colours == "direct" else "indexed"
    mode["depth"] = given.get("depth", "8-8-8")
    if colours != "direct":
        mode["entries"] = given.whole("colours", 2, 256, 256)
    flips = [flip for flip in FLIPS if draws and given.get(f"copy_keyed_{flip}")]
    doing = {"fill": "fill", "run": "run", "blit": "blit", "blit-keyed": "blit_keyed", "palette": "palette"}
    able = [operation for operation, word in doing.items() if draws and word in words]
    if flips:
        able.append("blit-flipped")
    pages = 2 if given.get("draw_other_page") else int(draws)
    if pages == 2:
        able.append("page")
    return {
        "summary": f"answers about {name}; nothing measured yet",
        "abilities": {
            "words": able,
            "flips": flips,
            "recolours": draws and mode["colour"] == "indexed" and given.flag("recolours", True),
            "pages": pages,
            "clips": True,
            "image_formats": [given.choice("image_format", ("bmp", "png"), "bmp")]
            if "load_image" in words
            else [],
        },
        "modes": [mode],
        "memories": [
            {
                "name": "work",
                "capacity_bytes": given.whole("memory", 1024, 1 << 39),
                "holds": ["pages", "art", "tables", "program"],
            }
        ],
    }


def _signal(given: Answers, height: int) -> Tables:
    """Return the video signal and how many of its lines show one row."""
    name = given.get("signal", PLAIN_SIGNAL)
    timing = load_timing(name)
    lines = timing.v_active_lines // timing.fields
    if lines < height:
        raise given.error("signal", f"a signal of at least {height} lines; {name} has {lines}")
    return {"timing": name, "lines_per_row": min(16, lines // height)}
