//! `textDocument/codeLens`: a line above each flight, whose words are made when it comes into view.

use crate::view::View;
use lsp_types::{CodeLens, Command, Url};
use serde::{Deserialize, Serialize};

/// What a line is about, sent along with it and back.
#[derive(Serialize, Deserialize)]
struct About {
    uri: Url,
    flight: usize,
}

/// The lines, without their words.
pub fn answer(view: &View) -> Option<Vec<CodeLens>> {
    let analysis = view.analysis.as_ref().ok().filter(|_| view.options().lenses)?;
    let lens = |lens: finwright_assist::Lens| CodeLens {
        range: view.range(lens.span),
        command: None,
        data: serde_json::to_value(About { uri: view.uri.clone(), flight: lens.flight }).ok(),
    };
    Some(finwright_assist::lenses(analysis).into_iter().map(lens).collect())
}

/// The document that a line belongs to.
pub fn document(lens: &CodeLens) -> Option<Url> {
    Some(about(lens)?.uri)
}

/// The line with its words. A line of a flight that has gone meanwhile says nothing.
pub fn resolve(view: Option<&View>, lens: CodeLens) -> CodeLens {
    let title = about(&lens).and_then(|about| {
        let analysis = view?.analysis.as_ref().ok()?;
        finwright_assist::lens_title(analysis, about.flight)
    });
    // There is nothing to run: a command without a name is shown and can't be chosen.
    let command = Command { title: title.unwrap_or_default(), command: String::new(), arguments: None };
    CodeLens { command: Some(command), ..lens }
}

fn about(lens: &CodeLens) -> Option<About> {
    serde_json::from_value(lens.data.clone()?).ok()
}
