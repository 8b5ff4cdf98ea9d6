//! Design files that no person would write: huge, binary, nested, full of control characters. Reading ends soon, without
//! a panic, and says what is wrong.

use std::time::{Duration, Instant};
use swept::design::{LARGEST_FILE, read};
use swept::diagnostic::{Diagnostic, Severity};

/// What is said about some bytes.
fn said(bytes: &[u8]) -> Vec<Diagnostic> {
    let begun = Instant::now();
    let said = read("x.toml", bytes, &[]).expect_err("this is no design");
    assert!(begun.elapsed() < Duration::from_secs(20), "it took {:?}", begun.elapsed());
    assert!(said.len() <= 200, "{} are more than anybody reads", said.len());
    for diagnostic in &said {
        assert!(!diagnostic.message.chars().any(char::is_control), "{:?}", diagnostic.message);
        assert!(diagnostic.message.len() < 600, "{}", diagnostic.message.len());
        assert!(diagnostic.hint.is_some(), "{}", diagnostic.message);
    }
    said
}

fn codes(bytes: &[u8]) -> Vec<&'static str> {
    said(bytes).iter().map(|diagnostic| diagnostic.code).collect()
}

#[test]
fn ten_megabytes_are_refused_at_once() {
    assert_eq!(codes(&vec![b'#'; 10_000_000]), ["swept::size"]);
    assert_eq!(codes(&vec![0xff; 10_000_000]), ["swept::size"]);
    assert_eq!(codes(&vec![b' '; LARGEST_FILE + 1]), ["swept::size"]);
    assert_eq!(codes(&vec![b' '; LARGEST_FILE]), ["swept::empty"]);
}

#[test]
fn bytes_that_are_not_utf8_are_named_with_their_place() {
    let said = said(b"[engine]\nname = \"caf\xe9\"\n");
    let place = said[0].place.as_ref().unwrap();
    assert_eq!((said[0].code, place.line, place.column), ("swept::encoding", 2, 12));
    assert!(said[0].message.contains("byte 20") && said[0].message.contains("0xe9"), "{}", said[0].message);
}

#[test]
fn a_program_or_a_picture_is_not_a_design() {
    // A repeating walk through all byte values, with and without a head that some formats have.
    let noise: Vec<u8> = (0..200_000_u32).map(|i| (i.wrapping_mul(2_654_435_761) >> 13) as u8).collect();
    assert_eq!(codes(&noise), ["swept::encoding"]);
    assert_eq!(codes(&[b"\x89PNG\r\n\x1a\n", &noise[..]].concat()), ["swept::encoding"]);
    let zeros = vec![0; 900_000];
    assert!(codes(&zeros).contains(&"swept::syntax"));
}

#[test]
fn utf16_is_recognised() {
    let wide: Vec<u8> = "\u{feff}[engine]\n".encode_utf16().flat_map(u16::to_le_bytes).collect();
    assert!(said(&wide)[0].hint.as_ref().unwrap().contains("UTF-16"));
}

#[test]
fn a_megabyte_of_rubbish_in_many_shapes_ends_soon() {
    let shapes: [(&str, usize); 12] = [
        ("=", 900_000),
        ("\"", 900_000),
        ("[", 900_000),
        ("a = [", 150_000),
        ("a = {", 150_000),
        ("x\n", 400_000),
        ("[a]\n", 200_000),
        ("[[workshop.stock]]\n", 50_000),
        ("a.b.c.", 100_000),
        ("\u{1}\n", 400_000),
        ("é", 400_000),
        ("\r", 900_000),
    ];
    for (shape, times) in shapes {
        let text = shape.repeat(times);
        assert!(!said(text.as_bytes()).is_empty(), "{shape}");
    }
}

#[test]
fn long_names_and_long_values_are_cut_in_what_is_said() {
    let name = "n".repeat(400_000);
    assert!(!said(format!("{name} = 1\n[{name}]\n[piston]\n{name} = \"1\"").as_bytes()).is_empty());
    for key in [
        "engine.name",
        "engine.gas",
        "piston.bore",
        "drawings.owner",
        "drive.journal_bearing",
        "piston.rings",
    ] {
        let diagnostics = said(format!("{key} = \"{name}\"").as_bytes());
        let of_key =
            diagnostics.iter().any(|d| d.place.as_ref().is_some_and(|p| p.column > 5 && p.line == 1));
        assert!(of_key, "{key}");
    }
}

#[test]
fn many_entries_of_stock_on_one_line_are_refused() {
    let items = vec!["{}"; 100_000].join(",");
    assert!(codes(format!("workshop.stock = [{items}]").as_bytes()).contains(&"swept::range"));
}

#[test]
fn every_cut_of_a_good_file_is_read_without_a_panic() {
    let text = swept::design::starter(swept::design::Layout::GammaTwinCrank, "cut");
    let bytes = text.as_bytes();
    for end in (0..bytes.len()).step_by(97) {
        if let Err(said) = read("cut.toml", &bytes[..end], &[]) {
            assert!(said.iter().any(|diagnostic| diagnostic.severity == Severity::Error));
            assert!(said.iter().all(|diagnostic| diagnostic.place.is_some()));
        }
    }
}

#[test]
fn a_good_file_with_random_slips_is_read_without_a_panic() {
    let text = swept::design::starter(swept::design::Layout::GammaTwinCrank, "slip");
    let text: String = text
        .lines()
        .filter(|line| !line.starts_with("# ") || line.contains(" = "))
        .fold(String::new(), |text, line| text + line.trim_start_matches("# ") + "\n");
    let slips =
        ["\"", "[", "]", "=", "\n", "\u{0}", "é", "9", "-", "e", ".", "/", " ", "\\", "'", "{", "#", "°"];
    // A linear congruential generator (Knuth, MMIX) with a fixed start: the same slips every time.
    let mut state = 1_u64;
    let mut random = |below: usize| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) as usize % below
    };
    for _ in 0..1500 {
        let mut slipped = text.clone();
        for _ in 0..=random(3) {
            let at = slipped.floor_char_boundary(random(slipped.len()));
            let end = slipped.ceil_char_boundary((at + random(4)).min(slipped.len()));
            slipped.replace_range(at..end, slips[random(slips.len())]);
        }
        for diagnostic in read("slip.toml", slipped.as_bytes(), &[]).err().unwrap_or_default() {
            let place = diagnostic.place.as_ref().expect("a mistake in a file has a place");
            assert!(place.excerpt.get(place.caret.clone()).is_some(), "{place:?}");
            assert!(place.line <= slipped.lines().count() + 1 && diagnostic.hint.is_some());
        }
    }
}

#[test]
fn overrides_of_any_shape_are_read_without_a_panic() {
    let text = swept::design::starter(swept::design::Layout::GammaTwinCrank, "set");
    let long = "9".repeat(300_000);
    for (path, value) in [("", ""), ("=", "="), ("piston", "x"), ("piston.", ""), (".", "1"), ("a.b.c", "1")]
    {
        let sets = [(path.to_string(), value.to_string())];
        let said = read("set.toml", text.as_bytes(), &sets).unwrap_err();
        assert_eq!(said[0].code, "swept::override", "{path}={value}");
    }
    for path in
        ["piston.bore", "piston.rings", "engine.name", "engine.gas", "workshop.stock", "drawings.owner"]
    {
        for value in ["", "\"", "\"\"", "\u{0}", "é", "1e308 m", "-1", "inf", "[1]", long.as_str()] {
            let sets = [(path.to_string(), value.to_string())];
            if let Err(said) = read("set.toml", text.as_bytes(), &sets) {
                assert!(said.iter().all(|d| d.hint.is_some() && d.place.as_ref().unwrap().file == "--set"));
            }
        }
    }
}
