"""Builds a scene for a target: every stage in order, from art to files."""

from scenekit.building.artwork import cut_pieces, expand_motion, find_target, read_art, reduce_colours
from scenekit.building.kept import Kept
from scenekit.building.planning import plan_drawing
from scenekit.building.state import Build, BuildOptions, Progress
from scenekit.building.tabling import encode_bundle, make_tables
from scenekit.building.writing import write_credits, write_programs
from scenekit.costs.memory import Item, lay_out
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.routines.library import is_wide


def lay_memory(build: Build) -> None:
    """Lay everything that the machine must keep into its memories."""
    dialect, pieces = build.dialect, build.pieces
    items = []
    if build.scheme.draws:
        items.append(
            Item(
                name="pages",
                kind="pages",
                size_bytes=build.mode.page_bytes * build.abilities.pages,
                shared=True,
            )
        )
    if build.scheme.copies and "art_page" not in build.scheme.routines:
        bits = build.mode.bits_per_pixel
        tiles = sum(picture.size for picture in pieces.pictures[: pieces.tiles]) * bits // 8
        whole = pieces.packed.size * bits // 8
        items.append(Item(name="art of sprites", kind="art", size_bytes=whole - tiles, shared=True))
        items.append(Item(name="art of planes", kind="art", size_bytes=tiles))
    tables = sum(
        max(1, len(table.values)) * dialect.bytes_of(is_wide(table.name)) for table in build.bundle.tables
    )
    named = {table.name for table in build.bundle.tables}
    arrays = sum(n * dialect.bytes_of(is_wide(name)) for name, n in build.arrays if name not in named)
    items.append(Item(name="tables", kind="tables", size_bytes=tables))
    items.append(Item(name="working arrays", kind="tables", size_bytes=arrays))
    items.append(Item(name="program text", kind="program", size_bytes=len(build.files[build.program_file])))
    build.memory, findings = lay_out(build.machine, items)
    build.findings += findings


STAGES = (
    ("target", find_target),
    ("motion", expand_motion),
    ("art", read_art),
    ("colours", reduce_colours),
    ("pieces", cut_pieces),
    ("plan", plan_drawing),
    ("tables", make_tables),
    ("encode", encode_bundle),
    ("programs", write_programs),
    ("credits", write_credits),
    ("memory", lay_memory),
)


def run_stages(
    project: Project,
    target: str | None = None,
    scene: str | None = None,
    *,
    last: str = "memory",
    options: BuildOptions | None = None,
    progress: Progress | None = None,
    shared: Build | None = None,
    together: tuple[Scene, ...] = (),
    kept: Kept | None = None,
) -> Build:
    """Run the stages up to the last one asked for.

    shared   a finished build of the same project, of which is used again what stays the same: art for
             every target, colours for the same one, motion for the same scene
    together scenes that are to be drawn in one way with this one
    kept     what builds before this one made; only what depends on a change is made again
    raises   SceneKitError: something in the project does not fit
    """
    build = Build(
        project=project,
        scene=project.scene(scene),
        target=project.target(target),
        options=options or BuildOptions(),
        together=together,
        kept=Kept() if kept is None else kept,
    )
    if not together:
        build.kept.made.clear()
    if shared is not None:
        build.looks = shared.looks
    names = [name for name, _ in STAGES]
    for number, (name, stage) in enumerate(STAGES[: names.index(last) + 1]):
        if progress is not None:
            progress(name, number, names.index(last) + 1)
        if shared is not None and name == "art":
            build.art = shared.art
            build.findings += build.art.findings
            continue
        if shared is not None and name == "colours" and shared.target == build.target:
            build.reduced = shared.reduced
            continue
        stage(build)
    return build
