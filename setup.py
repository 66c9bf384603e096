"""Puts the demo project into the package when it is built; all else stands in pyproject.toml."""

import shutil
from pathlib import Path

from setuptools import setup
from setuptools.command.build_py import build_py

DEMO = Path(__file__).parent / "demo_assets"


class WithDemo(build_py):
    """Copies the demo into what is built."""

    def run(self) -> None:
        """Build, then copy; what is installed for development finds the demo beside the package."""
        super().run()
        if not getattr(self, "editable_mode", False):
            target = Path(self.build_lib) / "scenekit" / "demo_assets"
            shutil.rmtree(target, ignore_errors=True)
            shutil.copytree(DEMO, target, ignore=shutil.ignore_patterns("out", "*.previous", ".*"))


setup(cmdclass={"build_py": WithDemo})
