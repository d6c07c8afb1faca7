//! A picture as SVG.

use crate::colour::{Scheme, DARK, LIGHT, ROLES};
use crate::scene::{Anchor, Item, Ring, Role, Scene, Shape, Text, What};
use base64::prelude::{Engine, BASE64_STANDARD};
use std::fmt::Write;

/// A picture as an SVG file that stands by itself: with its own colours, light and dark.
pub fn svg(scene: &Scene) -> String {
    let (w, h) = (number(scene.width), number(scene.height));
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"fw\" width=\"{w}mm\" height=\"{h}mm\" viewBox=\"0 0 {w} {h}\" \
         role=\"img\" aria-labelledby=\"{n}-t {n}-d\">\n{}<style>\n{}</style>\n\
         <rect class=\"f-paper\" width=\"{w}\" height=\"{h}\"/>\n",
        meaning(scene, scene.name),
        style(),
        n = scene.name,
    );
    body(scene, &mut out);
    out + "</svg>\n"
}

/// The same to stand in a page that has [`style`] once, under an id of its own there. No attribute holds a style, so
/// that a page may forbid them.
pub fn inline_svg(scene: &Scene, id: &str) -> String {
    let (w, h) = (number(scene.width), number(scene.height));
    let mut out = format!(
        "<svg class=\"fw\" viewBox=\"0 0 {w} {h}\" role=\"img\" aria-labelledby=\"{id}-t {id}-d\">\n{}",
        meaning(scene, id)
    );
    body(scene, &mut out);
    out + "</svg>\n"
}

/// A picture as an address that holds it whole, for a hover that shows pictures.
pub fn data_address(scene: &Scene) -> String {
    format!("data:image/svg+xml;base64,{}", BASE64_STANDARD.encode(svg(scene)))
}

/// The style sheet of every picture: all of it under one class.
pub fn style() -> String {
    let variables = |scheme: &Scheme| {
        ROLES.iter().fold(String::new(), |out, role| out + &format!("--{}:{};", name(*role), scheme.of(*role)))
    };
    let mut out = format!(
        ".fw{{{light}}}\n@media (prefers-color-scheme:dark){{.fw{{{dark}}}}}\n@media print{{.fw{{{light}}}}}\n\
         .fw text{{font-family:{FONTS};stroke:none;font-variant-numeric:tabular-nums}}\n\
         .fw .b{{font-weight:600}}.fw .m{{text-anchor:middle}}.fw .e{{text-anchor:end}}\n\
         .fw .s{{fill:none;stroke-linecap:round;stroke-linejoin:round}}\n",
        light = variables(&LIGHT),
        dark = variables(&DARK),
    );
    for role in ROLES {
        // A plain colour first: some programs don't know variables.
        let (word, colour) = (name(role), LIGHT.of(role));
        out += &format!(".fw .s-{word}{{stroke:{colour};stroke:var(--{word})}}");
        out += &format!(".fw .f-{word}{{fill:{colour};fill:var(--{word})}}\n");
    }
    out
}

/// The fonts that words may be set in. The first is the one that their widths are measured in; none is wider.
pub const FONTS: &str = "\"DejaVu Sans\",Verdana,\"Noto Sans\",sans-serif";

/// Text as it stands in SVG and HTML; what XML has no room for is left out.
pub fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out += "&amp;",
            '<' => out += "&lt;",
            '>' => out += "&gt;",
            '"' => out += "&quot;",
            '\'' => out += "&#39;",
            '\u{0}'..='\u{8}' | '\u{b}' | '\u{c}' | '\u{e}'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => {}
            c => out.push(c),
        }
    }
    out
}

fn meaning(scene: &Scene, id: &str) -> String {
    let (title, desc) = (escaped(&scene.title), escaped(&scene.desc));
    format!("<title id=\"{id}-t\">{title}</title>\n<desc id=\"{id}-d\">{desc}</desc>\n")
}

fn body(scene: &Scene, out: &mut String) {
    let mut rest = scene.items.as_slice();
    while let Some(first) = rest.first() {
        let alike = rest.iter().take_while(|item| item.source == first.source).count();
        let (group, later) = rest.split_at(alike);
        rest = later;
        // Only the file that the picture is of has places that a reader can go to.
        let own = first.source.filter(|place| place.file.0 == 0);
        if let Some(place) = own {
            let _ = writeln!(out, "<g data-from=\"{}\" data-to=\"{}\">", place.span.start, place.span.end);
        }
        group.iter().for_each(|item| draw(item, out));
        if own.is_some() {
            *out += "</g>\n";
        }
    }
}

fn draw(item: &Item, out: &mut String) {
    match &item.what {
        What::Shape(shape) => path(shape, out),
        What::Text(text) => words(text, out),
    }
}

fn path(shape: &Shape, out: &mut String) {
    *out += "<path class=\"";
    match (shape.pen, shape.fill) {
        (Some(pen), Some(fill)) => {
            let _ = write!(out, "s s-{} f-{}", name(pen.role), name(fill));
        }
        (Some(pen), None) => {
            let _ = write!(out, "s s-{}", name(pen.role));
        }
        (None, Some(fill)) => {
            let _ = write!(out, "f-{}", name(fill));
        }
        (None, None) => {}
    }
    out.push('"');
    if let Some(pen) = shape.pen {
        let _ = write!(out, " stroke-width=\"{}\"", number(pen.weight));
        let dashes: Vec<String> = pen.dash.lengths().iter().map(|length| number(*length)).collect();
        if !dashes.is_empty() {
            let _ = write!(out, " stroke-dasharray=\"{}\"", dashes.join(" "));
        }
    }
    if shape.rings.len() > 1 && shape.fill.is_some() {
        *out += " fill-rule=\"evenodd\"";
    }
    *out += " d=\"";
    shape.rings.iter().for_each(|ring| ring_of(ring, out));
    *out += "\"/>\n";
}

fn ring_of(ring: &Ring, out: &mut String) {
    match ring {
        Ring::Open(points) => polyline(points, out),
        Ring::Closed(points) => {
            polyline(points, out);
            out.push('Z');
        }
        Ring::Circle((x, y), r) => {
            let (r2, r) = (number(2.0 * r), number(*r));
            let from = number(x - r.parse::<f64>().unwrap_or(0.0));
            let _ = write!(out, "M{from} {}a{r} {r} 0 1 0 {r2} 0a{r} {r} 0 1 0 -{r2} 0Z", number(*y));
        }
    }
}

fn polyline(points: &[(f64, f64)], out: &mut String) {
    for (i, (x, y)) in points.iter().enumerate() {
        let _ = write!(out, "{}{} {}", if i == 0 { 'M' } else { 'L' }, number(*x), number(*y));
    }
}

fn words(text: &Text, out: &mut String) {
    let style = text.style;
    let bold = if style.bold { " b" } else { "" };
    let anchor = match style.anchor {
        Anchor::Start => "",
        Anchor::Middle => " m",
        Anchor::End => " e",
    };
    let (x, y) = (number(text.at.0), number(text.at.1));
    let turn = if style.upwards { format!(" transform=\"rotate(-90 {x} {y})\"") } else { String::new() };
    let (size, role, said) = (number(style.size), name(style.role), escaped(&text.words));
    let _ = writeln!(
        out,
        "<text class=\"f-{role}{bold}{anchor}\" x=\"{x}\" y=\"{y}\" font-size=\"{size}\"{turn}>{said}</text>"
    );
}

pub(crate) fn name(role: Role) -> &'static str {
    match role {
        Role::Paper => "paper",
        Role::Ink => "ink",
        Role::Mid => "mid",
        Role::Faint => "faint",
        Role::Pale => "pale",
        Role::Fails => "fails",
        Role::Looks => "looks",
    }
}

/// A number of millimetres, to a hundredth.
fn number(x: f64) -> String {
    let mut out = format!("{x:.2}");
    while out.ends_with('0') {
        out.pop();
    }
    if out.ends_with('.') {
        out.pop();
    }
    if out == "-0" {
        out.remove(0);
    }
    out
}
