"""Sets scenekit up beside this clone and builds, looks at, budgets, exports and proves the demo.

Run it with any Python from 3.11 on: python3 tools/demo.py
It needs no screen and no BASIC interpreter; what an interpreter could prove and is missing is named.
"""

from environment import ROOT, prepare, run


def main() -> None:
    """Set up, then run the demo."""
    python = prepare()
    run([str(python), "-m", "scenekit", "demo", "--out", str(ROOT / "out" / "demo")])


if __name__ == "__main__":
    main()
