"""Writes projects as TOML in a stable order, keeping each record's comments beside it."""

from scenekit.model.comments import Comments
from scenekit.model.palette import Cycle, Palette
from scenekit.model.panel import Value
from scenekit.model.project import FORMAT, Project
from scenekit.model.sprites import FLIPS, Animation, Facing, Font, Frame, Sheet, Sprite
from scenekit.model.target import Target
from scenekit.model.toml_values import Lines, colour, colours, integers, quote, texts


def project_text(project: Project, old: str = "") -> str:
    """Return project.toml for a project, with the comments of its earlier text."""
    comments = Comments(old)
    lines = [*comments.at(""), f"format = {FORMAT}", f"name = {quote(project.name)}"]
    lines.append(f"scenes = [{', '.join(quote(scene.name) for scene in project.scenes)}]")
    for target in project.targets:
        lines += ["", *comments.at("targets", target.name), "[[targets]]", *_target(target)]
    for sheet in project.sheets:
        lines += ["", *comments.at("sheets", sheet.name), "[[sheets]]", *_sheet(sheet)]
        for frame in sheet.frames:
            lines += [
                *comments.at("sheets.frames", sheet.name, frame.name),
                "[[sheets.frames]]",
                *_frame(frame),
            ]
    for sprite in project.sprites:
        lines += ["", *comments.at("sprites", sprite.name), "[[sprites]]", f"name = {quote(sprite.name)}"]
        lines += ["spans = true"] if sprite.spans else []
        lines += _sprite_parts(sprite, comments)
    for cycle in project.cycles:
        lines += ["", *comments.at("cycles", cycle.name), "[[cycles]]", *_cycle(cycle)]
    for palette in project.palettes:
        lines += ["", *comments.at("palettes", palette.name), "[[palettes]]", *_palette(palette)]
    for font in project.fonts:
        lines += ["", *comments.at("fonts", font.name), "[[fonts]]", *_font(font)]
    for value in project.values:
        lines += ["", *comments.at("values", value.name), "[[values]]", *_value(value)]
    for string in project.strings:
        lines += ["", *comments.at("strings", string.name), "[[strings]]"]
        lines += texts(name=string.name, text=string.text)
    return "\n".join(lines) + "\n"


def _target(target: Target) -> Lines:
    lines = texts(name=target.name, machine=target.machine, mode=target.mode, dialect=target.dialect)
    if target.view is not None:
        lines.append(f"view = {integers(target.view)}")
    lines.append(f"transparent = {target.transparent}")
    if target.colours is not None:
        lines.append(f"colours = {target.colours}")
    lines += texts(palette=target.palette)
    if target.reserved:
        parts = [f"{{ entry = {e}, colour = {colour(c)} }}" for e, c in target.reserved]
        lines.append(f"reserved = [{', '.join(parts)}]")
    if target.differ:
        lines.append(f"differ = [{', '.join(integers(group) for group in target.differ)}]")
    if target.dither != "none":
        lines += [f"dither = {quote(target.dither)}", f"dither_percent = {target.dither_percent}"]
    if target.transfer:
        pairs = [f"{key} = {quote(v) if isinstance(v, str) else v}" for key, v in target.transfer]
        lines.append(f"transfer = {{ {', '.join(pairs)} }}")
    if target.flips != "drawn":
        lines.append(f"flips = {quote(target.flips)}")
    if target.redraw != "auto":
        lines.append(f"redraw = {quote(target.redraw)}")
    if target.encode != "auto":
        lines.append(f"encode = {quote(target.encode)}")
    if target.maps != "auto":
        lines.append(f"maps = {quote(target.maps)}")
    if target.holes != "clear":
        lines.append(f"holes = {quote(target.holes)}")
    return lines


def _sheet(sheet: Sheet) -> Lines:
    lines = texts(name=sheet.name, file=sheet.file)
    if sheet.key is not None:
        lines.append(f"key = {colour(sheet.key)}")
    return lines + texts(bank=sheet.bank, source=sheet.source, author=sheet.author, licence=sheet.licence)


def _frame(frame: Frame) -> Lines:
    lines = [
        f"name = {quote(frame.name)}",
        f"box = {integers(frame.box)}",
        f"pivot = {integers(frame.pivot)}",
    ]
    if frame.hit_box is not None:
        lines.append(f"hit_box = {integers(frame.hit_box)}")
    if frame.flags:
        lines.append(f"flags = [{', '.join(quote(flag) for flag in frame.flags)}]")
    return lines


def _sprite_parts(sprite: Sprite, comments: Comments) -> Lines:
    lines: Lines = []
    for animation in sprite.animations:
        lines += comments.at("sprites.animations", sprite.name, animation.name)
        lines += ["[[sprites.animations]]", *_animation(animation)]
    for facing in sprite.facings:
        lines += comments.at("sprites.facings", sprite.name, facing.facing)
        lines += ["[[sprites.facings]]", *_facing(facing)]
    return lines


def _animation(animation: Animation) -> Lines:
    steps = []
    for step in animation.steps:
        flip = f", {quote(FLIPS[step.flip])}" if step.flip else ""
        steps.append(f"[{quote(step.frame)}, {step.ticks}{flip}]")
    lines = texts(name=animation.name, sheet=animation.sheet, play=animation.play)
    return [*lines, f"steps = [{', '.join(steps)}]"]


def _facing(facing: Facing) -> Lines:
    lines = texts(facing=facing.facing, flip=FLIPS[facing.flip])
    if facing.own:
        lines.append("own = { " + ", ".join(f"{quote(a)} = {quote(b)}" for a, b in facing.own) + " }")
    return lines


def _cycle(cycle: Cycle) -> Lines:
    return [
        f"name = {quote(cycle.name)}",
        f"colours = {colours(cycle.colours)}",
        f"ticks = {cycle.ticks}",
        f"direction = {quote(cycle.direction)}",
        *(["there_and_back = true"] if cycle.there_and_back else []),
    ]


def _palette(palette: Palette) -> Lines:
    if palette.file:
        return texts(name=palette.name, file=palette.file)
    return [f"name = {quote(palette.name)}", f"colours = {colours(palette.colours)}"]


def _font(font: Font) -> Lines:
    lines = texts(name=font.name, sheet=font.sheet, characters=font.characters)
    if font.proportional:
        lines.append("proportional = true")
    if font.spacing:
        lines.append(f"spacing = {font.spacing}")
    if font.kerning:
        lines.append("kerning = { " + ", ".join(f"{quote(p)} = {n}" for p, n in font.kerning) + " }")
    return lines


def _value(value: Value) -> Lines:
    limits = [f"low = {value.low}", f"high = {value.high}", f"start = {value.start}"]
    return [f"name = {quote(value.name)}", *limits]
