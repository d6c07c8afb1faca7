"""Sessions as real editors hold them, with the capabilities that each of them announces."""

import asyncio

import pytest_lsp
from conftest import position, program, slip
from lsprotocol import types
from pytest_lsp import ClientServerConfig, LanguageClient, client_capabilities

EDITORS = ["neovim@v0.11.0", "neovim@v0.9.1", "emacs@v29.1", "visual-studio-code@v1.65.2"]
PUBLISH = types.TEXT_DOCUMENT_PUBLISH_DIAGNOSTICS


@pytest_lsp.fixture(params=EDITORS, config=ClientServerConfig(server_command=program()))
async def client(request, lsp_client: LanguageClient, folder):
    capabilities = client_capabilities(request.param)
    watching = asyncio.Event()

    @lsp_client.feature(types.CLIENT_REGISTER_CAPABILITY)
    def register(params: types.RegistrationParams):
        if any(one.method == types.WORKSPACE_DID_CHANGE_WATCHED_FILES for one in params.registrations):
            watching.set()

    # What changes from outside is told anew; an editor asks again then.
    @lsp_client.feature(types.WORKSPACE_CODE_LENS_REFRESH)
    @lsp_client.feature(types.WORKSPACE_INLAY_HINT_REFRESH)
    def refresh(*_):
        return None

    root = types.WorkspaceFolder(uri=folder.as_uri(), name="designs")
    params = types.InitializeParams(capabilities=capabilities, workspace_folders=[root])
    result = await lsp_client.initialize_session(params)
    offered = (capabilities.general and capabilities.general.position_encodings) or []
    lsp_client.encoding = "utf-8" if "utf-8" in offered else "utf-16"
    assert result.capabilities.position_encoding == lsp_client.encoding
    tags = capabilities.text_document.publish_diagnostics.tag_support
    lsp_client.greys = bool(tags) and types.DiagnosticTag.Unnecessary in tags.value_set
    watches = capabilities.workspace.did_change_watched_files
    if watches and watches.dynamic_registration:
        await asyncio.wait_for(watching.wait(), 10)
    yield
    await lsp_client.shutdown_session()


async def opened(client, uri, text):
    document = types.TextDocumentItem(uri=uri, language_id="finwright", version=1, text=text)
    client.text_document_did_open(types.DidOpenTextDocumentParams(text_document=document))
    return await asyncio.wait_for(client.wait_for_notification(PUBLISH), 10)


async def until(client, wanted):
    """Take in what is published until it is as wanted. Nothing comes in between asking and waiting: both are one step."""
    async with asyncio.timeout(10):
        while not wanted():
            await client.wait_for_notification(PUBLISH)


def misspelt(published):
    return [one for one in published.diagnostics if one.code == "name/unknown-name"]


async def test_a_good_design_has_every_name_right(client, folder, design):
    uri = (folder / "reed_heron.finw").as_uri()
    published = await opened(client, uri, design)
    assert published.version == 1
    assert misspelt(published) == []


async def test_a_misspelt_name_is_found_explained_and_mended(client, folder, design):
    uri = (folder / "reed_heron.finw").as_uri()
    text = slip(design)
    published = await opened(client, uri, text)
    (found,) = misspelt(published)
    line, column = position(text, "calber", client.encoding)
    assert found.range == types.Range(types.Position(line, column), types.Position(line, column + 6))
    assert found.severity == types.DiagnosticSeverity.Error
    assert found.source == "finwright"
    assert "calber" in found.message.splitlines()[0]

    context = types.CodeActionContext(diagnostics=[found], only=[types.CodeActionKind.QuickFix])
    params = types.CodeActionParams(types.TextDocumentIdentifier(uri), found.range, context)
    actions = await client.text_document_code_action_async(params)
    (fix,) = [one for one in actions if one.diagnostics[0].code == "name/unknown-name"]
    assert "caliber" in fix.title
    if client.capabilities.workspace.workspace_edit.document_changes:
        (change,) = fix.edit.document_changes
        assert (change.text_document.uri, change.text_document.version) == (uri, 1)
        (edit,) = change.edits
    else:
        (edit,) = fix.edit.changes[uri]
    assert (edit.range, edit.new_text) == (found.range, "caliber")

    document = types.VersionedTextDocumentIdentifier(uri=uri, version=2)
    changes = [types.TextDocumentContentChangePartial(range=edit.range, text=edit.new_text)]
    client.text_document_did_change(types.DidChangeTextDocumentParams(document, changes))
    published = await asyncio.wait_for(client.wait_for_notification(PUBLISH), 10)
    assert published.version == 2
    assert misspelt(published) == []


async def test_a_line_above_each_flight_says_how_much_wind_it_bears(client, folder, design):
    uri = (folder / "reed_heron.finw").as_uri()
    await opened(client, uri, design)
    document = types.TextDocumentIdentifier(uri=uri)
    lenses = await client.text_document_code_lens_async(types.CodeLensParams(text_document=document))
    assert len(lenses) == design.count("\nflight ")
    for lens in lenses:
        assert lens.command is None
        resolved = await client.code_lens_resolve_async(lens)
        assert resolved.range == lens.range
        title = resolved.command.title
        assert title.startswith("meets the checks · leaves at ") and "margin" in title and "wind up to" in title, title


async def test_an_empty_buffer_is_a_hint(client, folder):
    published = await opened(client, (folder / "new.finw").as_uri(), "")
    assert [(one.code, one.severity) for one in published.diagnostics] == [("file/empty-file", types.DiagnosticSeverity.Hint)]


async def test_what_an_author_allows_is_faint_with_its_reason(client, folder, design):
    text = design.replace("    lug front {", "    # allow guide/not-straddling: glued already\n    lug front {")
    text = text.replace("at: 15 mm ahead of balance; clock: 60", "at: 30 mm behind balance; clock: 60")
    published = await opened(client, (folder / "reed_heron.finw").as_uri(), text)
    (found,) = [one for one in published.diagnostics if one.code == "guide/not-straddling"]
    assert found.severity == types.DiagnosticSeverity.Hint
    assert found.message == "allowed here (glued already): lug rear and lug front both sit behind the balance point, by 30 mm or more"
    assert list(found.tags or []) == ([types.DiagnosticTag.Unnecessary] if client.greys else [])


async def test_a_block_for_the_bench_is_offered_where_nothing_was_weighed(client, folder, design):
    uri = (folder / "reed_heron.finw").as_uri()
    text = design[: design.index("measured {")]
    await opened(client, uri, text)
    line, column = position(text, "flight rod_day", client.encoding)
    here = types.Range(types.Position(line, column), types.Position(line, column))
    context = types.CodeActionContext(diagnostics=[], only=[types.CodeActionKind.Refactor])
    params = types.CodeActionParams(types.TextDocumentIdentifier(uri), here, context)
    (action,) = await client.text_document_code_action_async(params)
    assert action.title == "write down what the bench says with d9 in"
    edits = action.edit.changes[uri] if action.edit.changes else action.edit.document_changes[0].edits
    assert "measured {" in edits[0].new_text and "with: d9" in edits[0].new_text
    # In the whole design it was weighed already.
    document = types.VersionedTextDocumentIdentifier(uri=uri, version=2)
    changes = [types.TextDocumentContentChangeWholeDocument(text=design)]
    client.text_document_did_change(types.DidChangeTextDocumentParams(document, changes))
    assert not await client.text_document_code_action_async(params)


async def test_a_hover_says_what_stands_there(client, folder, design):
    uri = (folder / "reed_heron.finw").as_uri()
    await opened(client, uri, design)
    line, column = position(design, "front { bore", client.encoding)
    params = types.HoverParams(types.TextDocumentIdentifier(uri), types.Position(line, column + 1))
    hover = await client.text_document_hover_async(params)
    assert "front" in hover.contents.value
    assert hover.range.start <= params.position <= hover.range.end
    await_nothing = types.HoverParams(types.TextDocumentIdentifier(uri), types.Position(1, 0))
    assert await client.text_document_hover_async(await_nothing) is None


async def test_a_used_file_is_read_from_disk_and_then_from_its_buffer(client, folder, design):
    start = design.index("pad club_rod")
    end = design.index("site fen")
    pads, rest = design[start:end], design[:start] + design[end:]
    first = rest.index("design ")
    text = rest[:first] + 'use "pads.finw"\n' + rest[first:]
    (folder / "pads.finw").write_text("finwright 1\n" + pads)
    uri = (folder / "reed_heron.finw").as_uri()
    assert misspelt(await opened(client, uri, text)) == []

    # Without its rod the design refers to a pad that nobody names.
    other = (folder / "pads.finw").as_uri()
    document = types.TextDocumentItem(
        uri=other, language_id="finwright", version=1, text="finwright 1\n" + pads.replace("club_rod", "other_rod")
    )
    client.text_document_did_open(types.DidOpenTextDocumentParams(text_document=document))
    await until(client, lambda: any(one.code == "name/unknown-name" for one in client.diagnostics[uri]))
    assert "club_rod" in client.diagnostics[uri][0].message


def levels(client, uri):
    return [one.severity for one in client.diagnostics.get(uri, []) if one.code == "measured/mass-differs"]


async def test_settings_are_read_again_whenever_they_change(client, folder, design):
    uri = (folder / "reed_heron.finw").as_uri()
    toml = folder / "finwright.toml"
    kinds = types.FileChangeType
    warning, note = types.DiagnosticSeverity.Warning, types.DiagnosticSeverity.Information
    await opened(client, uri, design.replace("mass: 126 g", "mass: 148 g").replace("balance: 346 mm", "balance: 352 mm"))
    assert levels(client, uri) == [warning]

    def on_disk(text, kind):
        toml.unlink() if text is None else toml.write_text(text)
        changes = [types.FileEvent(uri=toml.as_uri(), type=kind)]
        client.workspace_did_change_watched_files(types.DidChangeWatchedFilesParams(changes))

    on_disk('levels."measured/mass-differs" = "note"\n', kinds.Created)
    await until(client, lambda: levels(client, uri) == [note])
    on_disk('levels."measured/mass-differs" = "off"\n', kinds.Changed)
    await until(client, lambda: levels(client, uri) == [])
    on_disk(None, kinds.Deleted)
    await until(client, lambda: levels(client, uri) == [warning])

    # In a window of the editor, not saved: the file's own slip is told there, and in the design.
    text = 'levels."measured/mass-differs" = "nothing"\n'
    document = types.TextDocumentItem(uri=toml.as_uri(), language_id="toml", version=1, text=text)
    client.text_document_did_open(types.DidOpenTextDocumentParams(text_document=document))
    await until(client, lambda: [one.code for one in client.diagnostics.get(toml.as_uri(), [])] == ["settings/not-understood"])
    await until(client, lambda: "settings/not-understood" in [one.code for one in client.diagnostics[uri]])
    document = types.VersionedTextDocumentIdentifier(uri=toml.as_uri(), version=2)
    changes = [types.TextDocumentContentChangeWholeDocument(text=text.replace("nothing", "note"))]
    client.text_document_did_change(types.DidChangeTextDocumentParams(document, changes))
    await until(client, lambda: levels(client, uri) == [note] and not client.diagnostics[toml.as_uri()])
    document = types.TextDocumentIdentifier(toml.as_uri())
    client.text_document_did_close(types.DidCloseTextDocumentParams(document))
    await until(client, lambda: levels(client, uri) == [warning])


async def test_what_may_be_written_is_offered(client, folder, design):
    uri = (folder / "reed_heron.finw").as_uri()
    text = design.replace("shape: ogive", "shape: og")
    await opened(client, uri, text)
    line, column = position(text, "shape: og", client.encoding)
    at = types.Position(line, column + len("shape: og"))
    params = types.CompletionParams(types.TextDocumentIdentifier(uri), at)
    items = await client.text_document_completion_async(params)
    items = items.items if isinstance(items, types.CompletionList) else items
    (ogive,) = [one for one in items if one.label == "ogive"]
    assert ogive.text_edit.new_text == "ogive"
    typed = types.Range(types.Position(line, column + len("shape: ")), at)
    edit = ogive.text_edit
    ranges = [edit.insert, edit.replace] if isinstance(edit, types.InsertReplaceEdit) else [edit.range]
    assert all(one == typed for one in ranges)


async def test_a_design_is_laid_out(client, folder, design):
    uri = (folder / "reed_heron.finw").as_uri()
    text = design.replace("    length: 3.2 * caliber", "        length:3.2*caliber")
    await opened(client, uri, text)
    options = types.FormattingOptions(tab_size=2, insert_spaces=True)
    params = types.DocumentFormattingParams(types.TextDocumentIdentifier(uri), options)
    edits = await client.text_document_formatting_async(params)
    lines = text.splitlines(keepends=True)
    # Each edit changes less than a line here, and nothing where nothing is to be changed.
    for edit in sorted(edits, key=lambda edit: edit.range.start, reverse=True):
        start, end = edit.range.start, edit.range.end
        assert start.line == end.line
        old = lines[start.line].encode("utf-8" if client.encoding == "utf-8" else "utf-16-le")
        unit = 1 if client.encoding == "utf-8" else 2
        new = old[: start.character * unit].decode("utf-8" if unit == 1 else "utf-16-le") + edit.new_text
        lines[start.line] = new + old[end.character * unit :].decode("utf-8" if unit == 1 else "utf-16-le")
    laid_out = "".join(lines)
    assert "    length: 3.2 * caliber\n" in laid_out
    assert "# Reed Heron" in laid_out and laid_out.count("\n") == text.count("\n")


async def test_the_outline_of_a_design(client, folder, design):
    uri = (folder / "reed_heron.finw").as_uri()
    await opened(client, uri, design)
    params = types.DocumentSymbolParams(types.TextDocumentIdentifier(uri))
    symbols = await client.text_document_document_symbol_async(params)
    names = [one.name for one in symbols]
    assert names[:3] == ['design "Reed Heron"', "caliber", "airframe"]
    (airframe,) = [one for one in symbols if one.name == "airframe"]
    (body,) = [one for one in airframe.children if one.name == "tube body"]
    assert "lug front" in [one.name for one in body.children]


async def test_a_name_leads_to_where_it_is_defined(client, folder, design):
    uri = (folder / "reed_heron.finw").as_uri()
    await opened(client, uri, design)
    line, column = position(design, "pad: club_rod", client.encoding)
    at = types.Position(line, column + len("pad: cl"))
    params = types.DefinitionParams(types.TextDocumentIdentifier(uri), at)
    found = await client.text_document_definition_async(params)
    assert found.uri == uri
    assert found.range.start == types.Position(*position(design, "club_rod  {", client.encoding))
