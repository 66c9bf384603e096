"""Programs in a session: values, screens with their colours, errors by line."""

import pytest

from scenekit.dialects.dialect import load_dialect
from scenekit.errors import VerifyError
from scenekit.interpreters.outcome import Run
from scenekit.interpreters.session import PLUGIN

HEAD = (
    '10 SCREEN 9:CLS\n20 PALETTE 5,36\n30 PSET(3,2),5\n40 OPEN "SHOT.TXT" FOR OUTPUT AS 1:PRINT#1,0:CLOSE 1\n'
)
SAYS = '50 OPEN "said.txt" FOR OUTPUT AS 2:PRINT#2,-7:PRINT#2,32768!:CLOSE 2\n60 SYSTEM\n'


def run(folder, text, screens=1, time_limit_s=60):
    dialect = load_dialect("pcbasic", folder)
    if not PLUGIN.available(dialect):
        pytest.skip(f"the interpreter is missing; to install it: {dialect.package}")
    (folder / "p.bas").write_text(text, encoding="ascii", newline="\n")
    return PLUGIN.run(
        Run(folder=folder, program="p.bas", dialect=dialect, screens=screens, time_limit_s=time_limit_s)
    )


def test_values_and_the_recoloured_pixel_come_back(tmp_path):
    outcome = run(tmp_path, HEAD + SAYS)
    assert outcome.said == (-7, 32_768)
    assert outcome.screens[0].shape == (350, 640, 3)
    # 36 = bits 5 and 2, a third and two thirds of red: full red
    assert outcome.screens[0][2, 3].tolist() == [255, 0, 0]
    assert outcome.screens[0].any(axis=-1).sum() == 1
    assert outcome.version


def test_an_error_names_its_line(tmp_path):
    with pytest.raises(VerifyError, match="Syntax error in 20"):
        run(tmp_path, "10 A=1\n20 B C D\n", 0)


def test_a_missing_screen_is_an_error(tmp_path):
    with pytest.raises(VerifyError, match=r"shot1.txt: the program did not save"):
        run(tmp_path, HEAD + SAYS, 2)


def test_a_program_that_never_ends_is_stopped(tmp_path):
    with pytest.raises(VerifyError, match="still running after 3 s"):
        run(tmp_path, "10 GOTO 10\n", 0, 3)
