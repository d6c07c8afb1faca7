//! The JSON schemas of what is printed, from the same tables and types.

use crate::check::{FileResult, Report};
use crate::diff;
use crate::judged::Told;
use finwright_assess::report::{FlownReport, OpeningReport, PieceReport, NUMBERS};
use schemars::schema_for;
use serde_json::{json, Map, Value};

/// The schema of `finwright check --format json` (JSON Schema, draft 2020-12).
pub fn check() -> Value {
    let mut schema = schema_for!(Report).to_value();
    schema["title"] = json!("finwright check");
    schema["description"] = json!(
        "Every file that was looked at, with its verdict and what was found in it. Names may be added; `version` counts up \
         when one changes its meaning or goes."
    );
    schema
}

/// The schema of a line of `finwright check --format jsonl` about a file.
pub fn file() -> Value {
    let mut schema = schema_for!(FileResult).to_value();
    schema["title"] = json!("a line of finwright check --format jsonl");
    schema
}

/// The schema of `finwright diff --format json` (JSON Schema, draft 2020-12).
pub fn diff() -> Value {
    let mut schema = schema_for!(diff::Report).to_value();
    schema["title"] = json!("finwright diff");
    schema["description"] = json!(
        "What became of every design that differs. Names may be added; `version` counts up when one changes its meaning \
         or goes."
    );
    schema
}

/// The schema of `finwright show --format json`.
pub fn numbers() -> Value {
    let verdict = schema_for!(Told).to_value();
    let number = |means: &str| json!({ "description": means, "type": ["number", "null"] });
    let texts = |means: &str| json!({ "description": means, "type": "array", "items": { "type": "string" } });
    let mut properties = Map::new();
    properties.insert("flight".to_string(), json!({ "description": "the flight's name", "type": "string" }));
    for n in NUMBERS {
        properties.insert(n.name.to_string(), number(n.means));
    }
    let tolerance: Map<String, Value> =
        NUMBERS.iter().map(|n| (n.name.to_string(), json!({ "type": "number" }))).collect();
    let guide = json!({
        "type": "object",
        "properties": {
            "guide": { "description": "the part's name", "type": "string" },
            "pad_wind_n": number("load on the pad in the steady wind"),
            "pad_gust_n": number("load on the pad in a gust"),
            "level_n": number("load when the rocket is lifted level"),
            "run_wind_n": number("load during the run in the steady wind"),
            "run_gust_n": number("load during the run in a gust"),
            "capacity_n": number("what its bond or screw bears"),
        },
        "required": ["guide"],
    });
    properties.insert(
        "tolerance".to_string(),
        json!({
            "description": "first-order tolerances from those in the file, under the numbers' names",
            "type": "object",
            "properties": tolerance,
            "additionalProperties": false,
        }),
    );
    properties.insert("guides".to_string(), json!({ "type": "array", "items": guide }));
    let opening = schema_for!(OpeningReport).to_value();
    let openings = json!({ "description": "what opens, in the order of time", "type": "array", "items": opening });
    properties.insert("openings".to_string(), openings);
    let piece = schema_for!(PieceReport).to_value();
    let pieces = json!({ "description": "pieces that come down by themselves", "type": "array", "items": piece });
    properties.insert("pieces".to_string(), pieces);
    let mut flown = schema_for!(FlownReport).to_value();
    // What it refers to is looked for at the root.
    let mut defs = verdict["$defs"].as_object().cloned().unwrap_or_default();
    let own = flown.as_object_mut().and_then(|flown| flown.remove("$defs"));
    defs.extend(own.and_then(|own| own.as_object().cloned()).unwrap_or_default());
    let flown = json!({ "description": "what was measured when it was flown", "type": "array", "items": flown });
    properties.insert("flown".to_string(), flown);
    properties.insert("defaults".to_string(), texts("what was taken as a default"));
    let rough = "whether a motor is known by its label alone, so that what hangs on its thrust is rough";
    properties.insert("rough".to_string(), json!({ "description": rough, "type": "boolean" }));
    let of_the_verdict = verdict["properties"].as_object().cloned().unwrap_or_default();
    properties.extend(of_the_verdict);
    let required: Vec<&String> = properties.keys().collect();
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "finwright show",
        "description": "A rocket's flights in SI units, lengths from the tip. Names may be added, never changed; what \
            isn't known is null.",
        "$defs": defs,
        "type": "array",
        "items": { "type": "object", "required": required, "properties": properties, "additionalProperties": true },
    })
}
