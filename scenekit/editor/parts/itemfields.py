"""What an item of a score panel shows, by its kind."""

from dataclasses import replace

from scenekit.editor.desk import Desk
from scenekit.editor.form import Form
from scenekit.model.panel import Item
from scenekit.model.project import Project

NOTHING = "nothing"


def draw_kind(desk: Desk, form: Form, item: Item) -> Item | None:
    """Draw the fields of an item's kind; return it changed."""
    document = desk.session.document
    draw = {"text": _text, "number": _number, "bar": _bar, "icons": _icons, "picture": _picture}[item.kind]
    return draw(form, document, item)


def _font(form: Form, document: Project, item: Item) -> Item | None:
    names = [font.name for font in document.fonts]
    picked = form.choice("font", form.line("font"), names, item.font, tip="The font it is set in.")
    return None if picked is None else replace(item, font=picked)


def _value(form: Form, document: Project, item: Item) -> Item | None:
    names = [value.name for value in document.values]
    picked = form.choice(
        "value", form.line("value"), names, item.value, tip="The value of the game that it shows."
    )
    return None if picked is None else replace(item, value=picked)


def _text(form: Form, document: Project, item: Item) -> Item | None:
    names = [string.name for string in document.strings]
    picked = form.choice("string", form.line("string"), names, item.string, tip="The string that it shows.")
    new = None if picked is None else replace(item, string=picked)
    return _font(form, document, item) or new


def _number(form: Form, document: Project, item: Item) -> Item | None:
    new = _value(form, document, item)
    new = _font(form, document, item) or new
    digits, zeros = form.split("digits", (1, 2))
    count = form.whole("digits", digits, item.digits, 1, 5, tip="Room for so many digits.")
    if count is not None:
        new = replace(item, digits=count)
    words = ("spaces before", "zeros before")
    picked = form.either("zeros", zeros, words, words[item.zeros], tip="What stands before a small number.")
    return new if picked is None else replace(item, zeros=picked == words[1])


def _bar(form: Form, document: Project, item: Item) -> Item | None:
    new = _value(form, document, item)
    boxes = form.split("size", (1, 1, 1.4))
    for axis, word in ((0, "wide"), (1, "high")):
        side = form.whole(
            word, boxes[axis], item.size[axis], 1, 4096, unit=word, tip="Pixels when it is full."
        )
        if side is not None:
            new = replace(item, size=(side, item.size[1]) if axis == 0 else (item.size[0], side))
    colour = form.colour("colour", boxes[2], item.colour, tip="The colour of its filled part.")
    return new if colour is None else replace(item, colour=colour)


def _frames(form: Form, document: Project, item: Item, dark: bool) -> Item | None:
    """The sheet and frames of icons and pictures."""
    sheets = [sheet.name for sheet in document.sheets if sheet.frames]
    picked = form.choice("sheet", form.line("sheet"), sheets, item.sheet, tip="The sheet of its frames.")
    if picked is not None:
        first = document.sheet(picked).frames[0].name
        return replace(item, sheet=picked, lit=first, dark="")
    names = [frame.name for frame in document.sheet(item.sheet).frames]
    boxes = form.split("frames" if dark else "frame", (1, 1) if dark else (1,))
    lit = form.choice(
        "lit", boxes[0], names, item.lit, tip="The frame of one that is lit." if dark else "The frame."
    )
    if lit is not None:
        return replace(item, lit=lit)
    if not dark:
        return None
    other = form.choice(
        "dark", boxes[1], [NOTHING, *names], item.dark or NOTHING, tip="The frame of one that is not."
    )
    return None if other is None else replace(item, dark="" if other == NOTHING else other)


def _icons(form: Form, document: Project, item: Item) -> Item | None:
    new = _value(form, document, item)
    new = _frames(form, document, item, True) or new
    many, apart = form.split("count", (1, 1))
    count = form.whole("count", many, item.count, 1, 100, unit="of them", tip="How many stand side by side.")
    step = form.whole("step", apart, item.step, 1, 1000, unit="px apart", tip="From one to the next.")
    if count is not None:
        new = replace(item, count=count)
    return new if step is None else replace(item, step=step)


def _picture(form: Form, document: Project, item: Item) -> Item | None:
    return _frames(form, document, item, False)
