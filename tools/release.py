"""Builds wheel and sdist whose bytes depend on the sources alone, and checks that by building twice.

usage: python tools/release.py [FOLDER]     (default: dist)
"""

import gzip
import hashlib
import io
import os
import shutil
import subprocess
import sys
import tarfile
import tempfile
import zipfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
MOMENT = 1_767_225_600
"""2026-01-01 UTC: the time that every file in what is built bears."""

LEFT_OUT = (".git", ".venv*", "out", "dist", "build", "*.egg-info", "__pycache__", ".*_cache", ".open_data")
BACKEND = "import sys; from setuptools import build_meta as b; print(getattr(b, sys.argv[1])(sys.argv[2]))"


def main() -> None:
    """Build twice, compare, and keep one."""
    target = Path(sys.argv[1] if len(sys.argv) > 1 else ROOT / "dist").resolve()
    first, second = built(), built()
    if first != second:
        raise SystemExit("two builds of the same sources differ")
    target.mkdir(parents=True, exist_ok=True)
    for name, data in first.items():
        (target / name).write_bytes(data)
        print(f"{name}  {len(data)} bytes  sha256 {hashlib.sha256(data).hexdigest()}")


def built() -> dict[str, bytes]:
    """Return wheel and sdist by name, built from a copy of the sources."""
    with tempfile.TemporaryDirectory() as folder:
        source, tools, out = (Path(folder) / name for name in ("source", "tools", "out"))
        shutil.copytree(ROOT, source, ignore=shutil.ignore_patterns(*LEFT_OUT))
        out.mkdir()
        pip = [sys.executable, "-m", "pip", "install", "--quiet", "--disable-pip-version-check"]
        subprocess.run([*pip, "--target", str(tools), "setuptools>=77", "wheel"], check=True)
        environment = {**os.environ, "PYTHONPATH": str(tools), "SOURCE_DATE_EPOCH": str(MOMENT)}
        for step in ("build_sdist", "build_wheel"):
            command = [sys.executable, "-c", BACKEND, step, str(out)]
            subprocess.run(command, cwd=source, env=environment, check=True, stdout=subprocess.DEVNULL)
        return {
            path.name: even_zip(path) if path.suffix == ".whl" else even_tar(path)
            for path in sorted(out.iterdir())
        }


def even_zip(path: Path) -> bytes:
    """Return a wheel with its files in order, of one time and one mode."""
    buffer = io.BytesIO()
    with (
        zipfile.ZipFile(path) as old,
        zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as new,
    ):
        for name in sorted(old.namelist()):
            if not name.endswith("/"):
                entry = zipfile.ZipInfo(name, (2026, 1, 1, 0, 0, 0))
                entry.external_attr, entry.create_system = 0o100644 << 16, 3
                entry.compress_type = zipfile.ZIP_DEFLATED
                new.writestr(entry, old.read(name))
    return buffer.getvalue()


def even_tar(path: Path) -> bytes:
    """Return an sdist with its files in order, of one time, mode and owner."""
    buffer = io.BytesIO()
    with (
        tarfile.open(path) as old,
        gzip.GzipFile("", "wb", 9, buffer, mtime=MOMENT) as packed,
        tarfile.open(fileobj=packed, mode="w", format=tarfile.PAX_FORMAT) as new,
    ):
        for member in sorted(old.getmembers(), key=lambda member: member.name):
            if member.isfile():
                entry = tarfile.TarInfo(member.name)
                entry.size, entry.mtime, entry.mode = member.size, MOMENT, 0o644
                new.addfile(entry, old.extractfile(member))
    return buffer.getvalue()


if __name__ == "__main__":
    main()
