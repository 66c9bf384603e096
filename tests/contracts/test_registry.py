"""Plug-ins are found by their lists, and data files by their folders."""

import sys
import types

import pytest

from scenekit.errors import UnknownNameError
from scenekit.interpreters.outcome import Reader
from scenekit.registry import choose, data_files, iterate_modules, load_plugins


def test_plug_ins_come_in_the_order_of_their_list():
    assert next(iter(load_plugins("scenekit.interpreters", Reader))) == "executor"


def test_a_module_without_a_plug_in_is_a_programming_fault(monkeypatch):
    package, module = types.ModuleType("pack"), types.ModuleType("pack.one")
    package.MODULES = ["one"]
    monkeypatch.setitem(sys.modules, "pack", package)
    monkeypatch.setitem(sys.modules, "pack.one", module)
    with pytest.raises(TypeError, match="PLUGIN must be a Reader"):
        load_plugins("pack", Reader)
    module.PLUGIN = "something else"
    with pytest.raises(TypeError, match="PLUGIN must be a Reader"):
        load_plugins("pack", Reader)


def test_data_files_are_sorted_and_only_toml(tmp_path):
    for name in ("b.toml", "a.toml", "c.txt"):
        (tmp_path / name).write_text("")
    assert list(data_files(tmp_path)) == ["a", "b"]
    assert data_files(tmp_path / "nowhere") == {}


def test_an_unknown_name_suggests_the_nearest():
    assert choose("thing", "one", {"one": 1, "two": 2}) == 1
    with pytest.raises(
        UnknownNameError, match="thing: unknown name 'onne'; did you mean 'one'; known: one, two"
    ):
        choose("thing", "onne", {"one": 1, "two": 2})
    with pytest.raises(UnknownNameError, match="known: none"):
        choose("thing", "x", {})


def test_modules_of_a_package_are_listed_sorted():
    names = list(iterate_modules("scenekit.interpreters"))
    assert names == sorted(names)
    assert "executor" in names
    assert "__init__" not in names
