"""What a placed sprite shows at a tick, and where in the view."""

from dataclasses import dataclass

from scenekit.model.project import Project
from scenekit.model.scene import Placed, Scene
from scenekit.model.sprites import Sprite
from scenekit.motion.looks import LookTable, look_table
from scenekit.motion.parallax import camera_at, shown_scroll
from scenekit.motion.paths import place_at, step_at
from scenekit.motion.waking import FAR, woken_at

MOST_REMEMBERED = 20_000
MOST_TABLES = 2_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A sprite as shown at a tick: its frame, flip, and where its pivot stands in the view."""

    sheet: str
    frame: str
    flip: int
    x: int
    y: int


def sprite_at(
    project: Project,
    scene: Scene,
    placed: Placed,
    tick: int,
    camera: tuple[int, int] | None = None,
    table: LookTable | None = None,
) -> Shown:
    """Return what a placed sprite shows at a tick and where.

    camera   its position at that tick, when it is known already
    table    of the sprite's looks, likewise
    """
    sprite = project.sprite(placed.sprite)
    woken = woken_at(scene, placed, tick)
    own = 0 if woken is None else tick - woken
    place = place_at(placed.path, placed.at, own)
    look = (table or known_table(sprite, placed)).at(own)
    animation = sprite.animations[look.animation]
    step = animation.steps[step_at(animation, look.elapsed)]
    x, y = place.x, place.y
    if placed.moves_with != "screen":
        plane = scene.planes[scene.plane_number(placed.moves_with)]
        across, down = shown_scroll(scene, plane, tick, camera)
        x, y = x - across, y - down
    if woken is None:
        x, y = FAR, FAR
    return Shown(sheet=animation.sheet, frame=step.frame, flip=step.flip ^ look.flip, x=x, y=y)


_tables: dict[int, tuple[Sprite, Placed, LookTable]] = {}


def known_table(sprite: Sprite, placed: Placed) -> LookTable:
    """Return the table of a sprite's looks; it is kept, since whoever draws asks at every tick."""
    kept = _tables.get(id(placed))
    if kept is None or kept[0] is not sprite or kept[1] is not placed:
        if len(_tables) >= MOST_TABLES:
            _tables.clear()
        kept = _tables[id(placed)] = (sprite, placed, look_table(sprite, placed))
    return kept[2]


class Looks:
    """What every placed sprite of a scene shows, remembered by tick; the same for all targets."""

    def __init__(self, project: Project, scene: Scene) -> None:
        self.project = project
        self.scene = scene
        self.tables = tuple(look_table(project.sprite(placed.sprite), placed) for placed in scene.placed)
        self.known: dict[int, tuple[Shown, ...]] = {}

    def at(self, tick: int) -> tuple[Shown, ...]:
        """Return what each placed sprite shows at a tick, in document order."""
        if tick not in self.known:
            if len(self.known) >= MOST_REMEMBERED:
                self.known.clear()
            camera = camera_at(self.scene, tick)
            self.known[tick] = tuple(
                sprite_at(self.project, self.scene, placed, tick, camera, table)
                for placed, table in zip(self.scene.placed, self.tables, strict=True)
            )
        return self.known[tick]
