//! Pages as one HTML file that needs nothing else: its pictures, style and fonts are in it.

use crate::font::{BOLD, PLAIN};
use crate::scene::Scene;
use crate::svg::{escaped, inline_svg, style};
use base64::prelude::{Engine, BASE64_STANDARD};

/// A page of the file: its size in mm, and the scenes on it with where each goes.
pub type Page<'s> = crate::pdf::Page<'s>;

/// The file.
pub fn html(pages: &[Page], title: &str) -> String {
    let first = pages.first().map_or((210.0, 297.0), |page| (page.width, page.height));
    let mut out = format!(
        "<!doctype html>\n<html lang=\"en\">\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>{}</title>\n<style>\n",
        escaped(title)
    );
    for (weight, bytes) in [("400", PLAIN), ("600 700", BOLD)] {
        let data = BASE64_STANDARD.encode(bytes);
        out += &format!(
            "@font-face{{font-family:\"DejaVu Sans\";font-weight:{weight};\
             src:url(data:font/ttf;base64,{data}) format(\"truetype\")}}\n"
        );
    }
    out += &style();
    out += &format!(
        "@page{{size:{}mm {}mm;margin:0}}\n\
         html{{background:#fff}}body{{margin:0}}\
         .sheet{{position:relative;background:#fff;overflow:hidden;break-after:page}}\
         .sheet:last-child{{break-after:auto}}.sheet svg{{position:absolute;display:block}}\n\
         h1{{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}}\n",
        first.0, first.1
    );
    // Sheets are for paper: they keep the light scheme on every screen.
    out += "@media (prefers-color-scheme:dark){.sheet .fw{";
    for role in crate::colour::ROLES {
        out += &format!("--{}:{};", crate::svg::name(role), crate::colour::LIGHT.of(role));
    }
    out += "}}\n";
    let mut placed = String::new();
    let mut body = String::new();
    for (number, page) in pages.iter().enumerate() {
        placed += &format!(".p{number}{{width:{}mm;height:{}mm}}\n", page.width, page.height);
        body += &format!("<section class=\"sheet p{number}\" aria-label=\"page {}\">\n", number + 1);
        for (at, ((x, y), scene)) in page.scenes.iter().enumerate() {
            let (w, h) = (scene.width, scene.height);
            placed +=
                &format!(".p{number} svg:nth-of-type({}){{left:{x}mm;top:{y}mm;width:{w}mm;height:{h}mm}}\n", at + 1);
            body += &inline_svg(scene, &format!("{}-{number}-{at}", scene.name));
        }
        body += "</section>\n";
    }
    out += &placed;
    out + "</style>\n<body>\n<main>\n<h1>" + &escaped(title) + "</h1>\n" + &body + "</main>\n</body>\n</html>\n"
}

/// Each scene on a page of its own size.
pub fn alone(scenes: &[Scene]) -> Vec<Page<'_>> {
    scenes
        .iter()
        .map(|scene| Page { width: scene.width, height: scene.height, scenes: vec![((0.0, 0.0), scene)] })
        .collect()
}
