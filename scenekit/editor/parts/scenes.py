"""The scene itself: its name and backdrop, further scenes, and taking one out."""

from dataclasses import replace

from scenekit.editor.desk import Desk
from scenekit.editor.form import Form, fresh_name, read_name
from scenekit.editor.history import Edit
from scenekit.model.edits import put_scene
from scenekit.model.named import with_named, without_named
from scenekit.model.scene import Scene


def draw_scene(desk: Desk, form: Form, scene: Scene) -> Edit | None:
    """Draw name and backdrop of a scene, and make or take out scenes; return an edit."""
    session = desk.session
    document = session.document
    desk.ui.heading(form.column, "Scene", f"{len(document.scenes)} in this project")
    name = form.text("name", form.line("name"), scene.name, read_name, tip="Its file is scenes/NAME.toml.")
    if name is not None:
        session.scene_name = name
        scenes = with_named(document.scenes, replace(scene, name=name), scene.name)
        return Edit(document=replace(document, scenes=scenes), label=f"naming scene {name}")
    colour = form.colour(
        "backdrop", form.line("backdrop"), scene.backdrop, tip="The colour behind all planes."
    )
    if colour is not None:
        return Edit(document=put_scene(document, replace(scene, backdrop=colour)), label="the backdrop")
    more, drop = form.split("scenes", (1, 1), 14)
    if form.button("more", more, "One more", tip="A further scene that begins as a copy of this one."):
        fresh = fresh_name("scene-2", [other.name for other in document.scenes])
        session.scene_name = fresh
        return Edit(document=put_scene(document, replace(scene, name=fresh)), label=f"adding scene {fresh}")
    can = len(document.scenes) > 1
    if form.button("less", drop, "Take it out", kind="quiet", on=can, tip="Its file stays where it is."):
        left = without_named(document.scenes, scene.name)
        session.scene_name = left[0].name
        return Edit(document=replace(document, scenes=left), label=f"taking out scene {scene.name}")
    return None
