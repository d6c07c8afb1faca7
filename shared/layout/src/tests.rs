//! What a page looks like at a width.

use super::table::{Column, Table};
use super::{hanging, paragraph};
use unicode_width::UnicodeWidthStr;

#[test]
fn lines_break_between_words_but_not_between_a_number_and_its_unit() {
    let text = "leaves the 1.2 m rod at 13.4 m/s (48 km/h), leans 20° and weighs 352 ± 3 g; 18.7 N s in 1.9 s.";
    insta::assert_snapshot!(paragraph(text, "", 26), @"
    leaves the 1.2 m rod at
    13.4 m/s (48 km/h), leans
    20° and weighs 352 ± 3 g;
    18.7 N s in 1.9 s.
    ");
    // Whatever the width, what belongs together stands on one line.
    for width in 20..100 {
        let said = paragraph(text, "", width);
        for one in ["1.2 m", "13.4 m/s", "48 km/h", "352 ± 3 g", "18.7 N s", "1.9 s."] {
            assert!(said.contains(one), "{one} at {width}: {said}");
        }
        assert!(said.lines().all(|line| line.width() <= width), "{width}: {said}");
        assert_eq!(said.split_whitespace().collect::<Vec<_>>(), text.split_whitespace().collect::<Vec<_>>());
    }
}

#[test]
fn a_preposition_after_a_name_is_no_unit() {
    assert_eq!(paragraph("in the a5 in", "", 9), "in the a5\nin");
    assert_eq!(paragraph("a rod 1/8 in", "", 10), "a rod\n1/8 in");
}

#[test]
fn the_first_line_stands_out() {
    insta::assert_snapshot!(hanging("the rear guide is as near the aft end as it fits", "  - ", "    ", 30), @"
    - the rear guide is as near
      the aft end as it fits
    ");
}

#[test]
fn a_word_wider_than_the_line_stays_whole() {
    let said = hanging("more: finwright check designs/of/the/whole/first_term.finw", "", "  ", 24);
    insta::assert_snapshot!(said, @"
    more: finwright check
      designs/of/the/whole/first_term.finw
    ");
}

#[test]
fn a_short_command_is_not_broken() {
    insta::assert_snapshot!(paragraph("ask `finwright explain guide/slow-exit` for more", "", 34), @"
    ask
    `finwright explain guide/slow-exit`
    for more
    ");
}

fn pads() -> Table {
    let mut table = Table::new([
        Column::words("pad"),
        Column::words("what").gives_way(2),
        Column::numbers("leaves at", "m/s"),
        Column::numbers("play", "°").gives_way(1),
        Column::prose("verdict", 12),
    ]);
    let mut row = |cells: [&str; 5]| table.row(cells.map(String::from));
    row(["mini_rail", "20 mm rail, 1.8 m", "22.1", "0.11", "meets the checks"]);
    row(["großer_Stab", "4 mm rod, 1.2 m", "7.5", "0.14", "look first: pad/leans"]);
    table
}

#[test]
fn columns_line_up_under_their_headings_and_units() {
    let laid = pads().text(80);
    insta::assert_snapshot!(laid.text, @"
    pad          what               leaves at  play  verdict
                                          m/s     °
    mini_rail    20 mm rail, 1.8 m       22.1  0.11  meets the checks
    großer_Stab  4 mm rod, 1.2 m          7.5  0.14  look first: pad/leans
    ");
    assert!(laid.left_out.is_empty());
}

#[test]
fn columns_give_way_in_their_order_and_are_named() {
    let laid = pads().text(61);
    insta::assert_snapshot!(laid.text, @"
    pad          what               leaves at  verdict
                                          m/s
    mini_rail    20 mm rail, 1.8 m       22.1  meets the checks
    großer_Stab  4 mm rod, 1.2 m          7.5  look first:
                                               pad/leans
    ");
    assert_eq!(laid.left_out, ["play"]);
    let laid = pads().text(40);
    insta::assert_snapshot!(laid.text, @"
    pad          leaves at  verdict
                       m/s
    mini_rail         22.1  meets the
                            checks
    großer_Stab        7.5  look first:
                            pad/leans
    ");
    assert_eq!(laid.left_out, ["what", "play"]);
    for width in 30..90 {
        assert!(pads().text(width).text.lines().all(|line| line.width() <= width), "{}", pads().text(width).text);
    }
}

#[test]
fn prose_goes_below_its_row_where_nothing_is_left_beside_it() {
    let mut table = Table::new([Column::words(""), Column::words(""), Column::prose("", 24)]);
    table.section("an empty section isn't shown");
    table.section("on the pad");
    table.row(["balance point", "345 ± 1 mm", "from the tip; 306 ± 1 mm at burnout"].map(String::from));
    table.row(["mass", "123 g", ""].map(String::from));
    table.section("neither is the last one");
    insta::assert_snapshot!(table.text(80).text, @"
    on the pad
      balance point  345 ± 1 mm  from the tip; 306 ± 1 mm at burnout
      mass           123 g
    ");
    insta::assert_snapshot!(table.text(60).text, @"
    on the pad
      balance point  345 ± 1 mm  from the tip; 306 ± 1 mm at
                                 burnout
      mass           123 g
    ");
    insta::assert_snapshot!(table.text(50).text, @"
    on the pad
      balance point  345 ± 1 mm
          from the tip; 306 ± 1 mm at burnout
      mass           123 g
    ");
}
