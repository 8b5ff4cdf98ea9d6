//! Comparison of two builds: what moved, and whether the part on the bench can be kept.

use crate::manifest::{manifest, measured, part_set, screw, size};
use swept::export::change::{Kind, compare};
use swept::export::manifest::{Manifest, Measured};
use swept::export::verdict::Verdict;
use swept::parts::part::PartSet;
use swept::shape::recipe::{Kind as FeatureKind, Size, Tolerance};

const GENERAL: Tolerance = Tolerance::General;

fn fit(code: &str, upper: f64, lower: f64) -> Tolerance {
    Tolerance::Fit { code: code.to_owned(), upper, lower }
}

fn sizes(bore: f64, outside: f64, tolerance: Tolerance) -> Vec<Size> {
    vec![
        size("bore-diameter", bore, tolerance),
        size("outside-diameter", outside, GENERAL),
        size("pitch-circle", 50.0, GENERAL),
    ]
}

/// A build whose ring has a bore of this diameter, in the recipe as in the sizes.
fn with_bore(bore: f64, outside: f64, tolerance: Tolerance, volume: f64) -> Manifest {
    let mut set = part_set();
    if let Some(FeatureKind::Bore { chain, .. }) =
        set.parts[0].recipe.as_mut().map(|r| &mut r.features[0].kind)
    {
        chain.iter_mut().for_each(|n| n.r = bore / 2.0);
    }
    let half = outside / 2.0;
    let bounding_box_mm = [[-half, -half, 0.0], [half, half, 1.0]];
    manifest(
        &set,
        sizes(bore, outside, tolerance),
        Measured { volume_mm3: volume, bounding_box_mm, ..measured() },
    )
}

fn old() -> Manifest {
    with_bore(36.0, 60.0, GENERAL, 1700.0)
}

fn only(new: &Manifest) -> (String, Verdict) {
    let changes = compare(&old(), new);
    assert_eq!((changes.parts.len(), changes.same), (1, 1), "{changes:?}");
    match changes.parts[0].kind {
        Kind::Changed(verdict) => (changes.text(), verdict),
        ref other => panic!("{other:?}"),
    }
}

#[test]
fn nothing_differs_between_a_build_and_itself_read_back() {
    let text = old().to_json().expect("a manifest");
    let back = Manifest::from_json(&text).expect("a manifest");
    let changes = compare(&back, &old());
    assert_eq!((changes.text().as_str(), changes.same), ("", 2));
}

#[test]
fn a_wider_bore_is_rework_and_a_narrower_one_is_not() {
    let (text, verdict) = only(&with_bore(38.5, 60.0, GENERAL, 1550.0));
    assert_eq!(text, "ring-six-holes: bore-diameter 36 mm -> 38.5 mm (rework)\n");
    assert_eq!(verdict, Verdict::Rework);
    let (text, verdict) = only(&with_bore(33.5, 60.0, GENERAL, 1850.0));
    assert_eq!(text, "ring-six-holes: bore-diameter 36 mm -> 33.5 mm (remake)\n");
    assert_eq!(verdict, Verdict::Remake);
}

#[test]
fn a_smaller_outside_is_rework_and_a_larger_one_is_not() {
    assert_eq!(only(&with_bore(36.0, 58.0, GENERAL, 1600.0)).1, Verdict::Rework);
    assert_eq!(only(&with_bore(36.0, 62.0, GENERAL, 1800.0)).1, Verdict::Remake);
    let (text, verdict) = only(&with_bore(38.0, 62.0, GENERAL, 1650.0));
    assert_eq!(
        text,
        "ring-six-holes: bore-diameter 36 mm -> 38 mm, outside-diameter 60 mm -> 62 mm (remake)\n"
    );
    assert_eq!(verdict, Verdict::Remake);
}

#[test]
fn sizes_of_which_it_is_not_certain_are_remade() {
    let mut new = old();
    new.parts[0].dimensions[2].value = 51.0;
    new.parts[0].volume_mm3 = Some(1690.0);
    assert_eq!(only(&new).1, Verdict::Remake);
}

#[test]
fn a_hole_that_moved_is_remade_even_when_the_bore_grew() {
    let mut new = with_bore(38.5, 60.0, GENERAL, 1550.0);
    new.parts[0].holes[1].at_mm[0] += 0.5;
    assert_eq!(only(&new).1, Verdict::Remake);
}

#[test]
fn a_shape_that_changed_without_a_size_is_told() {
    let mut new = old();
    new.parts[0].holes[3].at_mm[1] += 0.001;
    assert_eq!(only(&new), ("ring-six-holes: shape changed (remake)\n".to_owned(), Verdict::Remake));
}

#[test]
fn tolerances_decide_by_the_limits_of_what_was_made() {
    // A hole made to H7 passes H8; one made to H8 may be reamed to F8, but not to H7.
    // Limits for 36 mm from ISO 286-2: H7 0/+25 µm, H8 0/+39 µm, F8 +25/+64 µm.
    let (h7, h8, f8) = (fit("H7", 0.025, 0.0), fit("H8", 0.039, 0.0), fit("F8", 0.064, 0.025));
    let build = |t: &Tolerance| with_bore(36.0, 60.0, t.clone(), 1700.0);
    let verdict = |a, b| compare(&build(a), &build(b)).parts[0].kind.clone();
    assert_eq!(verdict(&h7, &h8), Kind::Changed(Verdict::Keep));
    assert_eq!(verdict(&h8, &f8), Kind::Changed(Verdict::Rework));
    assert_eq!(verdict(&h8, &h7), Kind::Changed(Verdict::Remake));
    assert_eq!(
        compare(&build(&h7), &build(&h8)).text(),
        "ring-six-holes: bore-diameter tolerance H7 -> H8 (keep)\n"
    );
    let change = &compare(&build(&h7), &build(&h8)).parts[0];
    assert!(change.sizes.is_empty() && change.tolerances.len() == 1);
}

#[test]
fn material_and_quantity_are_told_apart() {
    let mut new = old();
    new.parts[0].quantity = 2;
    assert_eq!(only(&new), ("ring-six-holes: quantity 1 -> 2 (keep)\n".to_owned(), Verdict::Keep));
    new.parts[0].material = "Fibre".to_owned();
    assert_eq!(only(&new).0, "ring-six-holes: material Graphite sheet -> Fibre, quantity 1 -> 2 (remake)\n");
}

#[test]
fn parts_come_and_go() {
    let mut longer = screw();
    longer.name = "hot-screw".to_owned();
    let set = PartSet { parts: vec![part_set().parts.remove(0), longer], ..part_set() };
    let new = manifest(&set, sizes(36.0, 60.0, GENERAL), measured());
    assert_eq!(compare(&old(), &new).text(), "hot-screw: new (buy)\npower-screw: no longer needed\n");
    let mut other = old();
    other.parts[1].designation = Some("ISO 4762 - M5x20".to_owned());
    assert_eq!(
        compare(&old(), &other).text(),
        "power-screw: designation ISO 4762 - M5x16 -> ISO 4762 - M5x20 (buy)\n"
    );
}
