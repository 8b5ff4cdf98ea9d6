//! Parts of the mechanism beyond the cranks: flywheel, hub, output pulley, and what holds them.

use std::f64::consts::PI;
use swept::design::{Design, read};
use swept::pipeline::{Built, build};
use swept::sizing::answer::judged;
use swept::sizing::mechanism::masses;

fn design(sample: &str, sets: &[(&str, &str)]) -> Design {
    let path = format!("{}/sample-designs/{sample}.toml", env!("CARGO_MANIFEST_DIR"));
    let sets: Vec<(String, String)> =
        sets.iter().map(|(key, value)| ((*key).to_owned(), (*value).to_owned())).collect();
    read(&path, &std::fs::read(&path).unwrap(), &sets).unwrap().0
}

fn built(sample: &str, sets: &[(&str, &str)]) -> Built {
    build(&design(sample, sets), None).unwrap()
}

/// The exact solid against the closed forms of sizing; the solid has screw holes beyond those.
#[test]
fn the_wheel_as_drawn_has_the_mass_that_it_was_sized_with() {
    for (sample, sets) in [
        ("allotment-pump", vec![]),
        ("allotment-pump", vec![("flywheel.width", "30 mm")]),
        ("stove-fan", vec![]),
        ("cabin-fan", vec![("flywheel.rim_thickness", "20 mm")]),
    ] {
        let b = built(sample, &sets);
        let drawn = b.manifest.parts.iter().find(|p| p.name == "flywheel").unwrap().mass_g.unwrap() * 1e-3;
        let sized = b.sized.engine.flywheel.mass_kg;
        assert!(drawn < sized && drawn > 0.985 * sized, "{sample}: {drawn} kg drawn, {sized} kg sized");
    }
}

/// Steel ring: σ = ρ v² = 7850 × 50² = 19.6 MPa at 50 m/s, as any handbook has it. A disc with a small bore has
/// 0.825 of that, at the edge of a hole three times.
#[test]
fn a_wheel_tells_how_fast_it_may_turn() {
    for (rim, share) in [(None, 0.825), (Some("30 mm"), 3.0)] {
        let sets: Vec<(&str, &str)> = rim.map(|rim| ("flywheel.rim_thickness", rim)).into_iter().collect();
        let mut plain = design("cabin-fan", &[&sets[..], &[("flywheel.diameter", "200 mm")]].concat());
        plain.drive.balance = None;
        let e = build(&plain, None).unwrap().sized.engine;
        let made = e.flywheel.made.as_ref().unwrap();
        let v = PI * 0.2 * made.fastest_rpm / 60.0;
        let allowed = e.metal(&made.material).allowable_mpa(50.0).unwrap();
        // three digits, rounded down: at most one in a hundred slower, and never faster
        let used = share * 7850.0 * v * v * 1e-6 / allowed;
        assert!(used > 0.99 * 0.99 && used < 1.0 + 1e-6, "{v} m/s: {used}");
        assert_eq!(made.holes.is_some(), rim.is_some());
    }
}

/// The balance holes as drawn against what sizing tells of them: their unbalance, summed here from the drawn holes, is the
/// whole that goes round with the pin and half of what goes to and fro (mean of both lines at a right angle; Norton, Design of
/// Machinery, ch. 14, from memory). Masses are those of the parts as drawn, bearings and pin as bought.
#[test]
fn balance_holes_take_out_what_the_cranks_bring_in() {
    let e = built("cabin-fan", &[("drive.balance", "50 %")]).sized.engine;
    let made = e.flywheel.made.as_ref().unwrap();
    let h = made.balance.as_ref().unwrap();
    let one = 7850e-9 * PI / 4.0 * h.diameter_mm.powi(2) * made.width_mm;
    let holes: f64 = h.angles_deg.iter().map(|a| one * 0.5 * h.circle_mm * a.to_radians().cos()).sum();
    let m = masses(&e);
    let d = &e.drive;
    let slides = 0.5 * (m.piston_kg + m.displacer_kg) + m.con_rod_kg / 3.0;
    let pin = 7850e-9 * PI / 4.0 * (d.crankpin_bearing.bore_mm.powi(2) - 2.5 * 2.5) * d.con_rod_thickness_mm;
    let round = 2.0 * (2.0 / 3.0 * m.con_rod_kg + pin);
    // web: halves of both discs and the trapezium between them; a few per cent for its slanting edges
    let [near, far] = d.web_r_mm;
    let throw = d.piston.throw_mm;
    let half = |r: f64| PI / 2.0 * r * r;
    let arm = throw * (near + far) * throw * (near + 2.0 * far) / (3.0 * (near + far));
    let moment = arm + half(far) * (throw + 4.0 * far / (3.0 * PI)) - half(near) * 4.0 * near / (3.0 * PI);
    let wanted = (round + 0.5 * slides) * throw + 7850e-9 * moment * d.web_mm;
    assert!((holes / wanted - 1.0).abs() < 0.04, "{holes} kg mm in the wheel, {wanted} kg mm wanted");
}

/// With a steadiness and no width, the least plate of the dealers' list that keeps it is taken.
#[test]
fn a_steadiness_decides_the_width() {
    let asked = [("flywheel.steadiness", "6 %"), ("model.samples", "0"), ("hot_end.temperature", "400 °C")];
    let sized = judged(&design("stove-fan", &asked)).unwrap();
    let swing = |width: &str| {
        let given = [&asked[..], &[("flywheel.width", width)]].concat();
        judged(&design("stove-fan", &given)).unwrap().answer.flywheel.unwrap().unsteadiness.unwrap()
    };
    let width = sized.engine.flywheel.made.as_ref().unwrap().width_mm;
    let found = sized.answer.flywheel.unwrap().unsteadiness.unwrap();
    assert!(found <= 0.06, "{found} with {width} mm");
    assert!(swing(&format!("{} mm", 0.75 * width)) > 0.06, "no wider than it must be: {width} mm");
    let why = sized.engine.ledger.why("flywheel.width").unwrap();
    assert!(why.contains("speed swing of 0.06"), "{why}");
}

/// The pulleys give the ratio that was asked for or found best, and the belt to the load closes around them: twice the
/// tangent and both wraps (any handbook), here walked in small steps.
#[test]
fn the_load_is_driven_at_its_ratio() {
    for (sample, sets) in [("allotment-pump", vec![]), ("stove-fan", vec![]), ("cabin-fan", vec![])] {
        let e = built(sample, &sets).sized.engine;
        let o = e.shaft_end.output.as_ref().unwrap();
        assert!((o.ratio() / o.wanted - 1.0).abs() < 0.03, "{sample}: {o:?}");
        let pitch = 3.0;
        let [a, b] = [o.pulley.pulley_teeth, o.mate_teeth].map(|z| z as f64 * pitch / (2.0 * PI));
        let tilt = ((a - b) / o.centres_mm).asin();
        let length = 2.0 * o.centres_mm * tilt.cos() + a * (PI + 2.0 * tilt) + b * (PI - 2.0 * tilt);
        assert!((length - o.pulley.length_mm).abs() < 1e-6, "{sample}: {length} mm");
        assert!(o.centres_mm > e.flywheel.diameter_mm / 2.0, "the load's shaft passes beside the wheel");
    }
}

#[test]
fn a_wheel_that_the_builder_has_is_listed_and_not_made() {
    let b = built("stove-fan", &[("flywheel.inertia", "20 kg cm2"), ("flywheel.diameter", "120 mm")]);
    let wheel = b.manifest.parts.iter().find(|p| p.name == "flywheel").unwrap();
    assert!(wheel.designation.as_ref().unwrap().contains("bored 6 H7"), "{wheel:?}");
    assert!(!b.manifest.parts.iter().any(|p| p.name == "flywheel-hub"));
}

mod parts_list {
    use super::built;
    use std::collections::BTreeMap;
    use swept::catalogue::threads::{Thread, thread};
    use swept::parts::part::{Joint, Part, PartSet, Supply};
    use swept::shape::loops::Piece;
    use swept::shape::recipe::{Body, Feature, Kind};

    const SAMPLES: [&str; 4] = ["allotment-pump", "stove-fan", "cabin-fan", "classroom-engine"];

    fn designation(p: &Part) -> &str {
        match &p.supply {
            Supply::Buy { designation } => designation,
            Supply::Make => "",
        }
    }

    /// Pieces of fasteners whose designation begins so.
    fn listed(set: &PartSet, begins: &str) -> usize {
        let these = set.parts.iter().filter(|p| p.fastener && designation(p).starts_with(begins));
        these.map(|p| p.quantity).sum()
    }

    /// Turned holes of a part by name, with the number of them.
    fn groups<'a>(set: &'a PartSet, part: &str) -> Vec<(&'a Feature, usize)> {
        let part = set.parts.iter().find(|p| p.name == part).unwrap_or_else(|| panic!("no part {part}"));
        let mut all: BTreeMap<&str, (&Feature, usize)> = BTreeMap::new();
        for f in &part.recipe.as_ref().unwrap().features {
            // rows of one pattern have names of their own
            let name = f.name.trim_start_matches("front-").trim_start_matches("rear-");
            all.entry(name).or_insert((f, 0)).1 += 1;
        }
        all.into_values().collect()
    }

    /// Metal under a screw's head: the clearance hole less its counterbore. Diameters of ISO 273, medium.
    fn grip(f: &Feature, t: &Thread) -> Option<f64> {
        if let Kind::Pocket { outline, depth, through: true } = &f.kind {
            let end = |p: &Piece| matches!(p, Piece::Arc { radius, .. } if (2.0 * radius - t.clearance_medium_mm).abs() < 1e-9);
            return outline.pieces().iter().any(end).then_some(*depth);
        }
        let Kind::Bore { chain, thread: None, .. } = &f.kind else { return None };
        let narrow = chain.iter().map(|n| n.r).fold(f64::INFINITY, f64::min);
        let clears = (2.0 * narrow - t.clearance_medium_mm).abs() < 1e-9;
        let from = chain.iter().find(|n| n.r == narrow)?.z;
        clears.then(|| chain.last().map(|n| n.z - from)).flatten()
    }

    /// Depth of full thread for a screw.
    fn threaded(f: &Feature, t: &Thread) -> Option<f64> {
        let Kind::Bore { chain, thread: Some(inside), .. } = &f.kind else { return None };
        let through = chain.last()?.z;
        (inside.designation == t.designation).then(|| inside.depth.unwrap_or(through))
    }

    /// The screw goes through one part and its gasket and bites the other by 0.8 diameters or more (EN 1993-1-8 wants
    /// a whole nut of 0.8 d for full strength), without reaching the ground of a blind hole.
    fn holds(set: &PartSet, j: &Joint) -> bool {
        let words: Vec<&str> = j.screw.split([' ', 'x']).collect();
        let (t, long): (_, f64) = (thread(words[2]).unwrap(), words[3].parse().unwrap());
        let gasket = j.gasket.as_ref().map_or(0.0, |name| {
            let part = set.parts.iter().find(|p| p.name == *name).unwrap();
            let Body::Plate { thickness, .. } = part.recipe.as_ref().unwrap().body else { panic!("{name}") };
            thickness
        });
        let count = j.holes.len();
        let pairs = [(0, 1), (1, 0)];
        pairs.iter().any(|(a, b)| {
            let (through, into) = (groups(set, &j.parts[*a]), groups(set, &j.parts[*b]));
            let grips: Vec<f64> =
                through.iter().filter(|g| g.1 == count).filter_map(|g| grip(g.0, t)).collect();
            into.iter().filter(|g| g.1 == count || j.name == "foot-joint").any(|g| {
                threaded(g.0, t).is_some_and(|deep| {
                    grips.iter().any(|grip| {
                        let bite = long - grip - gasket;
                        let open =
                            matches!(&g.0.kind, Kind::Bore { thread: Some(i), .. } if i.depth.is_none());
                        bite >= 0.8 * t.major_mm && (open || bite <= deep + 1e-9)
                    })
                })
            })
        })
    }

    #[test]
    fn every_pattern_has_its_screws_in_the_list_and_they_are_long_enough() {
        for sample in SAMPLES {
            let set = built(sample, &[]).set;
            let mut wanted: BTreeMap<&str, usize> = BTreeMap::new();
            for j in &set.joints {
                if j.screw.starts_with("ISO 4762") {
                    *wanted.entry(&j.screw).or_default() += j.holes.len();
                    assert!(holds(&set, j), "{sample}: {} of {}", j.screw, j.name);
                } else {
                    let stud = j.screw.trim_start_matches("stud ").replace(" x ", " DIN 976-1, cut to ");
                    assert_eq!(
                        listed(&set, &format!("threaded rod {stud}")),
                        j.holes.len(),
                        "{sample}: {}",
                        j.name
                    );
                    let thread = stud.split(' ').next().unwrap();
                    assert!(listed(&set, &format!("ISO 4032 {thread}")) >= j.holes.len(), "{sample}: nuts");
                }
            }
            for (screw, count) in wanted {
                assert!(listed(&set, screw) >= count, "{sample}: {count} of {screw}");
            }
        }
    }

    #[test]
    fn every_set_screw_and_pin_screw_is_listed() {
        for sample in SAMPLES {
            let set = built(sample, &[]).set;
            let holes = |name: &str| -> usize {
                let of = |p: &Part| {
                    let named = |f: &&Feature| f.name.contains(name);
                    p.recipe.as_ref().map_or(0, |r| r.features.iter().filter(named).count()) * p.quantity
                };
                set.parts.iter().map(of).sum()
            };
            let plugs: usize =
                set.parts.iter().filter(|p| p.name == "passage-plug").map(|p| p.quantity).sum();
            let flat_and_cone = listed(&set, "ISO 4026") + listed(&set, "ISO 4027");
            assert_eq!(flat_and_cone - plugs, holes("set-screw"), "{sample}");
            let pins: usize = set.parts.iter().filter(|p| p.name == "pin-screw").map(|p| p.quantity).sum();
            assert_eq!(pins, holes("pin-thread"), "{sample}");
        }
    }

    /// What is turned has bearings, what seals has rings, and the numbers of the list are those of its lines.
    #[test]
    fn the_list_is_whole_and_counted() {
        for sample in SAMPLES {
            let b = built(sample, &[]);
            let c = b.manifest.counts;
            assert_eq!(c.made.kinds + c.bought.kinds + c.fasteners.kinds, b.manifest.parts.len());
            let pieces: usize = b.manifest.parts.iter().map(|p| p.quantity).sum();
            assert_eq!(c.made.pieces + c.bought.pieces + c.fasteners.pieces, pieces);
            for name in [
                "journal-bearing",
                "crankpin-bearing",
                "small-end-bearing",
                "clevis-pin",
                "hose-barb",
                "hose",
                "thread-lock",
            ] {
                assert!(b.manifest.parts.iter().any(|p| p.name == name), "{sample}: {name}");
            }
            for p in &b.manifest.parts {
                let made = p.volume_mm3.is_some() && p.designation.is_none();
                assert_eq!(made, p.blank.is_some() || p.stock.is_some(), "{sample}: stock of {}", p.name);
                assert!(p.designation.is_some() || p.volume_mm3.is_some(), "{sample}: {} is neither", p.name);
            }
            // seats of con rods and bracket, each with a bearing
            let seats = |name: &str| b.set.parts.iter().find(|p| p.name == name).unwrap();
            let rods = seats("con-rod");
            let features = rods.recipe.as_ref().unwrap().features.len() * rods.quantity;
            let of = |name: &str| b.manifest.parts.iter().find(|p| p.name == name).unwrap().quantity;
            assert_eq!(features, of("crankpin-bearing") + of("small-end-bearing"), "{sample}");
            let bores = seats("crank-bracket").recipe.as_ref().unwrap().features.iter();
            assert_eq!(
                2 * bores.filter(|f| f.name.ends_with("journal-bore")).count(),
                of("journal-bearing"),
                "{sample}"
            );
        }
    }
}
