//! `textDocument/signatureHelp`.

use crate::view::View;
use lsp_types::*;

/// The function whose brackets are being filled.
pub fn answer(view: &View, position: Position) -> Option<SignatureHelp> {
    let found = finwright_assist::signature(view.analysis.as_ref().ok()?, view.offset(position))?;
    let argument =
        |name: &&str| ParameterInformation { label: ParameterLabel::Simple(name.to_string()), documentation: None };
    Some(SignatureHelp {
        signatures: vec![SignatureInformation {
            label: found.label,
            documentation: Some(Documentation::String(found.doc.to_string())),
            parameters: Some(found.arguments.iter().map(argument).collect()),
            active_parameter: Some(found.active as u32),
        }],
        active_signature: Some(0),
        active_parameter: Some(found.active as u32),
    })
}
