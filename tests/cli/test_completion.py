"""Completion in the shell: the script, and what it is answered."""

import os
import subprocess
import sys

import pytest


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_each_shell_gets_its_script(shell):
    done = run({"_SCENEKIT_COMPLETE": f"{shell}_source"})
    assert "_SCENEKIT_COMPLETE" in done.stdout


def test_commands_are_completed():
    done = run({"_SCENEKIT_COMPLETE": "bash_complete", "COMP_WORDS": "scenekit exp", "COMP_CWORD": "1"})
    assert "plain,export" in done.stdout


def run(more):
    code = "from scenekit.cli.main import run; run()"
    environment = {**os.environ, **more}
    return subprocess.run(
        [sys.executable, "-c", code], env=environment, capture_output=True, text=True, check=False
    )
