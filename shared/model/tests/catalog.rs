//! The built-in catalogue is a file like any other, and a sound one.
#![allow(clippy::unwrap_used)]

use finwright_model::{build, Files};
use std::path::Path;
use std::sync::Arc;

struct NoFiles;
impl Files for NoFiles {
    fn read(&self, _: &Path) -> Result<Arc<str>, String> {
        Err("there is no such file".to_string())
    }
}

#[test]
fn it_has_no_problem() {
    assert!(finwright_grammar::parse(finwright_model::catalog::TEXT).problems.is_empty());
    assert!(finwright_model::build::catalog_problems().is_empty(), "{:#?}", finwright_model::build::catalog_problems());
}

#[test]
fn every_material_has_a_density_and_every_section_its_measures() {
    let design = build(Path::new("a.finw"), Arc::from("finwright 1\n"), &NoFiles);
    assert!(design.materials.len() >= 25 && design.sections.len() >= 4);
    for material in &design.materials {
        let density = material.density.as_ref().unwrap().si;
        assert!((20.0..12_000.0).contains(&density), "{}: {density}", material.name.value);
    }
    for section in &design.sections {
        let (width, mouth) = (section.width.as_ref().unwrap().si, section.mouth.as_ref().unwrap().si);
        assert!(mouth < width / 2.0, "{}", section.name.value);
        // A slotted profile is softer than the solid square of its width: I = w^4 / 12 (textbook).
        let solid = width.powi(4) / 12.0;
        let moment = section.second_moment.as_ref().unwrap().si;
        assert!((0.2 * solid..0.8 * solid).contains(&moment), "{}: {moment} of {solid}", section.name.value);
        assert!(section.material.is_some() && section.button_mass.is_some() && section.guide_mass.is_some());
    }
}

#[test]
fn a_files_own_material_wins_over_the_catalogues() {
    let text = "material balsa { density: 99 kg/m3 }\nairframe { tube t { material: balsa } }\n";
    let design = build(Path::new("a.finw"), Arc::from(text), &NoFiles);
    let chosen = design.parts[0].material.as_ref().unwrap().value;
    assert_eq!(design.materials[chosen].density.as_ref().unwrap().si, 99.0);
}
