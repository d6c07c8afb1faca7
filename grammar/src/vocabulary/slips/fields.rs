//! Words for fields, by block.

use super::squeezed;
use crate::vocabulary::{block, BLOCKS};

/// What a field's word probably means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FieldMeant {
    /// The language's word.
    pub word: &'static str,
    /// Why it's called so, or what else belongs to it; empty where the word says it all.
    pub note: &'static str,
    /// Whether nothing else can be meant.
    pub sure: bool,
}

/// The field that a word probably means in a block.
pub fn field_meant(of: &str, written: &str) -> Option<FieldMeant> {
    let own = block(of)?;
    let wanted = squeezed(written);
    if let Some(field) = own.fields.iter().find(|f| squeezed(f.word) == wanted) {
        return Some(FieldMeant { word: field.word, note: "", sure: true });
    }
    let rows = ROWS.iter().filter(|row| row.blocks.is_empty() || row.blocks.contains(&of));
    let row = rows.filter(|row| own.field(row.meant).is_some()).find(|row| row.words.contains(&wanted.as_str()))?;
    Some(FieldMeant { word: row.meant, note: row.note, sure: row.sure })
}

/// The field of any block that is spelled like this but for capitals, spaces and hyphens.
pub fn field_spelled(written: &str) -> Option<&'static str> {
    let wanted = squeezed(written);
    BLOCKS.iter().flat_map(|b| b.fields).map(|f| f.word).find(|word| squeezed(word) == wanted)
}

/// The field that a word means whichever block it stands in.
pub fn field_anywhere(written: &str) -> Option<&'static str> {
    let wanted = squeezed(written);
    let mut rows = ROWS.iter().filter(|row| row.words.contains(&wanted.as_str()));
    field_spelled(written).or_else(|| {
        let first = rows.next().filter(|row| row.sure)?;
        rows.all(|row| row.sure && row.meant == first.meant).then_some(first.meant)
    })
}

/// Whether a word is a field of some block, in whatever words.
pub fn is_field_word(written: &str) -> bool {
    field_spelled(written).is_some() || ROWS.iter().any(|row| row.words.contains(&squeezed(written).as_str()))
}

struct Row {
    /// The blocks that it's for; none for every block that has the field.
    blocks: &'static [&'static str],
    words: &'static [&'static str],
    meant: &'static str,
    note: &'static str,
    sure: bool,
}

const fn row(blocks: &'static [&'static str], words: &'static [&'static str], meant: &'static str) -> Row {
    Row { blocks, words, meant, note: "", sure: true }
}

impl Row {
    const fn note(mut self, note: &'static str) -> Row {
        self.note = note;
        self
    }
    const fn maybe(mut self, note: &'static str) -> Row {
        self.note = note;
        self.sure = false;
        self
    }
}

const TUBES: &[&str] = &["tube", "coupler", "tube_fins", "ring_fin"];
const WIDE: &[&str] =
    &["diameter", "dia", "od", "outside", "outsidediameter", "outerdiameter", "outerdia", "exterior", "d"];
const NARROW: &[&str] = &["id", "inside", "insidediameter", "innerdiameter", "innerdia", "interior", "bore"];
const BOTH: &str = "a tube has two diameters, `outer` and `inner`, and needs both";
const FROM_WALL: &str = "a tube says its `inner` diameter instead: `outer` less twice the wall";

/// The first row that fits counts, so a block's own rows stand before those for any.
#[rustfmt::skip] // A word a row.
static ROWS: &[Row] = &[
    // Tubes of every kind.
    row(TUBES, WIDE, "outer").note(BOTH),
    row(TUBES, &["width"], "outer").note(BOTH),
    row(TUBES, NARROW, "inner").note(BOTH),
    row(TUBES, &["wall", "thickness", "wallthickness", "thick"], "inner").maybe(FROM_WALL),
    row(&["mount"], &["id", "inside", "insidediameter", "innerdiameter", "inner", "motordiameter", "hole"], "bore"),
    row(&["mount"], &["od", "outside", "outsidediameter", "outerdiameter"], "outer"),
    row(&["mount"], &["diameter", "dia", "size"], "bore").maybe("a mount has two diameters: `bore`, which is the \
        motor's, and `outer`"),
    row(&["mount"], &["wall", "thickness", "wallthickness"], "outer").maybe("a mount says its `outer` diameter \
        instead: `bore` and twice the wall"),
    row(&["mount"], &["overhang", "protrusion", "stickout", "sticksoutby", "motoroverhang"], "sticks_out"),
    row(&["mount"], &["number", "count", "numberofmotors", "cluster"], "motors"),
    row(&["thrust_ring"], NARROW, "inner"),
    row(&["shoulder", "bulkhead"], WIDE, "outer"),
    row(&["shoulder"], &["width"], "outer"),
    row(&["bulkhead"], &["width", "length", "height", "depth"], "thickness").maybe("a disc has `outer`, its diameter, \
        and `thickness`"),
    // The nose, the taper.
    row(&["nose"], &["type", "form", "profile", "kind", "style"], "shape"),
    row(&["nose"], WIDE, "base"),
    row(&["nose"], &["width", "outer", "basediameter", "basewidth"], "base"),
    row(&["nose", "taper", "shoulder", "lug"], &["thickness", "wallthickness", "thick"], "wall"),
    row(&["taper"], &["type", "form", "profile", "kind"], "shape"),
    row(&["taper"], &["frontdiameter", "forediameter", "top", "fore", "start", "upperdiameter"], "front"),
    row(&["taper"], &["backdiameter", "aftdiameter", "reardiameter", "aft", "rear", "end", "bottom", "lowerdiameter"], "back"),
    row(&["nose", "tube", "taper", "coupler", "mount", "shoulder"], &["height", "long", "len", "tall", "size"], "length"),
    // Fins.
    row(&["fins"], &["height", "semispan", "halfspan", "finheight", "finspan"], "span").note("how far a fin stands out from the body"),
    row(&["fins"], &["rootchord", "rootlength", "base", "baselength"], "root"),
    row(&["fins"], &["tipchord", "tiplength", "top", "toplength"], "tip"),
    row(&["fins"], &["chord", "length"], "root").maybe("a fin has two: `root`, the edge on the body, and `tip`, the \
        outer edge"),
    row(&["fins"], &["sweeplength", "sweepdistance", "sweepback", "rake"], "sweep"),
    row(&["fins"], &["sweepangle", "angle"], "sweep").maybe("`sweep` is a length: how far behind the root's front the \
        tip's front lies; `span * tan(30 deg)` makes one of an angle"),
    row(&["fins"], &["width"], "span").maybe("`span` is how far a fin stands out, `root` and `tip` how long its edges \
        are, `thickness` the plate's"),
    row(&["fins"], &["shape", "type", "form", "planform"], "plan"),
    row(&["fins"], &["points", "corners", "polygon", "vertices"], "outline"),
    row(&["fins"], &["leadingedge", "frontedge"], "leading"),
    row(&["fins"], &["trailingedge", "rearedge", "backedge"], "trailing"),
    row(&["fins"], &["tabheight"], "tab_depth"),
    row(&["fins"], &["filletradius", "fillets"], "fillet"),
    // What is carried.
    row(&["parachute"], &["size", "dia", "d", "width", "span"], "diameter"),
    row(&["parachute", "streamer"], &["cd", "dragcoefficient"], "drag"),
    row(&["streamer"], &["height"], "width"),
    row(&["ballast", "load"], &["offset", "radius", "radial"], "off_axis").maybe("`off_axis` is how far it lies \
        beside the rocket's axis, `at` where along it"),
    // Guides.
    row(&["lug"], &["id", "inside", "insidediameter", "innerdiameter", "inner", "hole"], "bore"),
    row(&["lug"], &["diameter", "dia", "size", "rod", "fits"], "bore").maybe("`bore` is its inner diameter, a little \
        more than the rod's; `wall` is its thickness"),
    row(&["lug"], &["outer", "od", "outside"], "wall").maybe("a lug has a `bore` and a `wall`; outside it is `bore` \
        and twice the wall"),
    row(&["button", "rail_guide"], &["rail", "size", "width", "fits", "for", "railwidth", "section", "slot"], "profile").note("the width of the rail section that it fits"),
    row(&["button"], &["diameter", "dia", "outer"], "profile").maybe("`profile` is the width of the rail section that \
        it fits"),
    row(&["button"], &["screwlength"], "screw"),
    row(&["lug", "button", "rail_guide"], &["gap", "spacer", "height"], "standoff"),
    row(&["lug", "button", "rail_guide"], &["strength", "holds", "carries"], "bears"),
    // Material, motor, pad, site, flight.
    row(&["material"], &["rho", "weight", "mass"], "density").maybe("`density` is mass for its volume, such as `480 \
        kg/m3`"),
    row(&["material"], &["youngsmodulus", "youngs", "modulus", "elasticmodulus"], "stiffness"),
    row(&["material"], &["shearmodulus"], "shear"),
    row(&["section"], &["size"], "width"),
    row(&["section"], &["slot", "opening"], "mouth"),
    row(&["section"], &["inertia", "ixx", "momentofinertia"], "second_moment"),
    row(&["motor"], &["name", "type", "designation", "label", "class"], "code"),
    row(&["motor"], &["propellantmass", "propellantweight", "fuel", "fuelmass", "propmass"], "propellant"),
    row(&["motor"], &["totalmass", "loadedmass", "launchmass", "initialmass"], "mass"),
    row(&["motor"], &["thrust", "thrustcurve", "data", "points", "thrustdata"], "curve"),
    row(&["motor"], &["ejectiondelay", "ejection", "delaytime"], "delay"),
    row(&["motor"], &["casediameter", "casedia"], "diameter"),
    row(&["motor", "rod"], &["dia", "d", "od", "thickness"], "diameter"),
    row(&["motor", "rod", "rail", "coupler", "lug", "rail_guide", "cord", "streamer"], &["len", "long", "height"], "length"),
    row(&["pad"], &["angle", "lean", "launchangle", "elevation"], "tilt"),
    row(&["pad"], &["standoff", "blastplate", "clip"], "stop").maybe("`stop` is how far above the rod's foot the \
        rocket's aft end rests"),
    row(&["pad"], &["height"], "foot").maybe("`foot` is how high the rod's foot stands over the ground, `stop` how \
        far above it the rocket rests"),
    row(&["rail"], &["section", "profile", "size", "width", "type"], "slot").maybe("`slot` is the name of its \
        section: slim, mini, standard, large, or one that the file defines"),
    row(&["site"], &["altitude", "height", "asl"], "elevation"),
    row(&["site"], &["temp"], "temperature"),
    row(&["site"], &["windspeed", "breeze"], "wind"),
    row(&["site"], &["gusts", "gustspeed"], "gust"),
    row(&["site"], &["size", "width", "fieldsize"], "across"),
    row(&["site"], &["distance", "spectators", "crowd"], "people"),
    row(&["flight"], &["engine"], "motor"),
    row(&["flight"], &["launchpad", "launcher", "from"], "pad"),
    row(&["flight"], &["guides", "guide", "guided", "lugs", "lug", "buttons", "button", "uses", "guidedwith"], "guided_by"),
    row(&["flight"], &["field", "place", "at", "where", "location", "launchsite", "weather"], "site"),
    row(&["flight"], &["lowermotor", "boosterengine", "firstmotor"], "booster_motor"),
    row(&["measured"], &["motor", "engine"], "with"),
    row(&["flown"], &["apogee", "altitude", "maxheight", "maxaltitude", "top", "peak", "highest"], "height"),
    row(&["flown"], &["speed", "launchspeed", "railspeed", "offspeed", "velocity"], "exit_speed"),
    row(&["flown"], &["time", "timetoapogee", "apogeetime", "ascent"], "time_to_top"),
    row(&["flown"], &["record", "data", "recording", "altimeter", "csv"], "log"),
    row(&["flown"], &["of", "which", "mission"], "flight"),
    row(&["motor"], &["recording", "stand", "teststand", "measuredcurve", "data"], "trace"),
    row(&["motor"], &["thrustscale", "scale"], "thrust_factor"),
    row(&["airframe"], &["dragscale", "cdfactor", "dragmultiplier"], "drag_factor"),
    row(&["pad"], &["stakes", "pegs", "anchored", "anchors", "pegged"], "staked"),
    row(&["pad"], &["legs", "footprint", "radius", "spread"], "stance"),
    row(&["rod"], &["joined", "jointheight", "coupling", "sleeve"], "joint"),
    row(&["tower"], &["inner", "opening", "gap", "diameter"], "bore"),
    row(&["tower"], &["count", "number", "posts", "rods"], "rails"),
    row(&["parachute", "streamer"], &["holds", "lowers", "for", "parts", "lands"], "carries"),
    row(&["lug", "button", "rail_guide"], &["afterlaunch", "flyaway", "falls", "drops", "detaches"], "after_release"),
    row(&["design"], &["author", "by", "owner", "team", "school", "student", "pupil", "builtby", "madeby", "designer"], "builder"),
    row(&["design"], &["comment", "comments", "description", "remarks", "notes", "text"], "note"),
    // Any block.
    row(&[], &["weight", "wt", "weighs"], "mass"),
    row(&[], &["position", "pos", "location", "loc", "place", "placed", "station", "where", "offset", "distance"], "at"),
    row(&[], &["cg", "cog", "com", "balancepoint", "centerofgravity", "centreofgravity", "centerofmass", "centreofmass"], "balance"),
    row(&[], &["madeof", "mat", "substance", "of"], "material"),
    row(&[], &["number", "num", "n", "quantity", "qty", "howmany", "numberoffins", "fincount", "amount"], "count"),
    row(&[], &["thick", "plate"], "thickness"),
    row(&[], &["finish", "paint", "roughness", "texture", "coating"], "surface"),
    row(&[], &["angle", "rotation", "radial", "azimuth", "around", "rotated"], "clock"),
    row(&[], &["len", "long"], "length"),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_names_a_field_and_no_word_of_the_language_is_foreign_in_its_block() {
        for row in ROWS {
            let own: Vec<_> = BLOCKS
                .iter()
                .filter(|b| row.blocks.is_empty() || row.blocks.contains(&b.word))
                .filter(|b| b.field(row.meant).is_some())
                .collect();
            assert!(!own.is_empty(), "`{}` is a field", row.meant);
            assert!(
                row.blocks.iter().all(|name| own.iter().any(|b| b.word == *name)),
                "{} {:?}",
                row.meant,
                row.blocks
            );
            for foreign in row.words {
                assert_eq!(*foreign, squeezed(foreign), "rows are squeezed");
                let clash = own.iter().filter(|_| !row.blocks.is_empty()).find(|b| b.field(foreign).is_some());
                assert!(clash.is_none(), "`{foreign}` is a field of its own beside `{}`", row.meant);
            }
        }
    }

    #[test]
    fn the_block_decides() {
        let word = |of, written| field_meant(of, written).map(|meant| meant.word);
        assert_eq!(word("tube", "diameter"), Some("outer"));
        assert_eq!(word("nose", "diameter"), Some("base"));
        assert_eq!(word("fins", "height"), Some("span"));
        assert_eq!(word("tube", "height"), Some("length"));
        assert_eq!(word("mount", "sticks-out"), Some("sticks_out"));
        assert_eq!(word("flight", "guidedBy"), Some("guided_by"));
        assert_eq!(word("ballast", "position"), Some("at"));
        assert_eq!(word("flight", "colour"), None);
        assert_eq!(field_spelled("guided by"), Some("guided_by"));
        assert_eq!(field_anywhere("root chord"), Some("root"));
        assert_eq!(field_anywhere("diameter of"), None);
    }
}
