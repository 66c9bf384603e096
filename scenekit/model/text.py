"""Writes documents as TOML in a stable order, keeping each record's comments beside it."""

import re
from fractions import Fraction

from scenekit.model.events import Event, Transition
from scenekit.model.palette import Colour, Cycle, Palette
from scenekit.model.panel import Item, Panel, Value
from scenekit.model.paths import Path, Segment, Shape
from scenekit.model.project import FORMAT, Project
from scenekit.model.scene import Band, Camera, Placed, Plane, Scene, Turn, Wakes
from scenekit.model.sprites import FLIPS, Animation, Facing, Font, Frame, Sheet, Sprite
from scenekit.model.target import Target

Lines = list[str]
HEADER = re.compile(r"\s*\[\[?([A-Za-z_.]+)\]?\]")
NAME = re.compile(r'\s*(?:name|facing)\s*=\s*"([^"]*)"')


class Comments:
    """The `#` comments of an earlier text, by the record that they stand at."""

    def __init__(self, text: str) -> None:
        self.found: dict[tuple[str, ...], Lines] = {}
        waiting: Lines = []
        kind, names = "", dict[str, str]()
        for line in [*text.splitlines(), "", "[end]"]:
            header = HEADER.match(line)
            if header:
                waiting = self._close(kind, names, waiting)
                kind = header.group(1)
                names = {k: v for k, v in names.items() if kind.startswith(k + ".")}
                continue
            name = NAME.match(line)
            if name and kind and kind not in names:
                names[kind] = name.group(1)
            comment = _comment(line)
            if comment:
                waiting.append(comment)
            if not line.lstrip().startswith("#"):
                waiting.append("")

    def _close(self, kind: str, names: dict[str, str], lines: Lines) -> Lines:
        """Give a record the comments within it; those after its last key or blank line go to the next one."""
        last_blank = max((i for i, line in enumerate(lines) if not line), default=-1)
        own = [line for line in lines[: last_blank + 1] if line] if last_blank >= 0 else []
        following = [line for line in lines[last_blank + 1 :] if line]
        if last_blank < 0:
            own, following = following, []
        key = (kind, *(names[k] for k in sorted(names)))
        self.found.setdefault(key, []).extend(own)
        return following

    def at(self, kind: str, *names: str) -> Lines:
        """Return the comment lines of a record."""
        return self.found.get((kind, *names), [])


def _comment(line: str) -> str:
    """Return the comment of a line, if its `#` is outside of quotes."""
    if "#" not in line:
        return ""
    quoted = False
    for position, sign in enumerate(line):
        if sign == '"' and (position == 0 or line[position - 1] != "\\"):
            quoted = not quoted
        elif sign == "#" and not quoted:
            return line[position:].rstrip()
    return ""


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
        lines += _texts(name=string.name, text=string.text)
    return "\n".join(lines) + "\n"


def scene_text(scene: Scene, old: str = "") -> str:
    """Return the scene file of a scene, with the comments of its earlier text."""
    comments = Comments(old)
    lines = [*comments.at(""), f"format = {FORMAT}", f"ticks = {scene.ticks}"]
    lines += [f"ticks_per_update = {scene.ticks_per_update}", f"missed = {quote(scene.missed)}"]
    lines += [f"backdrop = {colour(scene.backdrop)}"]
    if scene.wakes != Wakes():
        along, (first, last) = "xy"[scene.wakes.axis], (scene.wakes.start, scene.wakes.end)
        lines.append(f'wakes = {{ along = "{along}", from = {first}, to = {last} }}')
    lines += ["", *comments.at("camera"), "[camera]", *_camera(scene.camera)]
    for plane in scene.planes:
        lines += ["", *comments.at("planes", plane.name), "[[planes]]", *_plane(plane)]
    for placed in scene.placed:
        lines += ["", *comments.at("placed", placed.name), "[[placed]]", *_placed(placed)]
    for event in scene.events:
        lines += ["", *comments.at("events", event.name), "[[events]]", *_event(event)]
    for transition in scene.transitions:
        lines += [
            "",
            *comments.at("transitions", transition.name),
            "[[transitions]]",
            *_transition(transition),
        ]
    if scene.panel is not None:
        lines += ["", *comments.at("panel"), "[panel]", *_panel(scene.panel)]
        for item in scene.panel.items:
            lines += [*comments.at("panel.items", item.name), "[[panel.items]]", *_item(item)]
    for change in scene.changes:
        what = [f"tick = {change.tick}", f"value = {quote(change.value)}", f"add = {change.add}"]
        lines += ["", "[[changes]]", *what]
    return "\n".join(lines) + "\n"


def quote(text: str) -> str:
    """Return a TOML basic string."""
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return '"' + "".join(c if c.isprintable() else f"\\u{ord(c):04x}" for c in escaped) + '"'


def colour(value: Colour) -> str:
    """Return a quoted colour."""
    return '"' + bytes(value).hex() + '"'


def fraction(value: Fraction) -> str:
    """Return a whole number, or a quoted fraction."""
    return str(value.numerator) if value.denominator == 1 else f'"{value}"'


def _integers(values: tuple[int, ...]) -> str:
    return "[" + ", ".join(str(value) for value in values) + "]"


def _colours(values: tuple[Colour, ...]) -> str:
    return "[" + ", ".join(colour(value) for value in values) + "]"


def _pair(values: tuple[Fraction, Fraction]) -> str:
    return f"[{fraction(values[0])}, {fraction(values[1])}]"


def _texts(**values: str) -> Lines:
    return [f"{key} = {quote(value)}" for key, value in values.items() if value]


def _target(target: Target) -> Lines:
    lines = _texts(name=target.name, machine=target.machine, mode=target.mode, dialect=target.dialect)
    if target.view is not None:
        lines.append(f"view = {_integers(target.view)}")
    lines.append(f"transparent = {target.transparent}")
    if target.colours is not None:
        lines.append(f"colours = {target.colours}")
    lines += _texts(palette=target.palette)
    if target.reserved:
        parts = [f"{{ entry = {e}, colour = {colour(c)} }}" for e, c in target.reserved]
        lines.append(f"reserved = [{', '.join(parts)}]")
    if target.differ:
        lines.append(f"differ = [{', '.join(_integers(group) for group in target.differ)}]")
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
    lines = _texts(name=sheet.name, file=sheet.file)
    if sheet.key is not None:
        lines.append(f"key = {colour(sheet.key)}")
    return lines + _texts(bank=sheet.bank, source=sheet.source, author=sheet.author, licence=sheet.licence)


def _frame(frame: Frame) -> Lines:
    lines = [
        f"name = {quote(frame.name)}",
        f"box = {_integers(frame.box)}",
        f"pivot = {_integers(frame.pivot)}",
    ]
    if frame.hit_box is not None:
        lines.append(f"hit_box = {_integers(frame.hit_box)}")
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
    lines = _texts(name=animation.name, sheet=animation.sheet, play=animation.play)
    return [*lines, f"steps = [{', '.join(steps)}]"]


def _facing(facing: Facing) -> Lines:
    lines = _texts(facing=facing.facing, flip=FLIPS[facing.flip])
    if facing.own:
        lines.append("own = { " + ", ".join(f"{quote(a)} = {quote(b)}" for a, b in facing.own) + " }")
    return lines


def _cycle(cycle: Cycle) -> Lines:
    return [
        f"name = {quote(cycle.name)}",
        f"colours = {_colours(cycle.colours)}",
        f"ticks = {cycle.ticks}",
        f"direction = {quote(cycle.direction)}",
        *(["there_and_back = true"] if cycle.there_and_back else []),
    ]


def _palette(palette: Palette) -> Lines:
    if palette.file:
        return _texts(name=palette.name, file=palette.file)
    return [f"name = {quote(palette.name)}", f"colours = {_colours(palette.colours)}"]


def _font(font: Font) -> Lines:
    lines = _texts(name=font.name, sheet=font.sheet, characters=font.characters)
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


def _panel(panel: Panel) -> Lines:
    return [f"box = {_integers(panel.box)}", f"colour = {colour(panel.colour)}"]


def _item(item: Item) -> Lines:
    lines = [*_texts(name=item.name, kind=item.kind), f"at = {_integers(item.at)}"]
    lines += _texts(value=item.value, string=item.string, font=item.font, sheet=item.sheet, lit=item.lit)
    lines += _texts(dark=item.dark)
    if item.kind == "number":
        lines += [f"digits = {item.digits}", f"zeros = {'true' if item.zeros else 'false'}"]
    if item.kind == "bar":
        lines += [f"size = {_integers(item.size)}", f"colour = {colour(item.colour)}"]
    if item.kind == "icons":
        lines += [f"count = {item.count}", f"step = {item.step}"]
    return lines


def _path(path: Path) -> Lines:
    if not path.segments:
        return []
    lines = [f"repeat = {quote(path.repeat)}"]
    if path.follow:
        lines.append("follow = true")
    lines += [*_texts(turn=path.turn), "path = ["]
    lines += [f"    {{ {_segment(segment)} }}," for segment in path.segments]
    return [*lines, "]"]


def _segment(segment: Segment) -> str:
    parts = [f"ticks = {segment.ticks}"] if segment.ticks else []
    parts += _shape(segment.shape) if segment.shape is not None else []
    if segment.shape is None or any(segment.speed):
        parts.append(f"speed = {_pair(segment.speed)}")
    if segment.animation:
        parts.append(f"animation = {quote(segment.animation)}")
    if segment.facing:
        parts.append(f"facing = {quote(segment.facing)}")
    return ", ".join(parts)


def _shape(shape: Shape) -> Lines:
    if shape.kind == "ease":
        return [f"by = {_integers(shape.by)}", f"ease = {quote(shape.curve)}"]
    if shape.kind == "drive":
        rates = f"top = {fraction(shape.top)}, gain = {fraction(shape.gain)}, brake = {fraction(shape.brake)}"
        return [f"drive = {_integers(shape.by)}", rates]
    if shape.kind == "jump":
        return [f"jump = [{shape.push}, {shape.pull}]"]
    if shape.kind == "circle":
        where = f"turns = {fraction(shape.turns)}, from = {quote(shape.corner)}"
        return [f"circle = {shape.radius}", where]
    return [f"wave = {shape.radius}", f"period = {shape.period}"]


def _camera(camera: Camera) -> Lines:
    lines = [f"start = {_integers(camera.start)}"]
    if camera.limits is not None:
        lines.append(f"limits = {_integers(camera.limits)}")
    if camera.keeps:
        lines += [f"keeps = {quote(camera.keeps)}", f"zone = {_integers(camera.zone)}"]
    return lines + _path(camera.path)


def _plane(plane: Plane) -> Lines:
    lines = _texts(name=plane.name, picture=plane.picture, map=plane.map, sheet=plane.sheet)
    if plane.key is not None:
        lines.append(f"key = {colour(plane.key)}")
    wrap = ", ".join("true" if flag else "false" for flag in plane.wrap)
    if plane.depth is not None:
        lines.append(f"depth = {fraction(plane.depth)}")
    elif plane.pace is not None:
        lines.append(f"pace = {fraction(plane.pace)}")
    else:
        lines.append(f"ratio = {_pair(plane.ratio)}")
    lines += [f"drift = {_pair(plane.drift)}", f"wrap = [{wrap}]"]
    lines.append(f"offset = {_integers(plane.offset)}")
    if plane.cadence != (1, 0):
        lines.append(f"cadence = {_integers(plane.cadence)}")
    lines.append(f"tile = {_integers(plane.tile)}")
    if plane.rows is not None:
        lines.append(f"rows = {_integers(plane.rows)}")
    if plane.bands:
        lines += ["bands = [", *(f"    {{ {_band(band)} }}," for band in plane.bands), "]"]
    if plane.turns:
        lines += ["turns = [", *(f"    {{ {_turn(turn)} }}," for turn in plane.turns), "]"]
    return lines + _texts(bank=plane.bank, source=plane.source, author=plane.author, licence=plane.licence)


def _turn(turn: Turn) -> str:
    return f"frames = [{', '.join(quote(name) for name in turn.frames)}], ticks = {turn.ticks}"


def _band(band: Band) -> str:
    drift = f", drift = {_pair(band.drift)}" if any(band.drift) else ""
    return f"rows = {_integers(band.rows)}, ratio = {_pair(band.ratio)}{drift}"


def _placed(placed: Placed) -> Lines:
    lines = _texts(name=placed.name, sprite=placed.sprite, over=placed.over, moves_with=placed.moves_with)
    lines.append(f"at = {_integers(placed.at)}")
    return (
        lines + _texts(animation=placed.animation, facing=placed.facing) + _sleep(placed) + _path(placed.path)
    )


def _sleep(placed: Placed) -> Lines:
    return ["asleep = true"] if placed.asleep else []


def _event(event: Event) -> Lines:
    lines = [
        f"name = {quote(event.name)}",
        f"tick = {event.tick}",
        f"steps = {event.steps}",
        f"ticks_per_step = {event.ticks_per_step}",
    ]
    if event.colours:
        lines.append(f"colours = {_colours(event.colours)}")
    if event.start != event.colours:
        lines.append(f"start = {_colours(event.start)}")
    lines.append(f"to = {_colours(event.to)}")
    if event.mix != "plain":
        lines.append(f"mix = {quote(event.mix)}")
    return [*lines, "back = true"] if event.back else lines


def _transition(transition: Transition) -> Lines:
    return [
        f"name = {quote(transition.name)}",
        f"kind = {quote(transition.kind)}",
        f"tick = {transition.tick}",
        f"ticks = {transition.ticks}",
        f"opens = {'true' if transition.opens else 'false'}",
        f"cell = {_integers(transition.cell)}",
        f"colour = {colour(transition.colour)}",
        f"side = {quote(transition.side)}",
    ]
