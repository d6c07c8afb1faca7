//! The JSON schema of `finwright.toml`, from the rules themselves.

use super::ALLOWING;
use crate::rules::{thresholds, RULES};
use crate::threshold::{Profile, PROFILES};
use finwright_assess::field_rules::JURISDICTIONS;
use finwright_units::reader::UNITS;
use finwright_units::Dimension;
use schemars::{json_schema, JsonSchema, Schema, SchemaGenerator};
use serde_json::{json, Map, Value};
use std::borrow::Cow;

/// The schema (JSON Schema, draft 2020-12).
pub fn schema() -> Value {
    schemars::schema_for!(SettingsFile).to_value()
}

/// What a `finwright.toml` may hold. It lies beside designs or above them; the nearest one counts, alone.
#[derive(JsonSchema)]
#[schemars(deny_unknown_fields, title = "finwright.toml")]
#[allow(dead_code)] // It stands for the file in the schema; `read` understands the text line by line.
struct SettingsFile {
    profile: Option<ProfileName>,
    code: Option<CodeName>,
    allowances: Option<AllowancesName>,
    units: Option<UnitsName>,
    levels: Option<Levels>,
    thresholds: Option<Thresholds>,
}

struct ProfileName;
struct CodeName;
struct AllowancesName;
struct UnitsName;
struct Levels;
struct Thresholds;

impl JsonSchema for ProfileName {
    fn schema_name() -> Cow<'static, str> {
        "Profile".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        let names: Vec<&str> = PROFILES.iter().map(|(name, _)| *name).collect();
        json_schema!({ "description": "for whom the thresholds are set; club where nothing is said", "enum": names })
    }
}

impl JsonSchema for CodeName {
    fn schema_name() -> Cow<'static, str> {
        "Code".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        let one = |(name, _, text): &(&str, _, &str)| json!({ "const": name, "description": text });
        let codes: Vec<Value> = JURISDICTIONS.iter().map(one).collect();
        json_schema!({ "description": "the code that the field follows; check your local code", "oneOf": codes })
    }
}

impl JsonSchema for AllowancesName {
    fn schema_name() -> Cow<'static, str> {
        "Allowances".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        let names: Vec<&str> = ALLOWING.iter().map(|(name, _)| *name).collect();
        json_schema!({ "description": "what comments in a design may allow; all where nothing is said", "enum": names })
    }
}

impl JsonSchema for UnitsName {
    fn schema_name() -> Cow<'static, str> {
        "Units".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        let one = |(name, _, text): &(&str, _, &str)| json!({ "const": name, "description": text });
        let units: Vec<Value> = UNITS.iter().map(one).collect();
        json_schema!({ "description": "whose units come first in what is said; si where nothing is said", "oneOf": units })
    }
}

impl JsonSchema for Levels {
    fn schema_name() -> Cow<'static, str> {
        "Levels".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        let one = |rule: &&'static crate::Rule| {
            let level = json!({
                "description": format!("{} ({} unless set)", rule.summary, rule.level.word()),
                "enum": ["error", "warning", "note", "off"],
            });
            (rule.name.to_string(), level)
        };
        let rules: Map<String, Value> = RULES.iter().filter(|rule| rule.may_be_set()).map(one).collect();
        json_schema!({
            "description": "how much a rule's findings matter",
            "type": "object",
            "properties": rules,
            "additionalProperties": false,
        })
    }
}

impl JsonSchema for Thresholds {
    fn schema_name() -> Cow<'static, str> {
        "Thresholds".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        let one = |threshold: &&'static crate::Threshold| {
            let usual = |profile| threshold.in_words(threshold.value(profile));
            let values =
                [Profile::Beginner, Profile::Club, Profile::HighPower].map(|profile| (profile, usual(profile)));
            let usual = if values.iter().all(|(_, value)| *value == values[0].1) {
                values[0].1.clone()
            } else {
                PROFILES
                    .iter()
                    .zip(&values)
                    .map(|((name, _), (_, v))| format!("{v} ({name})"))
                    .collect::<Vec<_>>()
                    .join(", ")
            };
            let (form, units) = match threshold.dimension {
                Dimension::NUMBER | Dimension::CALIBRES => (json!(["number", "string"]), String::new()),
                other => (json!("string"), format!(", such as in {}", other.fitting_units())),
            };
            let means = format!("{}{units}; {usual} unless set", threshold.means);
            (threshold.name.to_string(), json!({ "description": means, "type": form }))
        };
        let known: Map<String, Value> = thresholds().iter().map(one).collect();
        json_schema!({
            "description": "the numbers that rules compare with",
            "type": "object",
            "properties": known,
            "additionalProperties": false,
        })
    }
}
