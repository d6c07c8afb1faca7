//! The JSON schema of what `finwright show --format json` prints, from the same table of names.

use finwright_assess::report::NUMBERS;
use serde_json::{json, Map, Value};

/// The schema (JSON Schema, draft 2020-12).
pub fn schema() -> Value {
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
    properties.insert("defaults".to_string(), texts("what was taken as a default"));
    properties.insert("not_checked".to_string(), texts("what couldn't be computed and what it needs"));
    let required: Vec<&String> = properties.keys().collect();
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "finwright show",
        "description": "A rocket's flights in SI units, lengths from the tip. Names may be added, never changed; what isn't known is null.",
        "type": "array",
        "items": { "type": "object", "required": required, "properties": properties, "additionalProperties": true },
    })
}
