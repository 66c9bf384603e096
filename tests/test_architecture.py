"""The layers of DEVELOPERS.md, enforced on every import of the package, late ones included."""

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PACKAGE = "scenekit"
LATE = {"PIL": (), "scipy": (), "pygame": ("editor",)}
"""Packages that may stand at the top of a module of these folders only; elsewhere inside functions."""
ONLY_IN = {"pygame": ("editor",), "slimgui": ("editor",), "click": ("cli",)}
"""Packages that may be imported in these folders only, wherever in a module."""
OUTSIDE = {"numpy", "PIL", "scipy", "pygame", "click"}
"""All that is not the standard library."""


@dataclass(frozen=True)
class Import:
    """One import: who imports what, where, and whether it runs when the module is loaded."""

    module: str
    line: int
    target: str
    late: bool
    typing: bool


def read_layers(page: str) -> list[list[str]]:
    """Return the rows of the layer list, the top row first."""
    fence = re.search(r"^```layers\n(.*?)^```", page, re.MULTILINE | re.DOTALL)
    assert fence, "the page has no layer list"
    return [line.split() for line in fence.group(1).splitlines() if line.strip()]


def module_names(root: Path) -> dict[str, Path]:
    """Return every module of the package by its dotted name."""
    found = {}
    for path in sorted((root / PACKAGE).rglob("*.py")):
        parts = path.relative_to(root).with_suffix("").parts
        found[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = path
    return found


def imports_of(module: str, path: Path, known: set[str]) -> Iterator[Import]:
    """Yield every import of a module; `from a.b import c` is of a.b.c where that is a module."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    marks: dict[ast.AST, tuple[bool, bool]] = {tree: (False, False)}
    for node in ast.walk(tree):
        late, typing = marks[node]
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda):
            late = True
        if isinstance(node, ast.If) and "TYPE_CHECKING" in ast.unparse(node.test):
            typing = True
        for child in ast.iter_child_nodes(node):
            marks[child] = (late, typing)
        if isinstance(node, ast.Import):
            for alias in node.names:
                yield Import(module, node.lineno, alias.name, late, typing)
        if isinstance(node, ast.ImportFrom):
            if node.level:
                yield Import(module, node.lineno, f"{PACKAGE}.<relative>", late, typing)
                continue
            base = node.module or ""
            for alias in node.names:
                longer = f"{base}.{alias.name}"
                yield Import(module, node.lineno, longer if longer in known else base, late, typing)
        if isinstance(node, ast.Call) and ast.unparse(node.func) in ("import_module", "__import__"):
            argument = node.args[0] if node.args else None
            if isinstance(argument, ast.Constant) and isinstance(argument.value, str):
                yield Import(module, node.lineno, argument.value, late, typing)


def part_of(name: str) -> str:
    """Return the first part below the package: its folder or single module."""
    parts = name.split(".")
    return parts[1] if len(parts) > 1 else ""


def violations(root: Path) -> list[str]:
    """Return every breach of the layers and of the rules for outside packages."""
    rows = read_layers((root / "DEVELOPERS.md").read_text(encoding="utf-8"))
    height = {part: len(rows) - number for number, row in enumerate(rows) for part in row}
    modules = module_names(root)
    found = [
        f"{name}: not in the layer list" for name in modules if part_of(name) not in ("", "__main__", *height)
    ]
    for name, path in modules.items():
        if part_of(name) in height or part_of(name) in ("", "__main__"):
            for item in imports_of(name, path, set(modules)):
                fault = _fault(item, height)
                if fault:
                    found.append(f"{name}: line {item.line}: {fault}")
    return found


def _fault(item: Import, height: dict[str, int]) -> str:
    here, top = part_of(item.module), item.target.split(".")[0]
    if top == PACKAGE:
        there = part_of(item.target)
        if there in ("", here) or here == "__main__":
            return ""
        if there not in height:
            return f"imports {item.target}, which is in no layer"
        if here == "":
            return f"the package itself imports {item.target}"
        if height[there] >= height[here]:
            return f"imports {item.target}, which is not below {here}"
        return ""
    if top in ONLY_IN and here not in ONLY_IN[top]:
        return f"imports {top}, which belongs to {', '.join(ONLY_IN[top])}"
    if top in LATE and not item.late and not item.typing and here not in LATE[top]:
        return f"imports {top} at its top; do it inside the function that needs it"
    if here == "render" and top in OUTSIDE - {"numpy"}:
        return f"imports {top}; render has numpy only"
    return ""


def test_the_package_keeps_its_layers():
    assert violations(ROOT) == []


def test_every_layer_is_listed_once():
    rows = read_layers((ROOT / "DEVELOPERS.md").read_text(encoding="utf-8"))
    parts = [part for row in rows for part in row]
    assert len(parts) == len(set(parts))
    assert {"build", "render", "verify", "programs", "errors"} <= set(parts)


LAYERS = "```layers\ncli\neditor\nverify calibration\nrender\nmodel\nerrors\n```\n"
CLEAN = {
    "__init__.py": "",
    "errors.py": "class SceneKitError(Exception): ...\n",
    "model/__init__.py": "",
    "model/scene.py": "from scenekit.errors import SceneKitError\n",
    "render/__init__.py": "",
    "render/scene.py": "import numpy\nfrom scenekit.model import scene\n",
    "verify/__init__.py": "",
    "verify/prove.py": "from scenekit.render.scene import x\ndef f():\n    from PIL import Image\n",
    "calibration/__init__.py": "",
    "editor/__init__.py": "import pygame\n",
    "cli/__init__.py": "import click\nfrom scenekit.verify import prove\n",
}


def plant(root: Path, files: dict[str, str]) -> list[str]:
    for name, text in {**CLEAN, **files}.items():
        path = root / PACKAGE / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
    (root / "DEVELOPERS.md").write_text(f"# page\n\n{LAYERS}")
    return violations(root)


def test_a_clean_tree_has_no_violations(tmp_path):
    assert plant(tmp_path, {}) == []


@pytest.mark.parametrize(
    ("file", "text", "words"),
    [
        (
            "model/scene.py",
            "from scenekit.render.scene import x\n",
            "scenekit.render.scene, which is not below model",
        ),
        (
            "model/scene.py",
            "def f():\n    from scenekit.render import scene\n",
            "line 2: imports scenekit.render.scene",
        ),
        (
            "model/scene.py",
            "import scenekit.verify.prove\n",
            "scenekit.verify.prove, which is not below model",
        ),
        ("model/scene.py", "from scenekit import render\n", "scenekit.render, which is not below model"),
        (
            "model/scene.py",
            "from importlib import import_module\nimport_module('scenekit.render')\n",
            "line 2",
        ),
        ("calibration/fit.py", "from scenekit.verify.prove import f\n", "which is not below calibration"),
        ("errors.py", "import scenekit.model.scene\n", "which is not below errors"),
        ("model/scene.py", "from ..errors import x\n", "no layer"),
        ("verify/prove.py", "import pygame\n", "pygame, which belongs to editor"),
        ("verify/prove.py", "def f():\n    import pygame.draw\n", "pygame, which belongs to editor"),
        ("verify/prove.py", "import click\n", "click, which belongs to cli"),
        ("verify/prove.py", "from PIL import Image\n", "PIL at its top"),
        ("model/scene.py", "class A:\n    import scipy.ndimage\n", "scipy at its top"),
        ("model/scene.py", "try:\n    import scipy\nexcept ImportError:\n    pass\n", "scipy at its top"),
        ("render/scene.py", "def f():\n    from PIL import Image\n", "render has numpy only"),
        ("strange/__init__.py", "", "scenekit.strange: not in the layer list"),
        ("__init__.py", "from scenekit.model import scene\n", "the package itself imports"),
    ],
)
def test_a_planted_violation_is_found(tmp_path, file, text, words):
    found = plant(tmp_path, {file: text})
    assert len(found) == 1, found
    assert words in found[0]


def test_an_import_for_types_only_may_stand_at_the_top(tmp_path):
    text = "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    from PIL import Image\n"
    assert plant(tmp_path, {"verify/prove.py": text}) == []


def listed_packages() -> list[str]:
    """Return the packages that list plug-in modules."""
    found = []
    for path in sorted((ROOT / PACKAGE).rglob("__init__.py")):
        names = [node.targets[0] for node in ast.parse(path.read_text()).body if isinstance(node, ast.Assign)]
        if any(isinstance(name, ast.Name) and name.id == "MODULES" for name in names):
            found.append(".".join(path.parent.relative_to(ROOT).parts))
    return found


@pytest.mark.parametrize("package", listed_packages())
def test_plug_in_lists_equal_their_folders(package):
    listed = import_module(package).MODULES
    assert isinstance(listed, list)
    assert len(listed) == len(set(listed))
    folder = ROOT.joinpath(*package.split("."))
    having = []
    for path in sorted(folder.glob("*.py")):
        body = ast.parse(path.read_text(encoding="utf-8")).body
        targets = [t for node in body if isinstance(node, ast.Assign) for t in node.targets]
        targets += [node.target for node in body if isinstance(node, ast.AnnAssign)]
        if any(isinstance(target, ast.Name) and target.id == "PLUGIN" for target in targets):
            having.append(path.stem)
    assert sorted(listed) == having


def test_there_are_plug_in_lists():
    assert {"scenekit.interpreters", "scenekit.slicing", "scenekit.images"} <= set(listed_packages())


def test_the_library_never_prints():
    for name, path in module_names(ROOT).items():
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if (
                isinstance(node, ast.Call)
                and isinstance(node.func, ast.Name)
                and node.func.id in ("print", "input")
            ):
                raise AssertionError(f"{name}: line {node.lineno}: {node.func.id}")
