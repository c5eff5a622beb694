"""What a comparison says in a sentence: how far two plans do the same, and what no combination shows."""

from pathlib import Path

import pytest

from circuitcheck.cli import main

OLD = """\
supply PS 12 V 1 A
fuse F1 1 A
switch S1 spdt positions left off right
relay K1 spdt coil 12 V 160 ohm with diode
lamp L1 L2 12 V 2 W
rung PS.+, F1, S1.com-left, L1, PS.-
rung K1.A1, K1.A2
rung F1.2, K1.11-14, L2, PS.-
"""
WITHOUT_L2 = OLD.replace("rung F1.2, K1.11-14, L2, PS.-\n", "")


@pytest.mark.parametrize(
    ("new", "says"),
    [
        (OLD, "The behaviour is the same, in every combination of contacts."),
        (WITHOUT_L2, "Only in combinations that operation doesn't reach, such as a finger on a relay's armature, does "
                     "something differ: L2."),
        (OLD.replace("left off right", "left right"), "S1 has the position off only in old."),
        (OLD + "wire L1.1 K1.12\n", "The behaviour differs: L1 does something else."),
    ],
)  # fmt: skip
def test_how_far_two_plans_do_the_same(
    new: str, says: str, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Everywhere, or wherever operation comes to; a position that only one of them has is told by itself."""
    monkeypatch.chdir(tmp_path)
    Path("old.plan").write_text(OLD, encoding="utf-8")
    Path("new.plan").write_text(new, encoding="utf-8")
    main(["compare", "old.plan", "new.plan", "--color", "never"])
    assert says in " ".join(capsys.readouterr().out.split())


def test_a_wire_that_is_moved_and_one_that_grows_are_told_apart(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Gone, new, or the same wire with another gauge."""
    monkeypatch.chdir(tmp_path)
    before = WITHOUT_L2 + "wire S1.right K1.11 : 1 mm2\nwire K1.14 L2.1\n"
    Path("old.plan").write_text(before, encoding="utf-8")
    after = before.replace("1 mm2", "2.5 mm2").replace("K1.14 L2.1", "K1.12 L2.1")
    Path("new.plan").write_text(after, encoding="utf-8")
    main(["compare", "old.plan", "new.plan", "--format", "markdown"])
    said = capsys.readouterr().out
    assert "gone: K1.14 to L2.1" in said
    assert "new: K1.12 to L2.1" in said
    assert "S1.right to K1.11: " in said
