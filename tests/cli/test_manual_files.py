"""The manual's page of files names every key that is read, and says which may be left out."""

import re
import tomllib
from collections.abc import Iterator
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest

from scenekit.cli.commands.manual_command import page_text
from scenekit.errors import SceneKitError
from scenekit.model.fields import Fields
from scenekit.model.project import Project, read_project
from scenekit.model.scene import read_scene

BLOCKS = re.findall(r"```toml\n(.*?)```", page_text("files"), re.DOTALL)
WANTED_BY_OTHERS = {"wakes", "follow", "colours", "sheet"}
"""Keys that may be left out, not in the example: its sleepers, turn, start colours and steps need them."""


def read(tables: list[dict[str, Any]]) -> Project:
    project, scene = tables
    return read_project(project, Path(), (read_scene(scene, "quay"),))


def test_every_key_that_is_read_stands_on_the_page(monkeypatch) -> None:
    asked: set[str] = set()
    value, has = Fields.value, Fields.has
    monkeypatch.setattr(Fields, "value", lambda self, key, *more: asked.add(key) or value(self, key, *more))
    monkeypatch.setattr(Fields, "has", lambda self, key: asked.add(key) or has(self, key))
    read([tomllib.loads(block) for block in BLOCKS])
    shown = set(re.findall(r"\b([a-z_]+)(?: =|\]\])", "".join(BLOCKS))) | {"camera", "panel"}
    assert len(asked) > 100
    assert asked <= shown | {"facings"}, sorted(asked - shown)


def lines() -> Iterator[tuple[int, list[str | int], str]]:
    """Yield block, path of the key, and comment of each line that gives one."""
    for number, block in enumerate(BLOCKS):
        table: list[str | int] = []
        counts: dict[str, int] = {}
        for line in block.splitlines():
            if header := re.match(r"(\[\[?)([a-z_.]+)", line):
                *outer, last = header[2].split(".")
                table = [part for name in outer for part in (name, counts.get(name, 0))]
                if outer == ["panel"]:
                    table = ["panel"]
                if header[1] == "[[":
                    key = header[2]
                    counts[key] = counts.get(key, -1) + 1
                    counts |= {name: -1 for name in counts if name.startswith(f"{key}.")}
                    table += [last, counts[key]]
                else:
                    table += [last]
            elif given := re.match(r"([a-z_]+) = [^#]*(?:#(.*))?", line):
                yield number, [*table, given[1]], given[2] or ""


@pytest.mark.parametrize(("number", "path", "comment"), list(lines()), ids=lambda part: str(part)[:60])
def test_what_may_be_left_out_is_said(number: int, path: list[str | int], comment: str) -> None:
    tables = [tomllib.loads(block) for block in BLOCKS]
    read(deepcopy(tables))
    inner: Any = tables[number]
    for part in path[:-1]:
        inner = inner[part]
    del inner[path[-1]]
    if "else" not in comment.split():
        with pytest.raises(SceneKitError):
            read(tables)
    elif path[-1] not in WANTED_BY_OTHERS:
        read(tables)
