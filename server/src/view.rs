//! What requests are answered from: one analysed state of one document, which never changes.

use crate::files::ProjectFiles;
use crate::options::Options;
use crate::position;
use crate::terms::Terms;
use finwright_checks::offer::{applied, offered_by};
use finwright_checks::settings::FILE_NAME;
use finwright_checks::{Analysis, Analyze, Finding, Fix, Level, Snapshot, Wanted};
use finwright_grammar::{FileId, Place, Span};
use lsp_types::{Diagnostic, Location, Position, Range, Url};
use ropey::Rope;
use std::path::{Path, PathBuf};
use std::sync::{Arc, OnceLock};

/// One analysed state of a document.
pub struct View {
    /// The document's name.
    pub uri: Url,
    /// The version that was analysed.
    pub version: i32,
    /// The state that was analysed; see [`crate::document::Document::generation`].
    pub generation: u64,
    /// What was agreed with the client.
    pub terms: Terms,
    /// What the analysis gave, or in plain words why there is none.
    pub analysis: Result<Analysis, String>,
    /// What is to be shown of it.
    pub diagnostics: Arc<Vec<Diagnostic>>,
    /// Where somebody is typing, by byte.
    pub typing: Option<usize>,
    sources: Vec<SourceView>,
    wanted: Wanted,
    /// What was analysed and how, to ask what a fix would change.
    asked: Option<(Analyze, Snapshot)>,
    folders: Vec<PathBuf>,
}

/// One of the texts of an analysis, as the editor knows it.
pub struct SourceView {
    /// Its name, unless it's built in.
    pub uri: Option<Url>,
    /// Its version, where it's open.
    pub version: Option<i32>,
    rope: OnceLock<Rope>,
}

impl View {
    /// The view of a document that couldn't be analysed.
    pub fn without_analysis(
        (uri, version, generation): (Url, i32, u64),
        terms: Terms,
        rope: Rope,
        reason: String,
    ) -> View {
        let sources = vec![SourceView::open(uri.clone(), version, rope)];
        let wanted = Wanted::default();
        View {
            uri,
            version,
            generation,
            terms,
            analysis: Err(reason),
            typing: None,
            diagnostics: Arc::default(),
            sources,
            wanted,
            asked: None,
            folders: Vec::new(),
        }
    }

    /// The view of an analysed document.
    pub fn new(
        (uri, version, generation): (Url, i32, u64),
        terms: Terms,
        rope: Rope,
        (analyze, snapshot, analysis): (Analyze, Snapshot, Analysis),
        files: &ProjectFiles,
    ) -> View {
        let mut sources = vec![SourceView::open(uri.clone(), version, rope)];
        for source in analysis.sources.iter().skip(1) {
            // A built-in text has a name where others have a path.
            let buffer = match source.path.is_absolute() {
                true => files.buffer(&source.path),
                false => None,
            };
            sources.push(SourceView {
                uri: match buffer {
                    Some(buffer) => Some(buffer.uri.clone()),
                    None => Url::from_file_path(&source.path).ok(),
                },
                version: buffer.map(|buffer| buffer.version),
                rope: OnceLock::new(),
            });
        }
        let (wanted, asked) = (analysis.wanted.clone(), Some((analyze, snapshot)));
        let folders = files.folders().to_vec();
        View {
            uri,
            version,
            generation,
            terms,
            analysis: Ok(analysis),
            typing: None,
            diagnostics: Arc::default(),
            sources,
            wanted,
            asked,
            folders,
        }
    }

    /// Whether answers from it are still wanted: not once the document or what it uses has changed.
    pub fn wanted(&self) -> &Wanted {
        &self.wanted
    }

    /// The document's path, where it was analysed.
    pub fn path(&self) -> Option<&Path> {
        self.asked.as_ref().map(|(_, snapshot)| snapshot.path.as_path())
    }

    /// The folders that the document may read in.
    pub fn folders(&self) -> &[PathBuf] {
        &self.folders
    }

    /// What the user has chosen.
    pub fn options(&self) -> Options {
        self.terms.options
    }

    /// The position of a byte offset in the document.
    pub fn position(&self, offset: usize) -> Position {
        self.range(Span::new(offset, offset)).start
    }

    /// The byte offset of a position in the document.
    pub fn offset(&self, position: Position) -> usize {
        self.rope(FileId(0)).map_or(0, |rope| position::offset(rope, self.terms.encoding, position))
    }

    /// The range of a span of the document.
    pub fn range(&self, span: Span) -> Range {
        self.range_in(FileId(0), span)
    }

    /// Where a place is for the editor; nothing for what is built in.
    pub fn location(&self, place: Place) -> Option<Location> {
        let uri = self.source(place.file)?.uri.clone()?;
        Some(Location::new(uri, self.range_in(place.file, place.span)))
    }

    /// One of the texts.
    pub fn source(&self, file: FileId) -> Option<&SourceView> {
        self.sources.get(file.0 as usize)
    }

    /// The range of a span in one of the texts.
    pub fn range_in(&self, file: FileId, span: Span) -> Range {
        self.rope(file).map_or(Range::default(), |rope| position::range(rope, self.terms.encoding, span))
    }

    /// Where in the document a finding is shown: at its place, or for a place in another file, where the document
    /// brings that in, as far as a label says so.
    pub fn shown_at(&self, finding: &Finding) -> Span {
        let labels = finding.labels.iter().map(|label| label.place);
        std::iter::once(finding.place)
            .chain(labels)
            .find(|place| place.file == FileId(0))
            .map_or(Span::default(), |place| place.span)
    }

    /// The findings, none where there was no analysis.
    pub fn findings(&self) -> &[Finding] {
        match &self.analysis {
            Ok(analysis) => &analysis.findings,
            Err(_) => &[],
        }
    }

    /// The fixes of a finding that do what they say.
    pub fn fixes<'f>(&self, finding: &'f Finding) -> Vec<&'f Fix> {
        match (&self.asked, &self.analysis) {
            (Some((analyze, snapshot)), Ok(analysis)) => offered_by(*analyze, snapshot, analysis, finding),
            _ => Vec::new(),
        }
    }

    /// Whether with a fix applied nothing more is found than before.
    pub fn does_no_harm(&self, fix: &Fix) -> bool {
        let (Some((analyze, snapshot)), Ok(analysis)) = (&self.asked, &self.analysis) else { return false };
        let Some(changed) = applied(snapshot, analysis, fix) else { return false };
        let after = analyze(&changed);
        let worse = |level| after.count(level) > analysis.count(level);
        !worse(Level::Error) && !worse(Level::Warning)
    }

    /// The document's text.
    pub fn text(&self) -> String {
        self.rope(FileId(0)).map_or(String::new(), Rope::to_string)
    }

    /// Whether the document is a settings file.
    pub fn is_settings(&self) -> bool {
        self.uri.path().rsplit('/').next() == Some(FILE_NAME)
    }

    fn rope(&self, file: FileId) -> Option<&Rope> {
        let source = self.source(file)?;
        let text = || match &self.analysis {
            Ok(analysis) => analysis.sources.get(file.0 as usize).map(|source| &*source.text),
            Err(_) => None,
        };
        Some(source.rope.get_or_init(|| Rope::from_str(text().unwrap_or_default())))
    }
}

impl SourceView {
    fn open(uri: Url, version: i32, rope: Rope) -> SourceView {
        SourceView { uri: Some(uri), version: Some(version), rope: OnceLock::from(rope) }
    }
}
