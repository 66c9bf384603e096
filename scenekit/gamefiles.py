"""Art and tables of all scenes of a game in files: what they share in one, the rest in one for each."""

from collections.abc import Sequence
from dataclasses import replace

from scenekit.build import Build, basic_bundle
from scenekit.errors import ExportError
from scenekit.model.arrays import Indices
from scenekit.model.project import Project
from scenekit.plan.schemes import BLIT, PAGE, RUNS
from scenekit.programs.changing import Changing
from scenekit.programs.streams import Streams
from scenekit.routines.language import Table
from scenekit.tables.bundle import Bundle, blit_tables, run_arrays
from scenekit.tables.image_files import indexed_file, page_file, raw_pixels
from scenekit.tables.pieces import pack
from scenekit.tables.scenes import SceneTables


def shared_sizes(build: Build, common: Sequence[Indices]) -> tuple[Table, ...]:
    """Return the sizes of shared pieces, where these are read pixel by pixel before any scene."""
    if build.scheme is not RUNS or not common:
        return ()
    return (
        Table("piece_w", tuple(picture.shape[1] for picture in common), "pixels of each shared piece"),
        Table("piece_h", tuple(picture.shape[0] for picture in common), ""),
    )


def place_art(builds: Sequence[Build], common: Sequence[Indices]) -> tuple[int, ...]:
    """Give every scene its bundle; returns the rows of shared art, then one after the last of each scene's.

    The large maps of all scenes stand one after the other in one file.

    raises   ExportError: art does not fit the hidden page
    """
    first = builds[0]
    page = first.scheme is PAGE
    width = first.mode.width_px if page else 0
    places, packed = pack(common, first.reduced.transparent, width)
    top = packed.shape[0] if common else 0
    ends = [top + build.pieces.packed.shape[0] for build in builds]
    if page:
        _check_page(builds, ends)
    map_bytes = 0
    for build in builds:
        build.map_start = map_bytes
        bundle = basic_bundle(build)
        map_bytes += sum(len(data) for data in bundle.files.values())
        tables, arrays, variables = bundle.tables, bundle.arrays, bundle.variables
        if first.scheme in (BLIT, PAGE):
            down = top if page else 0
            own = tuple((x, y + down) for x, y in build.pieces.places)
            tables += blit_tables(replace(build.pieces, places=(*places, *own)))
        if page:
            variables += (("art_w", width), ("art_h", max(ends)), ("all_bits", build.mode.entries - 1))
        if first.scheme is RUNS:
            arrays += run_arrays(build.pieces, build.reduced.transparent)
        build.bundle = Bundle(tables=tables, arrays=arrays, variables=variables, files=bundle.files)
    return (top, *ends)


def _check_page(builds: Sequence[Build], ends: Sequence[int]) -> None:
    mode = builds[0].mode
    for build, end in zip(builds, ends, strict=True):
        if 2 * end > mode.height_px:
            raise ExportError(
                f"scene {build.scene.name}: its art and the shared art take {end} rows of {mode.width_px} px "
                f"packed; a hidden page holds {mode.height_px // 2} and as much for masks; "
                "use fewer or smaller frames and tiles"
            )


def art_files(
    project: Project,
    builds: Sequence[Build],
    common: Sequence[Indices],
    tables: SceneTables,
    streams: Streams,
    rows: tuple[int, ...],
) -> tuple[dict[str, bytes], Changing]:
    """Return the files of tables and art, and how a program comes by them."""
    first = builds[0]
    shared, *own = [_art(first, common), *(_art(b, b.pieces.pictures[len(common) :]) for b in builds)]
    kind = first.abilities.image_format
    image = first.scheme is BLIT
    files: dict[str, bytes] = {}

    def keep(name: str, data: bytes) -> str:
        if data:
            files[name] = data
        return name if data else ""

    if first.extras.map_file:
        keep(first.extras.map_file, b"".join(b.bundle.files[first.extras.map_file] for b in builds))
    shared_image = keep(f"{project.name}-shared.{kind}", shared if image and common else b"")
    images = [keep(f"{b.name}-scene.{kind}", a if image else b"") for b, a in zip(builds, own, strict=True)]
    pixels = shared if common and not image else b""
    changing = Changing(
        names=tuple(build.scene.name for build in builds),
        tables=tables,
        form=streams.form,
        in_files=streams.in_files,
        used=streams.used,
        packed=streams.text,
        data=streams.data,
        skips=streams.skips,
        shared_file=keep(f"{project.name}-shared.raw", streams.shared + pixels),
        files=tuple(
            keep(f"{b.name}-scene.raw", stream + (b"" if image else art))
            for b, stream, art in zip(builds, streams.scenes, own, strict=True)
        ),
        shared_image=shared_image,
        images=tuple(images),
        shared_pieces=len(common),
        rows=rows,
        single=not (first.dialect.words.get("begin_frame") or first.dialect.words.get("end_frame")),
    )
    return files, changing


def _art(build: Build, pictures: Sequence[Indices]) -> bytes:
    """Return pieces as a file of the scheme's kind, without anything for a scheme that does not draw."""
    if not build.scheme.draws:
        return b""
    if build.scheme is RUNS:
        return raw_pixels(pictures)
    page = build.scheme is PAGE
    _, packed = pack(pictures, build.reduced.transparent, build.mode.width_px if page else 0)
    if page:
        return page_file(packed)
    return indexed_file(
        packed, build.reduced.palette, build.abilities.image_format, build.reduced.transparent
    )
