//! Where a name is defined. The cursor is marked `$0`, the definition by `«»`.
#![allow(clippy::unwrap_used)]

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
    let (_, place) = finwright_assist::definition(&analysis, offset).unwrap();
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
fn in_a_used_file_in_the_catalogue_and_nowhere() {
    let find = |text: &str, offset: usize| {
        let analysis = analyze(&Snapshot {
            path: PathBuf::from("a.finw"),
            text: Arc::from(text),
            files: Arc::new(Shelf),
            settings: Arc::default(),
        });
        finwright_assist::definition(&analysis, offset).map(|(_, place)| place.file.0)
    };
    let text = "use \"pads.finw\"\nflight f { pad: far }";
    assert_eq!(find(text, text.len() - 3), Some(2));
    let text = "airframe { tube { material: balsa } }";
    assert_eq!(find(text, text.len() - 6), Some(1));
    for (text, word) in
        [("let x = y", "y"), ("let x = 3 mm # x", "# x"), ("design \"far\" { }", "far"), ("pad far { }", "far")]
    {
        assert_eq!(find(text, text.rfind(word).unwrap()), None, "{text}");
    }
}
