//! The day's list as comma-separated values, SI.

use super::List;
use crate::escape::cell;

const HEADS: [&str; 26] = [
    "rocket",
    "file",
    "motor",
    "class",
    "mass_kg",
    "weighed",
    "thrust_to_weight",
    "margin_cal",
    "pad",
    "fits",
    "exit_speed_m_s",
    "exit_speed_sd_m_s",
    "wind_m_s",
    "gust_m_s",
    "wind_to_m_s",
    "stopped_by",
    "delay_s",
    "opening_speed_m_s",
    "opening_height_m",
    "distances",
    "not_checked",
    "allowed",
    "may_fly",
    "verdict",
    "rule",
    "reason",
];

/// One row a rocket and motor.
pub fn csv(day: &List) -> Result<String, String> {
    let mut out = csv::Writer::from_writer(Vec::new());
    let failed = |error: csv::Error| error.to_string();
    out.write_record(HEADS).map_err(failed)?;
    for line in &day.lines {
        let number = |value: Option<f64>| value.map_or(String::new(), |value| value.to_string());
        let words = |value: Option<&str>| cell(value.unwrap_or(""));
        let stopped = line.ceiling.as_ref().and_then(|ceiling| ceiling.in_still_air.first().or(ceiling.limit.as_ref()));
        let reason = line.reason.as_ref();
        out.write_record([
            cell(&line.rocket),
            cell(&line.file),
            words(line.motor.as_deref()),
            words(line.class),
            number(line.mass),
            line.is_weighed.to_string(),
            number(line.thrust_to_weight),
            number(line.margin),
            words(line.pad.as_deref()),
            line.fits.to_string(),
            number(line.exit.filter(|_| line.fits)),
            number(line.exit_sd.filter(|_| line.fits)),
            number(line.wind.map(|(wind, _)| wind)),
            number(line.wind.map(|(_, gust)| gust)),
            number(line.bears()),
            words(stopped.map(|limit| limit.rule)),
            number(line.delay),
            number(line.opening.map(|(speed, _)| speed)),
            number(line.opening.map(|(_, height)| height)),
            words(line.distances.as_deref()),
            cell(&line.not_checked.join("; ")),
            cell(&line.allowed.join("; ")),
            line.may_fly().to_string(),
            cell(line.verdict.words()),
            words(reason.map(|reason| reason.rule)),
            words(reason.map(|reason| reason.message.as_str())),
        ])
        .map_err(failed)?;
    }
    let bytes = out.into_inner().map_err(|error| error.to_string())?;
    String::from_utf8(bytes).map_err(|error| error.to_string())
}
