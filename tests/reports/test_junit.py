"""Findings as JUnit XML: a published schema, what fails, and signs that XML can't hold."""

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest
import xmlschema

from circuitcheck.reports.findings_junit import findings_junit
from tests.reports.goldens import WRONG
from tests.reports.made_up import HOSTILE, finding, outcome, outcomes_of_wrong_examples, unreadable

ROOT = Path(__file__).parent.parent.parent


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder that we are in, with a plan that is wrong."""
    monkeypatch.chdir(tmp_path)
    Path("wrong.plan").write_text(WRONG, encoding="utf-8")
    return tmp_path


@pytest.fixture(scope="module")
def schema() -> xmlschema.XMLSchema:
    """The schema of the Jenkins xUnit plugin; see schemas/README.md."""
    return xmlschema.XMLSchema(str(Path(__file__).parent / "schemas" / "junit-10.xsd"))


def kept(report: str, schema: xmlschema.XMLSchema) -> ElementTree.Element:
    """The report, which keeps the schema but for one thing: a case names its file, as GitLab reads it."""
    root = ElementTree.fromstring(report.encode("utf-8"))
    schema.validate(re.sub(r'(<testcase [^>]*) file="[^"]*"', r"\1", report))
    return root


def test_all_examples_keep_a_published_schema(schema: xmlschema.XMLSchema, monkeypatch: pytest.MonkeyPatch) -> None:
    """A suite for each plan, a case for each check."""
    monkeypatch.chdir(ROOT / "examples")
    suites = kept(findings_junit(outcomes_of_wrong_examples()), schema).findall("testsuite")
    assert [suite.get("name") for suite in suites] == [path.as_posix() for path in sorted(Path("wrong").glob("*.plan"))]
    for suite in suites:
        names = [case.get("name") for case in suite]
        assert len(names) == len(set(names)) == int(suite.get("tests", ""))
        assert {case.get("file") for case in suite} == {f"examples/{suite.get('name')}"}
        assert {case.get("classname") for case in suite} == {f"examples/{suite.get('name')}"}


@pytest.mark.parametrize("what", HOSTILE)
def test_whatever_a_plan_says_the_report_is_xml(what: str, schema: xmlschema.XMLSchema) -> None:
    """Signs that XML can't hold are replaced; the others come through."""
    examined = outcome(finding(what), file=f"{what}.plan")
    (first, second) = kept(findings_junit([examined, unreadable(what)]), schema)
    assert len(first.findall("testcase/failure")) == 1
    error = second.find("testcase/error")
    assert error is not None
    assert error.get("message", "").isprintable()
    assert (error.text or "").startswith("slip.plan:1:2: ")


def test_a_case_fails_where_the_call_would(schema: xmlschema.XMLSchema) -> None:
    """One failure for all that a check found; what doesn't fail is told in the case's output."""
    found = [
        finding("M1 smokes"),
        finding("M2 smokes"),
        finding("M3 is old", "note"),
        finding("M4 hums", "warning", check="dead-part"),
    ]
    (suite,) = kept(findings_junit([outcome(*found)._replace(failing=("error",))]), schema)
    cases = {case.get("name"): case for case in suite}
    failure = cases["supply-short"].find("failure")
    assert failure is not None
    assert failure.get("message") == "M1 smokes."
    assert "error: M2 smokes.\n" in (failure.text or "")
    assert "M3 is old" not in (failure.text or "")
    assert "note: M3 is old." in (cases["supply-short"].findtext("system-out") or "")
    assert cases["dead-part"].find("failure") is None
    assert "warning: M4 hums." in (cases["dead-part"].findtext("system-out") or "")
    assert suite.get("failures") == "1"
    assert suite.get("time") == "1.5"


def test_a_case_is_skipped_where_nothing_that_was_found_counts(schema: xmlschema.XMLSchema) -> None:
    """With the reason; where something counts besides, the case fails or passes by that."""
    accepted = finding("M1 hums")._replace(accepted="it always did")
    (suite,) = kept(findings_junit([outcome(accepted)]), schema)
    (skipped,) = suite.findall("testcase/skipped")
    assert skipped.get("message") == "accepted: it always did"
    assert (suite.get("failures"), suite.get("skipped")) == ("0", "1")
    (suite,) = kept(findings_junit([outcome(accepted, finding("M2 hums"))]), schema)
    assert (suite.get("failures"), suite.get("skipped")) == ("1", "0")
    assert "M1 hums" in (suite.findtext("testcase/system-out") or "")


def test_a_plan_without_a_verdict_is_an_error(schema: xmlschema.XMLSchema) -> None:
    """Not a failure: nothing was proved of it, right or wrong."""
    (suite,) = kept(findings_junit([unreadable("no part K7")]), schema)
    (case,) = suite
    assert (case.get("name"), case.get("classname")) == ("no-verdict", "slip.plan")
    assert case.findtext("error") == "slip.plan:1:2: no part K7.\nno part K7"
    assert (suite.get("errors"), suite.get("failures")) == ("1", "0")
