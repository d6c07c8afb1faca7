//! The comparison as comma-separated values.

use finwright_advice::Comparison;

/// One row a pad, SI numbers under the names that JSON uses.
pub fn csv(found: &[Comparison]) -> String {
    let mut out = String::from(
        "flight,motor,wind_m_s,gust_m_s,pad,rail,guides,fits,front_release_m_s,exit_speed_m_s,exit_speed_sd_m_s,over_floor_m_s,lean_wind_rad,lean_gust_rad,tip_gust_m,frequency_hz,play_rad,load_share,wind_to_m_s,heaviest_kg,likely,verdict,rule,reason\n",
    );
    for comparison in found {
        for c in &comparison.candidates {
            let number = |value: Option<f64>| value.map_or(String::new(), |v| format!("{v}"));
            let wind = c.ceiling.as_ref().filter(|ceiling| ceiling.in_still_air.is_empty()).map(|ceiling| ceiling.wind);
            let cells = [
                quoted(&comparison.flight),
                quoted(&comparison.motor),
                number(Some(comparison.wind_m_s)),
                number(Some(comparison.gust_m_s)),
                quoted(&c.pad),
                quoted(&c.rail),
                quoted(&c.guides.join(" + ")),
                c.fits.to_string(),
                number(c.front_release_m_s),
                number(c.exit_speed_m_s),
                number(c.exit_speed_sd_m_s),
                number(c.over_floor_m_s),
                number(c.lean_wind_rad),
                number(c.lean_gust_rad),
                number(c.tip_gust_m),
                number(c.frequency_hz),
                number(c.play_rad),
                number(c.load_share),
                number(wind),
                number(c.heaviest.as_ref().map(|heaviest| heaviest.mass_kg)),
                number(c.likely.map(|likely| likely.all)),
                quoted(c.verdict.words()),
                c.reason_rule.unwrap_or("").to_string(),
                quoted(&c.reason),
            ];
            out += &format!("{}\n", cells.join(","));
        }
    }
    out
}

/// A text as RFC 4180 has it.
fn quoted(text: &str) -> String {
    if text.contains([',', '"', '\n', '\r']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text.to_string()
    }
}
