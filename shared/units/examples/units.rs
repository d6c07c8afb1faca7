//! Prints every unit as JSON: spelling, SI factor, offset, base units. The outside check of the table reads it.
#![allow(clippy::print_stdout)]

use finwright_units::{find_unit, unit::spellings};

fn main() {
    let combinations =
        ["N.s", "lbf.s", "m/s", "km/h", "ft/s", "kg/m3", "g/cm3", "lb/ft3", "mm2", "in4", "m/s2", "kg.m2", "g/m"];
    let joined = combinations.iter().filter_map(|name| find_unit(name).ok().map(|unit| (*name, unit)));
    let rows: Vec<String> = spellings()
        .chain(joined)
        .map(|(name, u)| {
            format!(
                "{{\"name\": \"{name}\", \"factor\": {:e}, \"offset\": {:e}, \"base\": \"{}\"}}",
                u.factor,
                u.offset,
                u.dimension.base_units()
            )
        })
        .collect();
    println!("[{}]", rows.join(",\n"));
}
