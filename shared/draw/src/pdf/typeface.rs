//! The faces that a document is set in, and which glyphs of each it uses.

use super::Fallback;
use crate::font::{BOLD, PLAIN};
use std::collections::BTreeMap;
use subsetter::{subset, GlyphRemapper};
use ttf_parser::Face;

/// The faces of a document: the embedded ones, plain and bold, then those for other letters.
pub struct Typefaces<'f> {
    faces: Vec<(&'f [u8], Option<Face<'f>>)>,
    mapped: Vec<GlyphRemapper>,
    letters: Vec<BTreeMap<u16, char>>,
}

/// A face with only the glyphs that are used.
pub struct Subset {
    /// What it's called.
    pub name: String,
    /// The font file.
    pub file: Vec<u8>,
    /// How far each glyph moves on, in thousandths of the type size.
    pub widths: Vec<f32>,
    /// The smallest box around all glyphs, in the same.
    pub bounds: [f32; 4],
    /// The letter of each glyph.
    pub letters: Vec<(u16, char)>,
}

impl<'f> Typefaces<'f> {
    pub fn new(fallback: &'f Fallback) -> Typefaces<'f> {
        let bytes = [PLAIN, BOLD].into_iter().chain(fallback.iter().map(|bytes| &bytes[..]));
        let faces: Vec<_> = bytes.map(|bytes| (bytes, Face::parse(bytes, 0).ok())).collect();
        let (mapped, letters) =
            (faces.iter().map(|_| GlyphRemapper::new()).collect(), vec![BTreeMap::new(); faces.len()]);
        Typefaces { faces, mapped, letters }
    }

    /// Whether some face has a letter.
    pub fn has(&self, letter: char) -> bool {
        self.find(letter, false).is_some()
    }

    fn find(&self, letter: char, bold: bool) -> Option<(usize, u16)> {
        let own = usize::from(bold);
        let order = [own, 1 - own].into_iter().chain(2..self.faces.len());
        order.into_iter().find_map(|number| {
            let face = self.faces.get(number)?.1.as_ref()?;
            Some((number, face.glyph_index(letter)?.0))
        })
    }

    /// A letter's face, its glyph there as the document numbers it, and how far it moves on in type sizes. What no face
    /// has becomes the embedded face's box.
    pub fn glyph(&mut self, letter: char, bold: bool) -> (usize, u16, f64) {
        let (number, glyph) = self.find(letter, bold).unwrap_or((usize::from(bold), 0));
        let advance = self.advance(number, glyph);
        let Some(mapped) = self.mapped.get_mut(number) else { return (0, 0, advance) };
        let known = mapped.remap(glyph);
        if let Some(letters) = self.letters.get_mut(number) {
            letters.entry(known).or_insert(letter);
        }
        (number, known, advance)
    }

    fn advance(&self, number: usize, glyph: u16) -> f64 {
        let face = self.faces.get(number).and_then(|(_, face)| face.as_ref());
        let advance = face.and_then(|face| {
            let advance = f64::from(face.glyph_hor_advance(ttf_parser::GlyphId(glyph))?);
            Some(advance / f64::from(face.units_per_em()))
        });
        advance.unwrap_or(0.6)
    }

    /// The faces of which something is used.
    pub fn used(&self) -> impl Iterator<Item = (usize, &BTreeMap<u16, char>)> {
        self.letters.iter().enumerate().filter(|(_, letters)| !letters.is_empty())
    }

    /// A face with only what is used of it; `None` where it can't be cut.
    pub fn subset(&self, number: usize) -> Option<Subset> {
        let (bytes, face) = self.faces.get(number)?;
        let (face, mapped) = (face.as_ref()?, self.mapped.get(number)?);
        let file = subset(bytes, 0, mapped).ok()?;
        let em = 1000.0 / f32::from(face.units_per_em());
        let widths = mapped.remapped_gids().map(|glyph| self.advance(number, glyph) as f32 * 1000.0).collect();
        let b = face.global_bounding_box();
        let bounds = [b.x_min, b.y_min, b.x_max, b.y_max].map(|edge| f32::from(edge) * em);
        let name = match number {
            0 => "DejaVuSans".to_string(),
            1 => "DejaVuSans-Bold".to_string(),
            other => format!("Other{other}"),
        };
        let letters = self.letters.get(number)?.iter().map(|(glyph, letter)| (*glyph, *letter)).collect();
        Some(Subset { name, file, widths, bounds, letters })
    }
}
