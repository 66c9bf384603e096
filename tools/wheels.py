"""What setuptools does beside pyproject.toml: the demo goes into the wheel, all sources into the sdist."""

import shutil
from pathlib import Path

from setuptools.command.build_py import build_py
from setuptools.command.sdist import sdist

ROOT = Path(__file__).resolve().parents[1]
LEFT_OUT = shutil.ignore_patterns("out", "*.previous", ".*")
SOURCES = ("demo_assets", "tools", "tests")
TEXTS = ("LICENSE", "README.md", "DEVELOPERS.md", "CHANGELOG.md")
ENDINGS = {".py", ".png", ".toml", ".csv", ".words", ".txt", ".bas"}


class WithDemo(build_py):
    """Copies the demo into what is built."""

    def run(self) -> None:
        """Build, then copy; what is installed for development finds the demo beside the package."""
        super().run()
        if not getattr(self, "editable_mode", False):
            target = Path(self.build_lib) / "scenekit" / "demo_assets"
            shutil.rmtree(target, ignore_errors=True)
            shutil.copytree(ROOT / "demo_assets", target, ignore=LEFT_OUT)


class WithSources(sdist):
    """Adds the demo, the tools and the tests."""

    def make_release_tree(self, base_dir: str, files: list[str]) -> None:
        """Lay out the usual files and these."""
        found = [path for folder in SOURCES for path in sorted((ROOT / folder).rglob("*"))]
        kept = [path.relative_to(ROOT) for path in found if path.suffix in ENDINGS and path.is_file()]
        more = [*TEXTS, *(str(path) for path in kept if "out" not in path.parts)]
        super().make_release_tree(base_dir, sorted({*files, *more}))
