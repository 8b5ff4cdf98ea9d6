use super::*;
use crate::shape::gap::loop_gap;
use crate::shape::loops::Node;
use rand_pcg::Pcg64;
use rand_pcg::rand_core::{Rng, SeedableRng};

fn rectangle(width: f64, height: f64) -> Loop {
    Loop::Path(vec![
        Node::line(0.0, 0.0),
        Node::line(width, 0.0),
        Node::line(width, height),
        Node::line(0.0, height),
    ])
}

/// A half disc: hull and outline differ in no turn, all four turns differ.
fn half_disc(radius: f64) -> Loop {
    Loop::Path(vec![Node::arc(radius, 0.0, 0.0, 0.0, true), Node::line(-radius, 0.0)])
}

fn ring(radius: f64, bore: f64) -> Flat {
    Flat { outline: Loop::circle(0.0, 0.0, radius), holes: vec![Loop::circle(0.0, 0.0, bore)] }
}

/// Every piece once, inside the sheet, away from all others by the gap: by the exact distance of lines and arcs.
fn sound(flats: &[Flat], sheet: &Sheet, found: &Nest) {
    let mut seen: Vec<usize> = found.sheets.iter().flatten().map(|p| p.piece).collect();
    seen.extend(&found.left_out);
    seen.sort_unstable();
    assert_eq!(seen, (0..flats.len()).collect::<Vec<_>>());
    for laid in &found.sheets {
        let outlines: Vec<Loop> = laid.iter().map(|p| p.put(&flats[p.piece].outline)).collect();
        for (i, a) in outlines.iter().enumerate() {
            let (low, high) = a.bounds();
            let edge = sheet.gap_mm - 1e-6;
            assert!(low.x > edge && low.y > edge);
            assert!(high.x < sheet.width_mm - edge && high.y < sheet.length_mm - edge);
            for (j, b) in outlines.iter().enumerate().skip(i + 1) {
                assert!(loop_gap(a, b) > sheet.gap_mm - 1e-6, "{i} and {j}");
                if laid[j].is_inside && a.contains(b.pieces()[0].at(0.0)) {
                    let clear = |hole: &Loop| {
                        let hole = laid[i].put(hole);
                        hole.contains(b.pieces()[0].at(0.0)) && loop_gap(&hole, b) > sheet.gap_mm - 1e-6
                    };
                    assert!(flats[laid[i].piece].holes.iter().any(clear), "{j} lies in a hole of {i}");
                } else {
                    assert!(!a.contains(b.pieces()[0].at(0.0)), "{j} lies on {i}");
                    assert!(!b.contains(a.pieces()[0].at(0.0)), "{i} lies on {j}");
                }
            }
        }
    }
}

/// Sheets that rows of boxes take, the highest first: the simplest way that there is.
fn shelves(flats: &[Flat], sheet: &Sheet) -> usize {
    let size = |f: &Flat| {
        let (low, high) = f.outline.bounds();
        [high.x - low.x + sheet.gap_mm, high.y - low.y + sheet.gap_mm]
    };
    let mut boxes: Vec<[f64; 2]> = flats.iter().map(size).collect();
    boxes.sort_by(|a, b| b[1].total_cmp(&a[1]));
    let room = [sheet.width_mm - sheet.gap_mm, sheet.length_mm - sheet.gap_mm];
    let (mut sheets, mut x, mut y, mut row) = (1, 0.0, 0.0, 0.0);
    for [w, h] in boxes {
        if x + w > room[0] {
            (x, y, row) = (0.0, y + row, 0.0);
        }
        if y + h > room[1] {
            (sheets, x, y, row) = (sheets + 1, 0.0, 0.0, 0.0);
        }
        x += w;
        row = f64::max(row, h);
    }
    sheets
}

#[test]
fn random_pieces_keep_their_gap_and_take_no_more_sheets_than_shelves() {
    let mut random = Pcg64::seed_from_u64(7);
    let mut even = |low: f64, high: f64| low + (high - low) * (random.next_u64() as f64 / u64::MAX as f64);
    let mut saved = 0;
    for _ in 0..60 {
        let sheet = Sheet { width_mm: 200.0, length_mm: even(200.0, 400.0), gap_mm: even(0.5, 5.0) };
        let flats: Vec<Flat> = (0..(even(1.0, 16.0) as usize))
            .map(|i| match i % 3 {
                0 => ring(even(10.0, 80.0), even(5.0, 9.0)),
                1 => Flat { outline: rectangle(even(5.0, 150.0), even(5.0, 90.0)), holes: Vec::new() },
                _ => Flat { outline: half_disc(even(5.0, 70.0)), holes: Vec::new() },
            })
            .collect();
        let found = nest(&flats, &sheet);
        sound(&flats, &sheet, &found);
        assert!(found.left_out.is_empty());
        let simple = shelves(&flats, &sheet);
        assert!(found.sheets.len() <= simple, "{} sheets, {simple} with shelves", found.sheets.len());
        saved += simple - found.sheets.len();
    }
    assert!(saved > 10, "{saved} sheets fewer than with shelves");
}

#[test]
fn a_small_ring_goes_into_the_hole_of_a_large_one() {
    let sheet = Sheet { width_mm: 110.0, length_mm: 110.0, gap_mm: 2.0 };
    let flats = [ring(20.0, 5.0), ring(50.0, 43.0), ring(10.0, 5.0), ring(48.0, 40.0)];
    let found = nest(&flats, &sheet);
    sound(&flats, &sheet, &found);
    assert_eq!(found.sheets.len(), 2);
    assert_eq!(found.sheets.iter().flatten().filter(|p| p.is_inside).count(), 2);
}

/// Two half discs lie back to back where four quarter turns are tried; seven discs in rows that reach into each other.
#[test]
fn pieces_lie_as_close_as_they_can() {
    let half = Flat { outline: half_disc(40.0), holes: Vec::new() };
    let sheet = Sheet { width_mm: 84.0, length_mm: 86.0, gap_mm: 2.0 };
    let found = nest(&[half.clone(), half], &sheet);
    assert_eq!(found.sheets.len(), 1);
    let disc = Flat { outline: Loop::circle(0.0, 0.0, 10.0), holes: Vec::new() };
    // rows at a distance of 21 x sin 60°, and 0.3 mm to spare
    let tall = 22.0 + 2.0 * 21.0 * 60f64.to_radians().sin() + 0.3;
    let sheet = Sheet { width_mm: 22.0 + 42.0, length_mm: tall, gap_mm: 1.0 };
    let flats = vec![disc; 8];
    let found = nest(&flats, &sheet);
    sound(&flats, &sheet, &found);
    assert_eq!(found.sheets.len(), 1, "3, 2 and 3 discs");
}

#[test]
fn what_is_larger_than_the_sheet_is_left_out() {
    let sheet = Sheet { width_mm: 100.0, length_mm: 50.0, gap_mm: 1.0 };
    let long = Flat { outline: rectangle(40.0, 97.0), holes: Vec::new() };
    let found = nest(&[long, ring(25.0, 5.0)], &sheet);
    assert_eq!((found.left_out, found.sheets.len()), (vec![1], 1), "a quarter turn makes the long one fit");
}

/// As many as fill two sheets and a bit: what is known of the first keeps the others from being looked at anew.
#[test]
fn many_alike_are_laid_in_rows() {
    let sheet = Sheet { width_mm: 300.0, length_mm: 500.0, gap_mm: 3.0 };
    let piece = Flat { outline: rectangle(24.0, 17.0), holes: Vec::new() };
    // 11 columns and 24 rows of 27 x 20 on a sheet less its edge
    let flats = vec![piece; 2 * 11 * 24 + 1];
    let found = nest(&flats, &sheet);
    let counts: Vec<usize> = found.sheets.iter().map(Vec::len).collect();
    assert!(counts.len() <= 3, "{counts:?}");
    sound(&flats, &sheet, &found);
}
