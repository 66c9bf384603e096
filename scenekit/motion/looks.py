"""What a placed sprite shows along its path: animations and flips by the ticks at which they change."""

from bisect import bisect_right
from dataclasses import dataclass

from scenekit.model.scene import Placed
from scenekit.model.sprites import Facing, Sprite


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """What a sprite shows: the animation by index, the flip, and ticks since that animation began."""

    animation: int
    flip: int
    elapsed: int


@dataclass(frozen=True, slots=True, kw_only=True)
class LookTable:
    """What changes along a path, in its first lap, or in its first three where it repeats.

    From the second lap on every lap is like the one before, so that the third stands for all later ones.
    starts     tick at which each row begins to hold; of equal ones the last holds
    changes    (tick at which its animation began, animation, flip) of each row
    lap_ticks  0 where the path does not repeat
    """

    starts: tuple[int, ...]
    changes: tuple[tuple[int, int, int], ...]
    lap_ticks: int

    def at(self, tick: int) -> Look:
        """Return what is shown at a tick."""
        moved = max(0, tick // self.lap_ticks - 2) * self.lap_ticks if self.lap_ticks else 0
        began, animation, flip = self.changes[bisect_right(self.starts, tick - moved) - 1]
        # an animation that began in the first lap and still plays in the third plays for ever
        return Look(
            animation=animation, flip=flip, elapsed=tick - began - (moved if began >= self.lap_ticks else 0)
        )


def look_table(sprite: Sprite, placed: Placed) -> LookTable:
    """Return what a placed sprite shows along its path."""
    animation, facing = start_state(sprite, placed)
    found = [(0, *shown_animation(sprite, animation, facing))]
    path = placed.path
    lap_ticks = path.edges[-1][0] if path.segments and path.repeat != "no" else 0
    for lap in range(3 if lap_ticks else 1):
        for segment, (tick, _, _) in zip(path.segments, path.edges, strict=False):
            changed = sprite.animation_number(segment.animation)
            animation = animation if changed is None else changed
            facing = segment.facing or facing
            found.append((lap * lap_ticks + tick, *shown_animation(sprite, animation, facing)))
    starts, changes = [], []
    began = 0
    for number, (tick, shown, flip) in enumerate(found):
        began = tick if not number or shown != found[number - 1][1] else began
        starts.append(tick)
        changes.append((began, shown, flip))
    return LookTable(starts=tuple(starts), changes=tuple(changes), lap_ticks=lap_ticks)


def look_at(sprite: Sprite, placed: Placed, tick: int) -> Look:
    """Return what a placed sprite shows at a tick.

    The animation begins anew whenever the shown animation becomes another one.
    """
    return look_table(sprite, placed).at(tick)


def shown_animation(sprite: Sprite, animation: int, facing: str) -> tuple[int, int]:
    """Return (animation, flip) that a sprite shows for a logical animation and facing.

    A facing that the sprite does not have looks like its first.
    """
    found = next((f for f in sprite.facings if f.facing == facing), sprite.facings[0])
    own = _own_animation(sprite, animation, found)
    return (animation, found.flip) if own is None else (own, 0)


def _own_animation(sprite: Sprite, animation: int, facing: Facing) -> int | None:
    name = dict(facing.own).get(sprite.animations[animation].name)
    return None if name is None else sprite.animation_number(name)


def start_state(sprite: Sprite, placed: Placed) -> tuple[int, str]:
    """Return the logical animation and facing that a placed sprite has before its path begins."""
    animation = sprite.animation_number(placed.animation) if placed.animation else 0
    return animation or 0, placed.facing or sprite.facings[0].facing
