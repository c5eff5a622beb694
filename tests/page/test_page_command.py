"""`circuitcheck page`: what it writes, and what it answers."""

import re
from base64 import b64encode
from hashlib import sha256
from pathlib import Path

import pytest

from circuitcheck.cli import main
from circuitcheck.reports.page_html import FOLDER, SCRIPTS
from tests.reports.goldens import CURTAIN


@pytest.fixture
def page(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    """The page of the curtain, as the command writes it."""
    monkeypatch.chdir(tmp_path)
    Path("curtain.plan").write_text(CURTAIN, encoding="utf-8")
    assert main(["page", "curtain.plan", "-o", "curtain.html"]) == 0
    return Path("curtain.html").read_text(encoding="utf-8")


def test_one_file_is_written_that_loads_nothing(page: str) -> None:
    """No address but that of the drawings' namespace, which nobody fetches; links lead within the page."""
    assert set(re.findall(r"\bhttps?://[^\s\"'<>)]+", page)) == {"http://www.w3.org/2000/svg"}
    assert all(link.startswith("#") for link in re.findall(r"\b(?:href|src)=[\"']?([^\"'\s>]+)", page))
    assert "@import" not in page
    assert not re.search(r"url\((?!#)", page)


def test_the_policy_of_the_page_names_its_own_script_by_its_hash(page: str) -> None:
    """So that no other runs, whatever a plan's names might bring along."""
    (script,) = re.findall(r"<script>(.*?)</script>", page, re.S)
    assert f"script-src 'sha256-{b64encode(sha256(script.encode()).digest()).decode()}'" in page
    assert "default-src 'none'" in page


def test_the_same_plan_gives_the_same_bytes(page: str) -> None:
    """So that a page that is kept beside a plan changes only with it."""
    assert main(["page", "curtain.plan", "-o", "again.html"]) == 0
    assert Path("again.html").read_text(encoding="utf-8") == page


def test_every_script_beside_the_frame_is_in_the_page() -> None:
    """None is forgotten."""
    assert {file.stem for file in FOLDER.glob("*.js")} == set(SCRIPTS)


def test_a_plan_that_cannot_be_read_has_no_page(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """It is told what is wrong with it, and nothing is written."""
    (tmp_path / "slip.plan").write_text("supply PS 12 V\nrelay K1 spdt coil 12\n", encoding="utf-8")
    assert main(["page", str(tmp_path / "slip.plan"), "-o", str(tmp_path / "slip.html")]) == 2
    assert "slip.plan:2" in capsys.readouterr().err
    assert not (tmp_path / "slip.html").exists()


def test_a_page_without_a_name_is_a_wrong_call() -> None:
    """A page is for a browser, not for a terminal."""
    with pytest.raises(SystemExit) as ended:
        main(["page", "curtain.plan"])
    assert ended.value.code == 2
