"""Brings the open sheets that the tests use, by package name and checksum.

Each file comes out of a Debian package with `apt-get download`, which needs no rights; what cannot
be fetched is named, and the tests that need it are skipped, or fail where CI=true.
"""

import hashlib
import io
import shutil
import subprocess
import sys
import tempfile
import zipfile
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
FOLDER = ROOT / ".open_data"


@dataclass(frozen=True)
class Wanted:
    """A file within a package; `inner` is a member of the zip archive that `path` names, or ""."""

    name: str
    package: str
    path: str
    inner: str
    sha256: str
    credit: str


WANTED = (
    Wanted(
        name="human_run.png",
        package="mrrescue",
        path="usr/share/games/mrrescue/mrrescue.love",
        inner="data/human_1_run.png",
        sha256="b31465333b2f739f3fb6cd3c01bc67cc04a94034570bda50fc55db263ec814aa",
        credit="Tangram Games 2013, CC-BY-SA-3.0; 20 x 32 px, 0.22 s a frame, 4 frames (human.lua, 30)",
    ),
    Wanted(
        name="charcoal_roll.png",
        package="mrrescue",
        path="usr/share/games/mrrescue/mrrescue.love",
        inner="data/charcoal_roll.png",
        sha256="aac22bc23bf21b4beecbc9cdba2e4e932afc9acb6c4f09885b6f033a9f887f6c",
        credit="Tangram Games 2013, CC-BY-SA-3.0; 32 x 32 px, 0.034 s a frame, 19 frames (charcoal.lua, 30)",
    ),
)


def missing() -> list[Wanted]:
    """Return what is not there yet, or is not what it should be."""
    return [wanted for wanted in WANTED if digest_of(FOLDER / wanted.name) != wanted.sha256]


def digest_of(path: Path) -> str:
    """Return the SHA-256 of a file, or "" when there is none."""
    return hashlib.sha256(path.read_bytes()).hexdigest() if path.is_file() else ""


def fetch() -> list[str]:
    """Fetch what is missing and return a line for each file that could not be had."""
    failed = []
    for package in sorted({wanted.package for wanted in missing()}):
        with tempfile.TemporaryDirectory() as temporary:
            problem = unpack(package, Path(temporary))
            for wanted in missing():
                if wanted.package == package:
                    reason = problem or take(wanted, Path(temporary) / "tree")
                    failed += [f"{wanted.name}: {reason}"] if reason else []
    return failed


def unpack(package: str, folder: Path) -> str:
    """Download and unpack a package; return what went wrong, or ""."""
    for tool in ("apt-get", "dpkg-deb"):
        if shutil.which(tool) is None:
            return f"{tool} is not on this machine"
    result = subprocess.run(
        ["apt-get", "download", package], cwd=folder, capture_output=True, text=True, check=False
    )
    files = sorted(folder.glob("*.deb"))
    if result.returncode != 0 or not files:
        return f"apt-get download {package} failed: {result.stderr.strip().splitlines()[-1:] or 'no file'}"
    result = subprocess.run(
        ["dpkg-deb", "-x", str(files[0]), str(folder / "tree")], capture_output=True, check=False
    )
    return "" if result.returncode == 0 else f"{files[0].name} cannot be unpacked"


def take(wanted: Wanted, tree: Path) -> str:
    """Copy one file out of an unpacked package after checking its sum; return what went wrong, or ""."""
    path = tree / wanted.path
    if not path.is_file():
        return f"{wanted.path} is not in package {wanted.package}"
    data = path.read_bytes()
    if wanted.inner:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            data = archive.read(wanted.inner)
    if hashlib.sha256(data).hexdigest() != wanted.sha256:
        return "has another checksum than expected"
    FOLDER.mkdir(exist_ok=True)
    (FOLDER / wanted.name).write_bytes(data)
    (FOLDER / f"{wanted.name}.credit.txt").write_text(wanted.credit + "\n", encoding="utf-8")
    return ""


def main() -> int:
    """Fetch and say what is there."""
    failed = fetch()
    for line in failed:
        print(f"not fetched: {line}")
    print(f"open data: {len(WANTED) - len(missing())} of {len(WANTED)} files in {FOLDER}")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
