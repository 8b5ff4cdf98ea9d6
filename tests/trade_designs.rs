//! Rules of the trade on whole designs, as `swept size` judges them (common practice, no source unless named).

use std::process::Command;
use swept::design::{Design, read};
use swept::sizing::answer::{full_engine, size};
use swept::sizing::verdict::{Change, FullEngine, Judgement, NetWork, Question, judge};

fn design(name: &str, sets: &[(&str, &str)]) -> Design {
    let path = format!("{}/sample-designs/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    let sets: Vec<_> = sets.iter().map(|(k, v)| ((*k).to_owned(), (*v).to_owned())).collect();
    read(name, &std::fs::read(path).unwrap(), &sets).unwrap().0
}

fn engine(name: &str, sets: &[(&str, &str)]) -> FullEngine {
    let design = design(name, sets);
    full_engine(&design, &size(&design).unwrap().engine)
}

/// The allotment pump with other strokes, in a frame that is large enough.
fn pump(piston_mm: &str, displacer_mm: &str) -> FullEngine {
    let room = [("limits.height", "900 mm"), ("limits.width", "500 mm"), ("limits.depth", "500 mm")];
    let mut sets = vec![("piston.stroke", piston_mm), ("displacer.stroke", displacer_mm)];
    sets.extend(room);
    engine("allotment-pump", &sets)
}

fn judged(net: &FullEngine, hand_rpm: f64) -> Judgement {
    judge(net, &Change::NONE, &Question { hand_rpm, ..Question::at(300.0) }).unwrap()
}

/// An engine whose free travel is about half of the crank's stroke does not keep turning; a shorter stroke of the piston
/// with a longer one of the displacer mends it. Free travel is that of `cycle::free_travel`, the spin one of 140 rpm.
#[test]
fn a_free_travel_of_half_the_stroke_does_not_keep_turning() {
    let (long, mended) = (pump("54 mm", "20 mm"), pump("20 mm", "40 mm"));
    let share = |net: &FullEngine| {
        let facts = net.facts(&Change::NONE);
        facts.free_travel_mm.unwrap() / facts.piston_stroke_mm
    };
    assert!((share(&long) - 0.5).abs() < 0.02, "{}", share(&long));
    assert!(share(&mended) > 2.0, "{}", share(&mended));
    let (bad, good) = (judged(&long, 140.0), judged(&mended, 140.0));
    println!("{}\n{}", bad.verdict(None).reasons.join("\n"), good.verdict(None).reasons[0]);
    assert!(!bad.turns_itself_over && bad.margin_j() < 0.0, "{}", bad.margin_j());
    assert!(good.turns_itself_over, "{:?}", good.start);
    assert!(bad.stroke.unwrap().best_mm < 0.75 * 54.0, "a shorter stroke is the advice: {:?}", bad.stroke);
    let tried = |words: &str| bad.gains.iter().any(|g| g.words.starts_with(words) && g.gain_j > 0.0);
    assert!(tried("piston stroke") && tried("displacer stroke"), "{:?}", bad.gains);
}

/// A tight heavy belt can stop a small engine: the stove fan runs with the narrow belt of its design, and not with a broad
/// one of the coarser pitch ten times as tight. The pump, with thirty times the work, bears it.
#[test]
fn a_tight_heavy_belt_stops_a_small_engine() {
    let hot = ("hot_end.temperature", "400 °C");
    let (light, heavy) = (
        engine("stove-fan", &[hot]),
        engine(
            "stove-fan",
            &[
                hot,
                ("drive.belt_section", "5M"),
                ("drive.belt_width", "15 mm"),
                // room for the roller that so stiff a belt wants
                ("drive.con_rod_length", "65 mm"),
            ],
        ),
    );
    let tight = Change { belt_tension: 10.0, ..Change::NONE };
    let runs = |net: &FullEngine, change: &Change| judge(net, change, &Question::at(400.0)).unwrap();
    let (a, b) = (runs(&light, &Change::NONE), runs(&heavy, &tight));
    println!("{:+.3} J a turn; with a tight heavy belt {:+.3} J", a.margin_j(), b.margin_j());
    assert!(a.turns_itself_over, "{:?}", a.start);
    assert!(!b.turns_itself_over && b.margin_j() < 0.0, "{:?}", b.start);
    let belt = |j: &Judgement| j.work.friction.iter().find(|f| f.name == "belt").unwrap().work_j;
    assert!(belt(&b) > 5.0 * belt(&a));
    let large = runs(&engine("allotment-pump", &[("drive.belt_width", "15 mm")]), &tight);
    assert!(large.turns_itself_over, "{:?}", large.start);
}

/// 100 to 150 W from some 80 mm of bore with air of the room is out of reach, and `swept size` says so and by how much.
#[test]
fn size_says_that_a_hundred_watts_are_out_of_reach_and_by_how_much() {
    let wanted = 120.0;
    let mut command = Command::new(env!("CARGO_BIN_EXE_swept"));
    command.current_dir(env!("CARGO_MANIFEST_DIR")).args(["size", "sample-designs/allotment-pump.toml"]);
    let sets = ["displacer.bore=80 mm", "targets.power=120 W", "model.samples=0"];
    let done = command.args(sets.iter().flat_map(|s| ["--set", s])).output().unwrap();
    let said = String::from_utf8(done.stderr).unwrap().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(done.status.success(), "{said}");
    let net = engine("allotment-pump", &[("displacer.bore", "80 mm")]);
    let given = net.at(300.0, &Change::NONE).unwrap().power_w();
    assert!(given > 0.0 && given < 0.4 * wanted, "{given}");
    let short = format!("gives {given:.1} W at 300 rpm, {:.1} W less than targets.power", wanted - given);
    assert!(said.contains(&short) && said.contains("out of reach: 120.0 W are"), "{said}");
    let times = said.split("120.0 W are ").nth(1).unwrap().split(' ').next().unwrap();
    assert!(times.parse::<f64>().unwrap() > 2.0, "{times}");
    assert!(said.contains("charge pressure") || said.contains("bar abs"), "what pressure would do: {said}");
}
