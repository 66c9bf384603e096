"""What the target asks of its palette: colours that are given, dither, entries that must differ."""

import re
from dataclasses import replace
from pathlib import Path as FilePath

from scenekit.editor.cutting import copy_in
from scenekit.editor.desk import Desk
from scenekit.editor.form import Form, colours_in, colours_text, fresh_name
from scenekit.editor.history import Edit
from scenekit.editor.pathdialog import ask_path
from scenekit.errors import ProjectError
from scenekit.model.edits import put_target
from scenekit.model.palette import Palette
from scenekit.model.score_edits import drop_palette, put_palette
from scenekit.model.target import DITHERS, Target

FROM_ART = "made from the art"
LIST_ENDINGS = (".txt", ".hex")


def draw_rules(desk: Desk, form: Form, target: Target) -> Edit | None:
    """Draw given palettes, dither and entries that must differ; return an edit."""
    ui, document = desk.ui, desk.session.document
    ui.heading(form.column, "Rules of this target", target.name)
    names = [palette.name for palette in document.palettes]
    choose, bring = form.split("colours", (1.4, 1))
    picked = form.choice(
        "given", choose, [FROM_ART, *names], target.palette or FROM_ART,
        tip="Take the palette as somebody gave it, or make the best one for this art.",
    )  # fmt: skip
    if picked is not None:
        chosen = "" if picked == FROM_ART else picked
        return _changed(desk, replace(target, palette=chosen), "the palette")
    if form.button("bring", bring, "Bring in a palette", tip="An indexed picture, or a list of colours."):
        _ask(desk)
    palette = next((p for p in document.palettes if p.name == target.palette), None)
    edit = _given(desk, form, target, palette) if palette is not None else _typed(desk, form)
    if edit is not None:
        return edit
    return _dither(desk, form, target) or _differ(desk, form, target)


def _changed(desk: Desk, target: Target, what: str) -> Edit:
    return Edit(document=put_target(desk.session.document, target), label=f"{what} of {target.name}")


def _ask(desk: Desk) -> None:
    start = desk.local.get("last-folder", desk.session.document.folder.resolve().parent)

    def chosen(path: FilePath) -> None:
        desk.local["last-folder"] = path.parent
        desk.session.attempt(lambda: _brought(desk, path))

    ask_path(desk, "An indexed picture or a list of colours", start, chosen, also=LIST_ENDINGS)


def _brought(desk: Desk, path: FilePath) -> Edit:
    """Copy a palette's file in and take it.

    raises   PaletteError, SliceError: it holds no palette, or another file is in its place
    """
    from scenekit.colour.given import colours_of_file

    colours_of_file(path)
    document, target = desk.session.document, desk.session.target
    stem = re.sub(r"[^A-Za-z0-9_-]+", "-", path.stem).strip("-_")[:30] or "palette"
    name = fresh_name(stem, [palette.name for palette in document.palettes])
    file = f"palettes/{name}{path.suffix.lower()}"
    copy_in(document, file, path)
    desk.session.files_changed()
    document = put_palette(document, Palette(name=name, file=file))
    if target is not None:
        document = put_target(document, replace(target, palette=name))
    return Edit(document=document, label=f"bringing in palette {name}")


def _given(desk: Desk, form: Form, target: Target, palette: Palette) -> Edit | None:
    """The given palette that is taken: its colours, or the file they come from."""
    document = desk.session.document
    if palette.file:
        form.note(f"Its colours come from {palette.file}.")
    else:
        text = form.text(
            "colours", form.line("its colours"), colours_text(palette.colours),
            lambda t: colours_in(t, 1, 256), tip="1 to 256 colours as rrggbb, entry 0 first.",
        )  # fmt: skip
        if text is not None:
            changed = put_palette(document, replace(palette, colours=text))
            return Edit(document=changed, label=f"colours of palette {palette.name}")
    tip = "Take the palette out of the project; its file stays."
    if form.button("drop", form.line(""), "Take the palette out", tip=tip, kind="quiet"):
        free = tuple(
            replace(other, palette="") if other.palette == palette.name else other
            for other in document.targets
        )
        document = drop_palette(replace(document, targets=free), palette.name)
        return Edit(document=document, label=f"taking out palette {palette.name}")
    return None


def _typed(desk: Desk, form: Form) -> Edit | None:
    """A palette of colours that are typed."""
    document, target = desk.session.document, desk.session.target
    colours = form.text(
        "new", form.line("or these"), "", lambda t: colours_in(t, 1, 256),
        hint="such as 000000 ffffff 884422", tip="Colours as rrggbb, entry 0 first, to be taken as given.",
    )  # fmt: skip
    if not colours or target is None:
        return None
    name = fresh_name("palette", [palette.name for palette in document.palettes])
    document = put_palette(document, Palette(name=name, colours=colours))
    return Edit(document=put_target(document, replace(target, palette=name)), label=f"adding {name}")


def _dither(desk: Desk, form: Form, target: Target) -> Edit | None:
    kinds, strength = form.split("dither", (2.2, 1))
    picked = form.either(
        "dither", kinds, DITHERS, target.dither,
        tip="Ordered keeps still under animation and lets tiles be shared; diffusion is smoother.",
    )  # fmt: skip
    if picked is not None:
        return _changed(desk, replace(target, dither=picked), "dither")
    if target.dither == "none":
        return None
    percent = form.whole(
        "strength", strength, target.dither_percent, 0, 100, unit="%", tip="How strong it is."
    )
    return None if percent is None else _changed(desk, replace(target, dither_percent=percent), "dither")


def read_groups(text: str) -> tuple[tuple[int, ...], ...]:
    """Return groups of entries from a text such as `1 2, 4 5 6`.

    raises   ProjectError: not entries from 0 to 255
    """
    groups = []
    for part in text.split(","):
        words = part.split()
        if not all(word.isascii() and word.isdigit() and int(word) <= 255 for word in words):
            raise ProjectError(f"got {part.strip()[:20]!r}; must be entries from 0 to 255 such as 1 2, 4 5 6")
        if words:
            groups.append(tuple(int(word) for word in words))
    return tuple(groups)


def _differ(desk: Desk, form: Form, target: Target) -> Edit | None:
    """Groups of entries that everybody must be able to tell apart, and whether they can."""
    from scenekit.colour.vision import must_differ
    from scenekit.errors import UnknownNameError

    text = ", ".join(" ".join(map(str, group)) for group in target.differ)
    groups = form.text(
        "differ", form.line("must differ"), text, read_groups, hint="such as 1 2, 4 5 6",
        tip="Groups of entries that everybody must be able to tell apart, people with colour blindness too.",
    )  # fmt: skip
    if groups is not None:
        return _changed(desk, replace(target, differ=groups), "entries that must differ")
    look = desk.product.look if desk.product else None
    if look is None or not target.differ:
        return None

    def alike() -> tuple[str, ...]:
        try:
            return tuple(finding.text for finding in must_differ(look.palette, target.differ))
        except UnknownNameError as error:
            return (str(error),)

    found = desk.remember("must-differ", alike, look, target.differ)
    for words in found[:4]:
        form.note(words, "alarm")
    if not found:
        form.note("Everybody can tell them apart.", "good")
    return None
