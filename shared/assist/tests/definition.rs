//! Where a name is defined. The cursor is marked `$0`, the definition by `«»`.
#![allow(clippy::unwrap_used, clippy::panic)]

use finwright_assist::Origin;
use finwright_checks::{analyze, Files, Snapshot};
use std::path::{Path, PathBuf};
use std::sync::Arc;

struct Shelf;
impl Files for Shelf {
    fn read(&self, path: &Path) -> Result<Arc<str>, String> {
        match path.to_str() {
            Some("pads.finw") => Ok(Arc::from("pad far { rod { diameter: 3 mm; length: 1 m } }")),
            _ => Err("there is no such file".to_string()),
        }
    }
}

fn check(marked: &str) {
    let start = marked.replace("$0", "").find('«').unwrap();
    let end = marked.replace("$0", "").replace('«', "").find('»').unwrap();
    let offset = marked.replace(['«', '»'], "").find("$0").unwrap();
    let text = marked.replace(['«', '»'], "").replace("$0", "");
    let analysis = analyze(&Snapshot {
        path: PathBuf::from("a.finw"),
        text: Arc::from(text),
        files: Arc::new(Shelf),
        settings: Arc::default(),
    });
    let (_, origin) = finwright_assist::definition(&analysis, offset).unwrap_or_else(|| panic!("nothing: {marked}"));
    let Origin::Place(place) = origin else { panic!("a file: {marked}") };
    assert_eq!((place.file.0, place.span.range()), (0, start..end), "{marked}");
}

#[test]
fn values_parts_and_definitions() {
    check("let «caliber» = 3 mm\nlet x = 2 * cali$0ber");
    check("airframe { tube «body» { length: 3 mm } }\nlet x = bo$0dy.length");
    check("motor «a» { }\nflight f { motor: $0a }");
    check("airframe { tube { lug «one» { } lug two { } } }\nflight f { guided_by: [on$0e, two] }");
    check("airframe { tube { lug «one» { } lug two like o$0ne { } } }");
    check("material «balsa» { density: 100 kg/m3 }\nairframe { tube { material: bal$0sa } }");
    check("airframe { tube «body» { lug { at: 3 mm from bod$0y.front } } }");
}

#[test]
fn a_name_means_what_its_place_asks_for() {
    let three = "motor meadow { }\npad meadow { }\nsite meadow { }\nflight f { ";
    check(&format!("{} pad: mea$0dow }}", three.replace("pad meadow", "pad «meadow»")));
    check(&format!("{} site: mea$0dow }}", three.replace("site meadow", "site «meadow»")));
    check(&format!("{} motor: mea$0dow }}", three.replace("motor meadow", "motor «meadow»")));
    check("airframe { tube { lug «front» { at: 3 mm from front } lug rear like fr$0ont { } } }");
    check("let «balsa» = 3 mm\nairframe { tube { wall: bal$0sa; material: balsa } }");
    check("let body = 3 mm\nmotor body { }\nairframe { tube «body» { lug { at: bo$0dy.ends - 3 mm from tip } } }");
    check("let «body» = 3 mm\nairframe { tube body { lug { at: bo$0dy from front } } }");
    check("motor one { }\nairframe { tube { lug «one» { } lug two like on$0e { } } }");
    check("motor engine { }\nairframe { tube { mount «engine» { } } }\nlet x = eng$0ine.bore");
    check("let «rho» = 160 kg/m3\nairframe { tube { material: rh$0o } }");
    // What can't be said is looked for where it would be.
    check("airframe { tube «body» { } }\nlet x = bo$0dy.lenght");
}

#[test]
fn fields_of_parts_and_declarations_themselves() {
    check("airframe { tube body { fins main { «root»: 3 mm } } }\nlet x = main.ro$0ot");
    check("airframe { tube { lug one { «bore»: 3 mm } lug two like one { } } }\nlet x = two.bo$0re");
    check("pad «f$0ar» { }");
    check("let «x$0» = 3 mm");
}

#[test]
fn in_a_used_file_in_the_catalogue_and_nowhere() {
    let find = |text: &str, offset: usize| {
        let analysis = analyze(&Snapshot {
            path: PathBuf::from("a.finw"),
            text: Arc::from(text),
            files: Arc::new(Shelf),
            settings: Arc::default(),
        });
        finwright_assist::definition(&analysis, offset).map(|(_, origin)| match origin {
            Origin::Place(place) => Ok(place.file.0),
            Origin::File(path) => Err(path.display().to_string()),
        })
    };
    let text = "use \"pads.finw\"\nflight f { pad: far }";
    assert_eq!(find(text, text.len() - 3), Some(Ok(2)));
    let text = "airframe { tube { material: balsa } }";
    assert_eq!(find(text, text.len() - 6), Some(Ok(1)));
    let text = "use \"pads.finw\"";
    assert_eq!(find(text, 8), Some(Err("pads.finw".to_string())));
    let text = "airframe { tube { lug front { at: 3 mm from front } } }";
    for (text, word) in [
        ("let x = y", "y"),
        ("let x = 3 mm # x", "# x"),
        ("design \"far\" { }", "far"),
        (text, "front }"),
        ("pad far { }\nmotor m { code: \"far\" }", "far\""),
        ("pad far { } # far", "far"),
    ] {
        assert_eq!(find(text, text.rfind(word).unwrap()), None, "{text}");
    }
}
