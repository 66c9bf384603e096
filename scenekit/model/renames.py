"""Other names for planes, placed sprites and sprites, wherever a scene speaks of them."""

from dataclasses import replace

from scenekit.model.project import Project
from scenekit.model.scene import Scene


def rename_plane(scene: Scene, old: str, new: str) -> Scene:
    """Give a plane another name; what stands on it or moves with it follows."""
    planes = tuple(replace(plane, name=new) if plane.name == old else plane for plane in scene.planes)
    placed = tuple(
        replace(
            one,
            over=new if one.over == old else one.over,
            moves_with=new if one.moves_with == old else one.moves_with,
        )
        for one in scene.placed
    )
    return replace(scene, planes=planes, placed=placed)


def rename_placed(scene: Scene, old: str, new: str) -> Scene:
    """Give a placed sprite another name; the camera that goes after it follows."""
    placed = tuple(replace(one, name=new) if one.name == old else one for one in scene.placed)
    camera = replace(scene.camera, keeps=new) if scene.camera.keeps == old else scene.camera
    return replace(scene, placed=placed, camera=camera)


def rename_sprite(project: Project, old: str, new: str) -> Project:
    """Give a sprite another name, in every scene too."""
    sprites = tuple(replace(one, name=new) if one.name == old else one for one in project.sprites)
    scenes = tuple(
        replace(
            scene,
            placed=tuple(replace(one, sprite=new) if one.sprite == old else one for one in scene.placed),
        )
        for scene in project.scenes
    )
    return replace(project, sprites=sprites, scenes=scenes)
