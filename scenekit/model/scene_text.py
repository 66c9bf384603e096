"""Writes scenes as TOML in a stable order, keeping each record's comments beside it."""

from scenekit.model.comments import Comments
from scenekit.model.events import Event, Transition
from scenekit.model.panel import Item, Panel
from scenekit.model.paths import Path, Segment, Shape
from scenekit.model.planes import Band, Turn
from scenekit.model.project import FORMAT
from scenekit.model.scene import Camera, Placed, Plane, Scene, Wakes
from scenekit.model.toml_values import Lines, colour, colours, fraction, integers, pair, quote, texts


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


def _path(path: Path) -> Lines:
    if not path.segments:
        return []
    lines = [f"repeat = {quote(path.repeat)}"]
    if path.follow:
        lines.append("follow = true")
    lines += [*texts(turn=path.turn), "path = ["]
    lines += [f"    {{ {_segment(segment)} }}," for segment in path.segments]
    return [*lines, "]"]


def _segment(segment: Segment) -> str:
    parts = [f"ticks = {segment.ticks}"] if segment.ticks else []
    parts += _shape(segment.shape) if segment.shape is not None else []
    if segment.shape is None or any(segment.speed):
        parts.append(f"speed = {pair(segment.speed)}")
    if segment.animation:
        parts.append(f"animation = {quote(segment.animation)}")
    if segment.facing:
        parts.append(f"facing = {quote(segment.facing)}")
    return ", ".join(parts)


def _shape(shape: Shape) -> Lines:
    if shape.kind == "ease":
        return [f"by = {integers(shape.by)}", f"ease = {quote(shape.curve)}"]
    if shape.kind == "drive":
        rates = f"top = {fraction(shape.top)}, gain = {fraction(shape.gain)}, brake = {fraction(shape.brake)}"
        return [f"drive = {integers(shape.by)}", rates]
    if shape.kind == "jump":
        return [f"jump = [{shape.push}, {shape.pull}]"]
    if shape.kind == "circle":
        where = f"turns = {fraction(shape.turns)}, from = {quote(shape.corner)}"
        return [f"circle = {shape.radius}", where]
    return [f"wave = {shape.radius}", f"period = {shape.period}"]


def _camera(camera: Camera) -> Lines:
    lines = [f"start = {integers(camera.start)}"]
    if camera.limits is not None:
        lines.append(f"limits = {integers(camera.limits)}")
    if camera.keeps:
        lines += [f"keeps = {quote(camera.keeps)}", f"zone = {integers(camera.zone)}"]
    return lines + _path(camera.path)


def _plane(plane: Plane) -> Lines:
    lines = texts(name=plane.name, picture=plane.picture, map=plane.map, sheet=plane.sheet)
    if plane.key is not None:
        lines.append(f"key = {colour(plane.key)}")
    wrap = ", ".join("true" if flag else "false" for flag in plane.wrap)
    if plane.depth is not None:
        lines.append(f"depth = {fraction(plane.depth)}")
    elif plane.pace is not None:
        lines.append(f"pace = {fraction(plane.pace)}")
    else:
        lines.append(f"ratio = {pair(plane.ratio)}")
    lines += [f"drift = {pair(plane.drift)}", f"wrap = [{wrap}]"]
    lines.append(f"offset = {integers(plane.offset)}")
    if plane.cadence != (1, 0):
        lines.append(f"cadence = {integers(plane.cadence)}")
    lines.append(f"tile = {integers(plane.tile)}")
    if plane.rows is not None:
        lines.append(f"rows = {integers(plane.rows)}")
    if plane.bands:
        lines += ["bands = [", *(f"    {{ {_band(band)} }}," for band in plane.bands), "]"]
    if plane.turns:
        lines += ["turns = [", *(f"    {{ {_turn(turn)} }}," for turn in plane.turns), "]"]
    return lines + texts(bank=plane.bank, source=plane.source, author=plane.author, licence=plane.licence)


def _turn(turn: Turn) -> str:
    return f"frames = [{', '.join(quote(name) for name in turn.frames)}], ticks = {turn.ticks}"


def _band(band: Band) -> str:
    drift = f", drift = {pair(band.drift)}" if any(band.drift) else ""
    return f"rows = {integers(band.rows)}, ratio = {pair(band.ratio)}{drift}"


def _placed(placed: Placed) -> Lines:
    lines = texts(name=placed.name, sprite=placed.sprite, over=placed.over, moves_with=placed.moves_with)
    lines.append(f"at = {integers(placed.at)}")
    return (
        lines + texts(animation=placed.animation, facing=placed.facing) + _sleep(placed) + _path(placed.path)
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
        lines.append(f"colours = {colours(event.colours)}")
    if event.start != event.colours:
        lines.append(f"start = {colours(event.start)}")
    lines.append(f"to = {colours(event.to)}")
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
        f"cell = {integers(transition.cell)}",
        f"colour = {colour(transition.colour)}",
        f"side = {quote(transition.side)}",
    ]


def _panel(panel: Panel) -> Lines:
    return [f"box = {integers(panel.box)}", f"colour = {colour(panel.colour)}"]


def _item(item: Item) -> Lines:
    lines = [*texts(name=item.name, kind=item.kind), f"at = {integers(item.at)}"]
    lines += texts(value=item.value, string=item.string, font=item.font, sheet=item.sheet, lit=item.lit)
    lines += texts(dark=item.dark)
    if item.kind == "number":
        lines += [f"digits = {item.digits}", f"zeros = {'true' if item.zeros else 'false'}"]
    if item.kind == "bar":
        lines += [f"size = {integers(item.size)}", f"colour = {colour(item.colour)}"]
    if item.kind == "icons":
        lines += [f"count = {item.count}", f"step = {item.step}"]
    return lines
