"""Random scenes are exported, run and proved: pixels, values, and calls and pixels of every operation."""

import random

import pytest
from random_scenes import random_project

from scenekit.build import BuildOptions, run_stages
from scenekit.programs.assemble import COUNTED
from scenekit.verify.prove import prove

PROVING = BuildOptions(play=True, counting=True)


def prove_all(project, target, seed):
    build = run_stages(project, target, options=PROVING)
    stops = sorted({0, 1, *random.Random(seed).sample(range(2, 120), 3)})
    proof = prove(build, stops)
    assert (proof.different, proof.counts_different) == (0, 0), f"seed {seed}"
    assert [result.different for result in proof.ticks] == [0] * (5 if build.scheme.draws else 0)
    assert proof.passed
    assert proof.values > 200
    assert proof.counts == (5 * 2 * len(COUNTED) if build.scheme.draws else 0)


@pytest.mark.parametrize("seed", range(1000, 1040))
def test_the_executor_draws_random_scenes(tmp_path, seed):
    prove_all(random_project(tmp_path / "p", seed), "small", seed)


@pytest.mark.parametrize("seed", range(1040, 1046))
def test_the_executor_draws_random_scenes_on_the_whole_board(tmp_path, seed):
    prove_all(random_project(tmp_path / "p", seed), "board", seed)


@pytest.mark.parametrize("seed", range(1050, 1062))
@pytest.mark.parametrize("target", ["colour", "sixteen"])
def test_a_structured_interpreter_draws_random_scenes(tmp_path, interpreter, target, seed):
    interpreter("brandy")
    prove_all(random_project(tmp_path / "p", seed), target, seed)


@pytest.mark.parametrize("seed", range(1070, 1078))
def test_a_minimal_interpreter_computes_random_scenes(tmp_path, interpreter, seed):
    interpreter("ecma55")
    prove_all(random_project(tmp_path / "p", seed), "tables", seed)
