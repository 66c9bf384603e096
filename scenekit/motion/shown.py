"""What a placed sprite shows at a tick, and where in the view."""

from dataclasses import dataclass

from scenekit.model.project import Project
from scenekit.model.scene import Placed, Scene
from scenekit.motion.looks import LookTable, look_table
from scenekit.motion.parallax import camera_at, scroll_at
from scenekit.motion.paths import place_at, step_at
from scenekit.motion.waking import FAR, woken_at

MOST_REMEMBERED = 20_000


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
    look = (table or look_table(sprite, placed)).at(own)
    animation = sprite.animations[look.animation]
    step = animation.steps[step_at(animation, look.elapsed)]
    x, y = place.x, place.y
    if placed.moves_with != "screen":
        plane = scene.planes[scene.plane_number(placed.moves_with)]
        across, down = scroll_at(plane, camera or camera_at(scene, tick), tick)
        x, y = x - across, y - down
    if woken is None:
        x, y = FAR, FAR
    return Shown(sheet=animation.sheet, frame=step.frame, flip=step.flip ^ look.flip, x=x, y=y)


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
