"""The language server as an editor meets it: a real client, over stdin and stdout."""

from pathlib import Path

import pytest

pytest.importorskip("pygls", reason="the editor extra is not installed")

from lsprotocol import types

from tests.editor.client import Editor, in_editor

pytestmark = pytest.mark.slow

LATCH = """\
plan Latch "Drops the door 😀"
supply PS 12 V 10 A
fuse   F1 3 A
button PB1 no "😀 drop"
solenoid Y1 12 V 12 ohm
rung   PS.+, F1, PB1, Y1, PS.-
"""
LAMP = """\
supply PS 12 V 10 A
fuse   F1 3 A
switch S1 spst positions off on
lamp   L1 12 V 2 W
rung   PS.+, F1, S1, L1, PS.-
"""
PARTS = "type small relay spdt coil 12 V 160 ohm with diode\n"
USER = 'use "parts.plan"\n' + LAMP + "relay  K1 as small\nrung   S1.on, K1.A1-A2, PS.-\n"

BLINKER = "module Blinker\n  port plus minus\n  lamp L1 12 V 2 W\n  rung plus, L1, minus\nend\n"
FITTED = """\
use "parts.plan"
supply PS 12 V 10 A
fuse   F1 3 A
rung   PS.+, F1.1
fit    B1 Blinker : plus F1.2, minus PS.-
"""


def codes(diagnostics: list[types.Diagnostic]) -> list[object]:
    """The checks that found something; None for a problem of the text."""
    return [one.code for one in diagnostics]


def test_findings_come_while_typing_and_a_quick_fix_takes_them_away(tmp_path: Path) -> None:
    """The solenoid has no diode; the remedy that is offered is an edit, and with it made nothing is underlined."""

    async def scene(editor: Editor) -> None:
        editor.open("latch.plan", LATCH)
        (found,) = await editor.told("latch.plan", bool)
        assert found.code == "missing-flyback"
        assert found.range == types.Range(types.Position(4, 9), types.Position(4, 11))
        context = types.CodeActionContext([found])
        asked = types.CodeActionParams(editor.document("latch.plan"), found.range, context)
        (action,) = await editor.client.text_document_code_action_async(asked) or ()
        assert isinstance(action, types.CodeAction)
        assert action.title == "put a diode D1 across Y1, its cathode at Y1.1"
        assert action.edit is not None
        (edit,) = (action.edit.changes or {})[editor.uri("latch.plan")]
        assert edit.new_text == 'diode  D1 "across Y1"\nrung   PS.+, F1, PB1, Y1, PS.-\nrung   Y1.2, D1, Y1.1\n'
        editor.type("latch.plan", 5, 0, 'diode  D1 "across Y1"\nrung   Y1.2, D1, Y1.1\n')
        assert await editor.told("latch.plan", lambda shown: not shown) == []

    in_editor(tmp_path, scene)


def test_what_lies_in_a_shared_file_is_not_put_right_from_a_plan(tmp_path: Path) -> None:
    """Other plans may use it: the remedy is shown with the reason why it can't be chosen."""

    async def scene(editor: Editor) -> None:
        module = "module Drop\nport a b\nsolenoid Y1 12 V 12 ohm\nrung a, Y1, b\nend\n"
        (tmp_path / "parts.plan").write_text(module)
        text = LATCH.replace("solenoid Y1 12 V 12 ohm\n", "fit D Drop : a PB1.14, b PS.-\n").replace(", Y1, PS.-", "")
        editor.open("latch.plan", text.replace("supply", 'use "parts.plan"\nsupply', 1))
        (found,) = await editor.told("latch.plan", bool)
        assert (found.code, found.range.start.line) == ("missing-flyback", 1)
        context = types.CodeActionContext([found])
        asked = types.CodeActionParams(editor.document("latch.plan"), found.range, context)
        (action,) = await editor.client.text_document_code_action_async(asked) or ()
        assert isinstance(action, types.CodeAction)
        assert action.edit is None
        assert action.disabled is not None
        assert "D.Y1 is described in " in action.disabled.reason

    in_editor(tmp_path, scene)


def test_a_half_written_line_keeps_the_findings_of_the_last_whole_text(tmp_path: Path) -> None:
    """The problem is underlined as well, and what was found has moved down with its part."""

    async def scene(editor: Editor) -> None:
        editor.open("latch.plan", LATCH)
        await editor.told("latch.plan", bool)
        editor.type("latch.plan", 0, 0, "# a door\n")
        editor.type("latch.plan", 7, 0, "rung PS.+,")
        shown = await editor.told("latch.plan", lambda shown: None in codes(shown))
        assert sorted(codes(shown), key=str) == [None, "missing-flyback"]
        flyback = next(one for one in shown if one.code)
        assert flyback.range.start.line == 5

    in_editor(tmp_path, scene)


def test_positions_are_counted_in_utf_16(tmp_path: Path) -> None:
    """A sign beyond the basic plane counts twice, before a word and in an edit."""

    async def scene(editor: Editor) -> None:
        editor.open("latch.plan", LATCH.replace("button PB1", "button PB1 PB1"))
        (twice, *_) = await editor.told("latch.plan", bool)
        assert twice.range == types.Range(types.Position(3, 11), types.Position(3, 14))
        editor.type("latch.plan", 0, 29, " or not")
        editor.type("latch.plan", 0, 36, '" x')
        shown = await editor.told("latch.plan", lambda shown: None in codes(shown))
        assert min(one.range.start for one in shown) == types.Position(0, 39)

    in_editor(tmp_path, scene)


def test_hover_tells_what_a_terminal_is_and_when_it_is_joined_to_which_rail(tmp_path: Path) -> None:
    """As soon as the plan was looked through once; of a motor or coil what feeds it."""

    async def scene(editor: Editor) -> None:
        editor.open("lamp.plan", LAMP)
        await editor.told("lamp.plan", lambda _: True)
        asked = types.HoverParams(editor.document("lamp.plan"), types.Position(4, 22))
        told = await editor.client.text_document_hover_async(asked)
        assert told is not None
        assert isinstance(told.contents, types.MarkupContent)
        assert told.contents.value == (
            "**L1** · L1, a lamp; terminals 1 2\n\nfed with PS on, S1 on\n\n"
            "- L1.1 joined to PS.+ with S1 on\n- L1.1 never joined to PS.-\n\n"
            "- L1.2 never joined to PS.+\n- L1.2 always joined to PS.-"
        )

    in_editor(tmp_path, scene)


def test_hover_on_a_wire_tells_what_it_carries(tmp_path: Path) -> None:
    """By its gauge, or any other word that is said of it."""

    async def scene(editor: Editor) -> None:
        editor.open("lamp.plan", LAMP.replace("rung   PS.+, F1", "wire   PS.+ F1.1 : 1 mm2 red\nrung   F1"))
        await editor.told("lamp.plan", lambda _: True)
        asked = types.HoverParams(editor.document("lamp.plan"), types.Position(4, 21))
        told = await editor.client.text_document_hover_async(asked)
        assert told is not None
        assert isinstance(told.contents, types.MarkupContent)
        assert "**PS.+-F1.1** 1 mm² · runs 0.167 A, starts 1.67 A, stalls 0.167 A; may take " in told.contents.value

    in_editor(tmp_path, scene)


def test_completion_offers_what_fits_there(tmp_path: Path) -> None:
    """Ways through the part that is written, each an edit of the whole word; its type stands in an unsaved file."""

    async def scene(editor: Editor) -> None:
        editor.open("user.plan", USER + "rung K1.")
        asked = types.CompletionParams(editor.document("user.plan"), types.Position(8, 8))
        found = await editor.client.text_document_completion_async(asked)
        assert isinstance(found, types.CompletionList)
        assert not found.items
        editor.open("parts.plan", PARTS)
        found = await editor.client.text_document_completion_async(asked)
        assert isinstance(found, types.CompletionList)
        assert [one.label for one in found.items[:3]] == ["K1.A1-A2", "K1.11-12", "K1.11-14"]
        edit = found.items[0].text_edit
        assert isinstance(edit, types.TextEdit)
        assert edit.range == types.Range(types.Position(8, 5), types.Position(8, 8))

    (tmp_path / "parts.plan").write_text("# none yet\n")
    in_editor(tmp_path, scene)


def test_names_are_followed_and_renamed_across_files(tmp_path: Path) -> None:
    """The type is described in one file and used in others, open and on the disk."""

    async def scene(editor: Editor) -> None:
        editor.open("user.plan", USER)
        at = types.Position(6, 14)
        document = editor.document("user.plan")
        there = await editor.client.text_document_definition_async(types.DefinitionParams(document, at))
        word = types.Range(types.Position(0, 5), types.Position(0, 10))
        assert there == [types.Location(editor.uri("parts.plan"), word)]
        asked = types.ReferenceParams(types.ReferenceContext(False), document, at)
        used = await editor.client.text_document_references_async(asked) or ()
        assert {one.uri for one in used} == {editor.uri("user.plan"), editor.uri("again.plan")}
        edit = await editor.client.text_document_rename_async(types.RenameParams(document, at, "cube"))
        assert edit is not None
        changes = edit.changes or {}
        assert {uri: [one.new_text for one in edits] for uri, edits in changes.items()} == {
            editor.uri(name): ["cube"] for name in ("parts.plan", "user.plan", "again.plan")
        }
        rename = types.RenameParams(document, types.Position(6, 7), "S1")
        with pytest.raises(Exception, match="S1 "):
            await editor.client.text_document_rename_async(rename)

    (tmp_path / "parts.plan").write_text(PARTS)
    (tmp_path / "again.plan").write_text(USER.replace("K1", "K7"))
    in_editor(tmp_path, scene)


def test_modules_are_followed_and_renamed_across_files(tmp_path: Path) -> None:
    """From where one is fitted to where it is described, and back to all that fit it."""

    async def scene(editor: Editor) -> None:
        editor.open("box.plan", FITTED)
        document, at = editor.document("box.plan"), types.Position(4, 12)
        there = await editor.client.text_document_definition_async(types.DefinitionParams(document, at))
        word = types.Range(types.Position(0, 7), types.Position(0, 14))
        assert there == [types.Location(editor.uri("parts.plan"), word)]
        asked = types.ReferenceParams(types.ReferenceContext(True), document, at)
        used = await editor.client.text_document_references_async(asked) or ()
        assert {one.uri for one in used} == {editor.uri("box.plan"), editor.uri("parts.plan")}
        edit = await editor.client.text_document_rename_async(types.RenameParams(document, at, "Lantern"))
        assert edit is not None
        changed = {uri: [one.new_text for one in edits] for uri, edits in (edit.changes or {}).items()}
        assert changed == {editor.uri(name): ["Lantern"] for name in ("parts.plan", "box.plan")}

    (tmp_path / "parts.plan").write_text(BLINKER)
    in_editor(tmp_path, scene)


def test_a_file_is_outlined_coloured_and_laid_out(tmp_path: Path) -> None:
    """Parts with their labels; every word its colour; the layout of `tidy` as an edit of what changes."""

    async def scene(editor: Editor) -> None:
        editor.open("latch.plan", LATCH.replace("fuse   F1 3 A", "fuse F1 3A"))
        document = editor.document("latch.plan")
        outline = await editor.client.text_document_document_symbol_async(types.DocumentSymbolParams(document)) or ()
        assert [one.name for one in outline] == ["PS", "F1", "PB1", "Y1"]
        colours = await editor.client.text_document_semantic_tokens_full_async(types.SemanticTokensParams(document))
        assert colours is not None
        assert list(colours.data[:15]) == [0, 0, 4, 0, 0, 0, 5, 5, 1, 0, 0, 6, 19, 6, 0]
        options = types.FormattingOptions(4, True)
        edits = await editor.client.text_document_formatting_async(types.DocumentFormattingParams(document, options))
        assert [(one.range.start.line, one.new_text) for one in edits or ()] == [
            (1, "\nsupply PS 12 V 10 A\nfuse   F1 3 A\n")
        ]

    in_editor(tmp_path, scene)
