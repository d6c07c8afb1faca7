//! Which sizes a field's number usually has, and which nothing that flies has.

use super::{block, FieldKind};
use finwright_units::Dimension;
use fnv::FnvHashMap;
use std::sync::LazyLock;

/// The sizes of a field, in SI. The bounds are common practice, no source.
#[derive(Debug)]
pub struct Size {
    /// The blocks' words; none for any block.
    blocks: &'static [&'static str],
    /// The field's word.
    field: &'static str,
    /// What everything from the smallest school rocket to the largest amateur one keeps, with room to spare. A number
    /// beyond is hardly meant.
    pub usual: (f64, f64),
    /// What everything that flies keeps. A number beyond is a slip, and nothing is computed with it.
    pub possible: (f64, f64),
}

/// The sizes of a block's field, for those that have any.
pub fn size(of: &str, field: &str) -> Option<&'static Size> {
    FIELDS.get(field)?.iter().copied().find(|size| size.blocks.is_empty() || size.blocks.contains(&of))
}

impl Size {
    /// What the field measures in a block.
    pub fn dimension(&self, of: &str) -> Option<Dimension> {
        match block(of)?.field(self.field)?.kind {
            FieldKind::Quantity(dimension) | FieldKind::AtHeight(dimension) => Some(dimension),
            _ => None,
        }
    }
}

const fn size_of(
    blocks: &'static [&'static str],
    field: &'static str,
    usual: (f64, f64),
    possible: (f64, f64),
) -> Size {
    Size { blocks, field, usual, possible }
}

/// The rows by their fields, each field's in their own order: every value of a file is looked up.
static FIELDS: LazyLock<FnvHashMap<&str, Vec<&Size>>> = LazyLock::new(|| {
    let mut fields = FnvHashMap::<&str, Vec<&Size>>::default();
    for size in SIZES {
        fields.entry(size.field).or_default().push(size);
    }
    fields
});

/// The first row that fits a field counts.
#[rustfmt::skip] // One field a line.
static SIZES: &[Size] = &[
    // The airframe: usual from motors of 6 mm across up to amateur rockets of half a metre across and ten long.
    size_of(&["nose", "taper"],             "length",      (3e-3, 3.0),       (0.5e-3, 8.0)),
    size_of(&["tube"],                      "length",      (10e-3, 10.0),     (2e-3, 30.0)),
    size_of(&["shoulder"],                  "length",      (2e-3, 0.6),       (0.2e-3, 3.0)),
    size_of(&["nose", "tube", "taper", "coupler", "mount", "shoulder", "bulkhead"], "outer", (4e-3, 1.0), (1e-3, 3.0)),
    size_of(&["tube", "coupler"],           "inner",       (3e-3, 1.0),       (0.8e-3, 3.0)),
    size_of(&["nose"],                      "base",        (5e-3, 1.0),       (1e-3, 3.0)),
    size_of(&["taper"],                     "front",       (5e-3, 1.0),       (1e-3, 3.0)),
    size_of(&["taper"],                     "back",        (5e-3, 1.0),       (1e-3, 3.0)),
    size_of(&["nose", "taper", "shoulder"], "wall",        (0.1e-3, 40e-3),   (0.01e-3, 0.2)),
    size_of(&["lug"],                       "wall",        (0.05e-3, 5e-3),   (0.005e-3, 50e-3)),
    // Fins: paper is a tenth of a millimetre, a plate of two centimetres is for rockets that take a crane.
    size_of(&["fins"],                      "thickness",   (0.2e-3, 25e-3),   (0.02e-3, 0.15)),
    size_of(&["fins"],                      "root",        (5e-3, 1.5),       (0.5e-3, 8.0)),
    size_of(&["fins"],                      "span",        (5e-3, 1.0),       (0.5e-3, 6.0)),
    size_of(&["fins"],                      "tip",         (0.0, 1.5),        (0.0, 8.0)),
    size_of(&["bulkhead", "rings"],         "thickness",   (0.3e-3, 60e-3),   (0.03e-3, 0.4)),
    size_of(&["mount"],                     "bore",        (5e-3, 0.3),       (1e-3, 1.5)),
    size_of(&["mount"],                     "length",      (10e-3, 3.0),      (2e-3, 12.0)),
    size_of(&["coupler"],                   "length",      (5e-3, 2.0),       (0.5e-3, 10.0)),
    size_of(&["mount"],                     "sticks_out",  (0.0, 0.3),        (0.0, 3.0)),
    // The way down: usual from a rocket of 10 g to one of 100 kg.
    size_of(&["parachute"],                 "diameter",    (40e-3, 12.0),     (5e-3, 60.0)),
    size_of(&["streamer"],                  "length",      (50e-3, 15.0),     (5e-3, 100.0)),
    size_of(&["streamer"],                  "width",       (5e-3, 1.0),       (0.5e-3, 10.0)),
    size_of(&["cord"],                      "length",      (50e-3, 100.0),    (5e-3, 1000.0)),
    // Guides: usual rods of 1 to 25 mm, rails up to a hand's width.
    size_of(&["lug"],                       "bore",        (1e-3, 30e-3),     (0.2e-3, 0.2)),
    size_of(&["lug", "rail_guide"],         "length",      (3e-3, 0.5),       (0.5e-3, 5.0)),
    size_of(&["button", "rail_guide"],      "profile",     (5e-3, 0.15),      (1e-3, 0.8)),
    size_of(&["motor"],                     "diameter",    (3e-3, 0.3),       (0.5e-3, 1.5)),
    size_of(&["motor"],                     "length",      (8e-3, 3.0),       (1e-3, 12.0)),
    size_of(&["motor"],                     "mass",        (0.3e-3, 150.0),   (1e-9, 2000.0)),
    size_of(&["motor"],                     "propellant",  (0.05e-3, 120.0),  (1e-9, 1500.0)),
    size_of(&["motor"],                     "delay",       (0.0, 60.0),       (0.0, 1000.0)),
    // Any other part: usual from a hundredth of a gram of tape up to what four people lift. Any mass may be next to
    // nothing, since that's how one leaves it out of a sum.
    size_of(&[],                            "mass",        (0.005e-3, 200.0), (1e-9, 5000.0)),
    size_of(&["rod"],                       "diameter",    (0.8e-3, 40e-3),   (0.1e-3, 0.3)),
    size_of(&["rod", "rail"],               "length",      (0.15, 20.0),      (20e-3, 100.0)),
    size_of(&["pad"],                       "stop",        (0.0, 3.0),        (0.0, 20.0)),
    // Fields usual from the Dead Sea's shore up to the highest roads; winds up to a hurricane's.
    size_of(&["site"],                      "elevation",   (-430.0, 6000.0),  (-500.0, 9000.0)),
    size_of(&["site"],                      "temperature", (223.15, 328.15),  (200.0, 330.0)),
    size_of(&["site"],                      "pressure",    (45e3, 110e3),     (30e3, 110e3)),
    size_of(&["site"],                      "wind",        (0.0, 33.0),       (0.0, 120.0)),
    size_of(&["site"],                      "gust",        (0.0, 50.0),       (0.0, 150.0)),
];

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::panic)]
mod tests {
    use super::*;
    use crate::vocabulary::BLOCKS;

    #[test]
    fn usual_sizes_are_possible_ones_and_every_row_is_of_a_field() {
        for size in SIZES {
            assert!(size.possible.0 <= size.usual.0 && size.usual.1 <= size.possible.1, "{size:?}");
            let homes: Vec<_> =
                BLOCKS.iter().filter(|b| size.blocks.is_empty() || size.blocks.contains(&b.word)).collect();
            assert!(homes.iter().any(|b| size.dimension(b.word).is_some()), "{size:?}");
        }
    }

    /// Every example of the reference is of a usual size.
    #[test]
    fn examples_are_of_usual_sizes() {
        for block in BLOCKS {
            for field in block.fields {
                let Some((size, value)) = size(block.word, field.word)
                    .zip(field.example.split(" at ").next().and_then(|amount| amount.split('±').next()))
                else {
                    continue;
                };
                let Some((number, unit)) = value.trim().rsplit_once(' ') else { continue };
                let (number, unit) = (number.parse::<f64>().unwrap(), finwright_units::find_unit(unit).unwrap());
                let si = number * unit.factor + unit.offset;
                assert!((size.usual.0..=size.usual.1).contains(&si), "{} {}: {si}", block.word, field.word);
            }
        }
    }
}
