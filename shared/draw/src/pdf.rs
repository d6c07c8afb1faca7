//! Pages as PDF, at true size, with the letters that they use embedded.

mod content;
mod typeface;

use crate::scene::{Point, Scene, Style, Text};
use content::content;
use miniz_oxide::deflate::compress_to_vec_zlib;
use pdf_writer::types::FontFlags;
use pdf_writer::{Finish, Name, Pdf, Rect, Ref, Str, TextStr};
use std::sync::Arc;
use typeface::Typefaces;

/// One page.
pub struct Page<'s> {
    /// Its width, mm.
    pub width: f64,
    /// Its height, mm.
    pub height: f64,
    /// Pictures, each with where its upper left corner goes.
    pub scenes: Vec<(Point, &'s Scene)>,
}

/// Fonts for letters that the embedded one lacks: TrueType files, the first that has a letter draws it.
pub type Fallback = [Arc<[u8]>];

/// How hard streams are packed: quick, and nearly as small as it gets.
const PACKING: u8 = 6;

/// A PDF of pages. Letters that no font has are named on the page where they are missing.
pub fn pdf(pages: &[Page], title: &str, fallback: &Fallback) -> Vec<u8> {
    let mut faces = Typefaces::new(fallback);
    let contents: Vec<Vec<u8>> = pages
        .iter()
        .map(|page| {
            let note = missing(page, &faces).map(|words| note(page, words));
            content(page, note.as_ref(), &mut faces)
        })
        .collect();
    let mut ids = (1..).map(Ref::new);
    let mut next = || ids.next().unwrap_or(Ref::new(1));
    let (catalog, tree, info) = (next(), next(), next());
    let mut out = Pdf::new();
    out.document_info(info).title(TextStr(title)).producer(TextStr("finwright"));
    let fonts: Vec<(String, Ref)> = faces.used().map(|(number, _)| (format!("F{number}"), next())).collect();
    let kids: Vec<(Ref, Ref)> = pages.iter().map(|_| (next(), next())).collect();
    let mut root = out.catalog(catalog);
    root.pages(tree).lang(TextStr("en"));
    // A reader's "fit to page" would spoil what is drawn at true size.
    root.viewer_preferences().display_doc_title(true).pair(Name(b"PrintScaling"), Name(b"None"));
    root.finish();
    out.pages(tree).kids(kids.iter().map(|(page, _)| *page)).count(pages.len() as i32);
    for ((page, bytes), (id, stream)) in pages.iter().zip(contents).zip(&kids) {
        let mut written = out.page(*id);
        let size = Rect::new(0.0, 0.0, points(page.width), points(page.height));
        written.media_box(size).parent(tree).contents(*stream);
        let mut resources = written.resources();
        let mut named = resources.fonts();
        for (name, font) in &fonts {
            named.pair(Name(name.as_bytes()), *font);
        }
        named.finish();
        resources.finish();
        written.finish();
        let packed = compress_to_vec_zlib(&bytes, PACKING);
        out.stream(*stream, &packed).filter(pdf_writer::Filter::FlateDecode);
    }
    for ((_, font), (number, _)) in fonts.iter().zip(faces.used().collect::<Vec<_>>()) {
        embed(&mut out, &faces, number, *font, &mut next);
    }
    out.finish()
}

/// Millimetres as the points that PDF counts in.
fn points(mm: f64) -> f32 {
    (mm * 72.0 / 25.4) as f32
}

/// A line that names the letters of a page that no font has.
fn missing(page: &Page, faces: &Typefaces) -> Option<String> {
    let mut letters: Vec<char> = Vec::new();
    for letter in page.scenes.iter().flat_map(|(_, scene)| scene.texts()).flat_map(|text| text.words.chars()) {
        if !faces.has(letter) && !letters.contains(&letter) {
            letters.push(letter);
        }
    }
    letters.sort_unstable();
    let named: Vec<String> = letters.iter().take(12).map(|letter| format!("U+{:04X}", *letter as u32)).collect();
    let more = if letters.len() > 12 { format!(" and {} more", letters.len() - 12) } else { String::new() };
    (!letters.is_empty())
        .then(|| format!("No font here has these letters, drawn as boxes: {}{more}.", named.join(", ")))
}

fn note(page: &Page, words: String) -> Text {
    let words = crate::font::cut(&words, Style::NOTE, page.width - 20.0);
    Text { at: (10.0, page.height - 4.0), words, style: Style::NOTE }
}

fn embed(out: &mut Pdf, faces: &Typefaces, number: usize, id: Ref, next: &mut dyn FnMut() -> Ref) {
    let Some(subset) = faces.subset(number) else { return };
    let (cid, descriptor, file, map) = (next(), next(), next(), next());
    // Six letters before the name say that it's a subset.
    let name = format!("FWSUB{}+{}", char::from(b'A' + (number % 26) as u8), subset.name);
    let system = pdf_writer::types::SystemInfo { registry: Str(b"Adobe"), ordering: Str(b"Identity"), supplement: 0 };
    let mut font = out.type0_font(id);
    font.base_font(Name(name.as_bytes())).encoding_predefined(Name(b"Identity-H")).descendant_font(cid).to_unicode(map);
    font.finish();
    let mut inner = out.cid_font(cid);
    inner.subtype(pdf_writer::types::CidFontType::Type2).base_font(Name(name.as_bytes())).system_info(system);
    inner.font_descriptor(descriptor).default_width(0.0).cid_to_gid_map_predefined(Name(b"Identity"));
    inner.widths().consecutive(0, subset.widths.iter().copied());
    inner.finish();
    let mut described = out.font_descriptor(descriptor);
    let [left, bottom, right, top] = subset.bounds;
    described.name(Name(name.as_bytes())).flags(FontFlags::NON_SYMBOLIC).bbox(Rect::new(left, bottom, right, top));
    described.italic_angle(0.0).ascent(top).descent(bottom).cap_height(729.0).stem_v(80.0).font_file2(file);
    described.finish();
    let packed = compress_to_vec_zlib(&subset.file, PACKING);
    out.stream(file, &packed).filter(pdf_writer::Filter::FlateDecode).pair(Name(b"Length1"), subset.file.len() as i32);
    let system = pdf_writer::types::SystemInfo { registry: Str(b"Adobe"), ordering: Str(b"UCS"), supplement: 0 };
    let mut unicode: pdf_writer::types::UnicodeCmap<u16> = pdf_writer::types::UnicodeCmap::new(Name(b"Custom"), system);
    subset.letters.iter().for_each(|(glyph, letter)| unicode.pair(*glyph, *letter));
    let packed = compress_to_vec_zlib(unicode.finish().as_slice(), PACKING);
    out.stream(map, &packed).filter(pdf_writer::Filter::FlateDecode);
}
