//! The document around the content, with its style and its script.

use finwright_draw::svg::style;

/// The document; a nonce lets its own style and script run, and nothing else.
pub fn shell(nonce: &str) -> String {
    format!(
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <meta name=\"color-scheme\" content=\"light dark\">\n<title>finwright</title>\n\
         <style nonce=\"{nonce}\">\n{}{}</style>\n</head>\n<body>\n\
         <a class=\"skip\" href=\"#found\">Skip to what was found</a>\n\
         <p id=\"state\" role=\"status\" hidden></p>\n<main id=\"main\"><h1>Waiting for the design</h1></main>\n\
         <footer><p>Computed from the file, not measured. Not a clearance to fly: the range safety officer and the \
         local code decide.</p></footer>\n<script nonce=\"{nonce}\">\n{}</script>\n</body>\n</html>\n",
        style(),
        include_str!("shell/page.css"),
        include_str!("shell/page.js"),
    )
}
