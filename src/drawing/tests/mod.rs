//! Whole sheets of sample parts: completeness, free texts, reproducible bytes.

mod frames;
mod made_up;
mod plate_samples;
mod turned_samples;

use super::board::{self, Board, Frame};
use super::pen::Pen;
use super::*;
use crate::export::revision::Revision;
use crate::parts::part::{Material, Part, Supply};
use crate::shape::{Point2, Vector3};

/// A part around a recipe.
fn part(name: &str, title: &str, recipe: Recipe, material: &str) -> Part {
    Part {
        name: name.to_owned(),
        title: title.to_owned(),
        quantity: 1,
        supply: Supply::Make,
        material: Material {
            name: material.to_owned(),
            density_kg_m3: 2700.0,
            filled: 1.0,
            colour: [0.7, 0.7, 0.7],
        },
        recipe: Some(recipe),
        flat: false,
        blank: None,
        fastener: false,
        notes: Vec::new(),
        geometry: crate::shape::control::Geometry::default(),
        cautions: Vec::new(),
    }
}

/// How many made-up parts are drawn.
const MADE_UP: usize = 24;

/// The sheet of a part before it is written.
fn composed(part: &Part, options: &SheetOptions) -> Result<Composed, DrawingError> {
    super::composed(part, &solid(part), options)
}

fn solid(part: &Part) -> Solid {
    build(part.recipe.as_ref().unwrap()).unwrap_or_else(|e| panic!("{}: {e}", part.name))
}

/// All samples.
fn samples() -> Vec<Part> {
    use plate_samples as p;
    use turned_samples as t;
    vec![
        t::hot_cap(),
        t::finned_cylinder(),
        t::piston(),
        t::hub(),
        t::rod(),
        t::displacer_shell(),
        t::displacer_base(),
        p::cooler_plate(),
        p::power_block(),
        p::con_rod(),
        p::crank(),
        p::pulley(),
        p::gasket(),
        p::split_ring(),
        p::bracket(),
    ]
}

fn options() -> SheetOptions {
    SheetOptions {
        owner: "Allotment workshop".into(),
        creator: "A. Turner".into(),
        date: "2026-05-01".into(),
        project: "pump".into(),
        mass_g: Some(123.4),
        ..SheetOptions::default()
    }
}

#[test]
fn every_size_of_every_recipe_is_told_exactly_once() {
    for part in samples().into_iter().chain(made_up::parts(MADE_UP)) {
        let sheet = sheet(&part, &options()).unwrap();
        let faults = audit::incomplete(&sheet, part.recipe.as_ref().unwrap());
        assert!(faults.is_empty(), "{}: {faults:?}", part.name);
    }
}

#[test]
fn no_text_overlaps_another_or_is_crossed_by_a_line() {
    for part in samples().into_iter().chain(made_up::parts(MADE_UP)) {
        for projection in [Projection::FirstAngle, Projection::ThirdAngle] {
            let sheet = sheet(&part, &SheetOptions { projection, ..options() }).unwrap();
            let faults = audit::unreadable(&sheet);
            assert!(faults.is_empty(), "{}: {faults:?}", part.name);
        }
    }
}

/// With inches beside the millimetres nothing is lost, told twice or covered, and with millimetres alone no inch is there.
#[test]
fn a_sheet_with_inches_tells_every_size_once_and_can_be_read() {
    let dual = SheetOptions { units: Units::MmAndInch, ..options() };
    for part in samples().into_iter().chain(made_up::parts(MADE_UP / 2)) {
        let sheet = sheet(&part, &dual).unwrap();
        let mut faults = audit::incomplete(&sheet, part.recipe.as_ref().unwrap());
        faults.extend(audit::unreadable(&sheet));
        assert!(faults.is_empty(), "{}: {faults:?}", part.name);
        assert!(sheet.board.labels.iter().any(|l| l.text.contains("[")), "{}", part.name);
    }
    let texts = |options: &SheetOptions| -> Vec<String> {
        let done = composed(&turned_samples::piston(), options).unwrap();
        done.board.labels.iter().map(|l| l.text.clone()).collect()
    };
    let told = texts(&dual);
    // 63.92 - 0.030 = 63.890 mm = 2.515354… in, 63.92 - 0.060 = 63.860 mm = 2.514173… in; 3 mm = 0.118110… in
    let fit = ["⌀63.92 f7 (-0.030 / -0.060) [2.51535 / 2.51418]", "[⌀2.51535 / 2.51418]"];
    assert!(told.iter().any(|t| fit.contains(&t.as_str())), "{told:#?}");
    assert!(told.iter().any(|t| t == "3 (+0.05 / 0) [0.1200 / 0.1182]"), "{told:#?}");
    assert!(told.iter().any(|t| t == "mm [in]") && !texts(&options()).iter().any(|t| t.contains("[")));
}

#[test]
fn a_sheet_with_a_table_of_revisions_can_be_read() {
    let changes = (0..5).map(|i| format!("bore-diameter-{i} 32 → 34")).collect();
    let first = Revision { index: "A".into(), date: String::new(), changes: Vec::new() };
    let second = Revision { index: "B".into(), date: "2026-05-01".into(), changes };
    let revised = SheetOptions { revision: "B".into(), revisions: vec![first, second], ..options() };
    for part in samples() {
        let sheet = sheet(&part, &revised).unwrap();
        assert_eq!(audit::unreadable(&sheet), [], "{}", part.name);
        assert!(sheet.board.labels.iter().any(|l| l.text == "first issue"), "{}", part.name);
    }
}

#[test]
fn the_audit_finds_what_is_wrong() {
    let part = turned_samples::piston();
    let mut sheet = sheet(&part, &options()).unwrap();
    let label = sheet.board.labels.iter().find(|l| !l.sizes.is_empty()).unwrap().clone();
    sheet.board.write(label.clone());
    let recipe = part.recipe.as_ref().unwrap();
    assert!(audit::incomplete(&sheet, recipe).iter().any(|f| matches!(f, audit::Fault::Repeated(_, 2))));
    assert!(audit::unreadable(&sheet).iter().any(|f| matches!(f, audit::Fault::Overlap(..))));
    sheet.board.labels.retain(|l| l.text != label.text);
    assert!(audit::incomplete(&sheet, recipe).contains(&audit::Fault::Missing(label.sizes[0].clone())));
    let c = sheet.board.labels[0].frame();
    sheet.board.line(Pen::Visible, c.low, c.high);
    assert!(audit::unreadable(&sheet).iter().any(|f| matches!(f, audit::Fault::Crossed(..))));
}

#[test]
fn everything_stands_inside_the_sheet_and_outside_the_title_block() {
    for part in samples() {
        let done = composed(&part, &options()).unwrap();
        let (w, h) = done.paper.size_mm();
        assert!(Frame::new(0.0, 0.0, w, h).grown(-4.0).holds(&done.board.bounds()), "{}", part.name);
        let space = paper::space(done.paper);
        let block = Frame::new(space.high.x - 180.0, space.low.y, 180.0, 54.0);
        let views = [Pen::Visible, Pen::Hatch, Pen::Dimension, Pen::Extension, Pen::Leader];
        let symbol = Frame::new(block.low.x + 126.0, block.low.y, 54.0, 20.0);
        for stroke in board_strokes(&done.board, &views) {
            let f = Frame::EMPTY.with(stroke.line.at(0.0)).with(stroke.line.at(1.0));
            assert!(symbol.holds(&f) || !stroke.crosses(&block), "{}: {stroke:?}", part.name);
            assert!(space.holds(&f), "{}: {stroke:?} leaves the drawing space", part.name);
        }
    }
}

fn board_strokes<'a>(board: &'a Board, pens: &'a [Pen]) -> impl Iterator<Item = &'a board::Stroke> {
    board.strokes.iter().filter(|s| pens.contains(&s.pen))
}

#[test]
fn the_same_part_gives_the_same_bytes_and_clean_numbers() {
    for part in samples() {
        let text = sheet(&part, &options()).unwrap().svg().unwrap();
        assert_eq!(text, sheet(&part, &options()).unwrap().svg().unwrap());
        assert!(
            !text.contains("NaN") && !text.contains("inf") && !text.contains("transform"),
            "{}",
            part.name
        );
        assert!(!text.contains("-0 ") && !text.contains("-0L"), "{}", part.name);
    }
}

/// ISO 5457: A4 210 × 297 upright, A3 420 × 297, A2 594 × 420. ISO 5455: recommended scales.
#[test]
fn a_forced_sheet_is_obeyed_and_the_scale_is_a_recommended_one() {
    for (paper, size) in [(Paper::A3, "width=\"420mm\""), (Paper::A2, "width=\"594mm\"")] {
        let forced = SheetOptions { paper: Some(paper), ..options() };
        assert!(sheet(&turned_samples::piston(), &forced).unwrap().svg().unwrap().contains(size));
    }
    let recommended = ["10:1", "5:1", "2:1", "1:1", "1:2", "1:5", "1:10", "1:20"];
    for part in samples() {
        assert!(recommended.contains(&composed(&part, &options()).unwrap().scale));
    }
}

/// ISO 5456-2: in first angle the view from above stands below the front view, in third angle above it.
#[test]
fn the_section_stands_where_the_projection_method_puts_it() {
    let title = |projection| {
        let done =
            composed(&plate_samples::power_block(), &SheetOptions { projection, ..options() }).unwrap();
        let y = |text: &str| done.board.labels.iter().find(|l| l.text == text).unwrap().at.y;
        y("A-A") - y("A1")
    };
    assert!(title(Projection::FirstAngle) < 0.0);
    assert!(title(Projection::ThirdAngle) > 0.0);
}

/// A text wider than any sheet cannot stand at the view: it is told in the list, and the sheet still made
/// or the part refused by name, but nothing is dropped.
#[test]
fn a_size_that_finds_no_place_is_not_lost() {
    let board = compose::compose(
        &turned_samples::rod(),
        &options(),
        &Looks::of(&solid(&turned_samples::rod())),
        185.0,
        &|_| {
            let mut views = views::Views::default();
            views.board.line(Pen::Visible, Point2::new(0.0, 0.0), Point2::new(50.0, 50.0));
            views.homeless.push(callout::Row::new("⌀12", &["lost-size".to_owned()]));
            Ok(views)
        },
    );
    let board = board.unwrap().board;
    let told = board.labels.iter().filter(|l| l.sizes.contains(&"lost-size".to_owned())).count();
    assert_eq!(told, 1);
    assert!(board.labels.iter().any(|l| l.text == "lost size"));
}

#[test]
fn a_character_without_a_glyph_is_an_error_that_names_it() {
    let mut part = turned_samples::rod();
    part.notes = vec!["漢 tempered".into()];
    let error = sheet(&part, &options()).and_then(|s| s.svg()).unwrap_err();
    assert!(matches!(error, DrawingError::UnknownCharacter { character: '漢', .. }), "{error}");
}

#[test]
fn a_listed_part_a_skew_hole_and_a_broken_template_are_errors() {
    let mut listed = turned_samples::rod();
    listed.recipe = None;
    assert!(matches!(sheet(&listed, &options()), Err(DrawingError::NoShape { .. })));
    let mut skew = turned_samples::hub();
    if let Some(recipe) = &mut skew.recipe {
        recipe.features[1].axis.direction = Vector3::new(0.0, 0.6, 0.8);
    }
    let any = solid(&turned_samples::rod());
    assert!(matches!(sheet_of(&skew, &any, &options()), Err(DrawingError::Skew { .. })));
    // the shape is refused as well, where it is to be made
    assert!(matches!(sheet(&skew, &options()), Err(DrawingError::Shape { .. })));
    for template in ["cell | 1 | 2", "{{ nobody }}", "block | 180 | wide"] {
        let broken = SheetOptions { template: Some(template.into()), ..options() };
        let result = sheet(&turned_samples::rod(), &broken);
        assert!(matches!(result, Err(DrawingError::Template(_))), "{template}: {result:?}");
    }
}

#[test]
fn fits_threads_and_grooves_are_written_as_a_machinist_reads_them() {
    let texts = |part: &Part| -> Vec<String> {
        composed(part, &options()).unwrap().board.labels.iter().map(|l| l.text.clone()).collect()
    };
    let has =
        |list: &[String], text: &str| assert!(list.iter().any(|t| t == text), "{text} not in {list:#?}");
    let piston = texts(&turned_samples::piston());
    has(&piston, "⌀63.92 f7 (-0.030 / -0.060)");
    has(&piston, "2× ⌀56.8 (0 / -0.05)");
    has(&piston, "3 (+0.05 / 0)");
    has(&texts(&turned_samples::rod()), "2× M6");
    let fins = texts(&turned_samples::finned_cylinder());
    has(&fins, "9× 6 (= 54)");
    has(&texts(&plate_samples::con_rod()), "96");
    has(&texts(&plate_samples::gasket()), "t = 1");
}
