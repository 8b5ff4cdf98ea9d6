//! A beta engine: its volumes against slices of its parts and against the published overlap of the strokes, its drive, and
//! what must be said of its pressure.

use std::f64::consts::{PI, TAU};
use swept::design::read;
use swept::sizing::answer::{full_engine, judged};
use swept::sizing::engine::{Arranged, Engine};
use swept::sizing::layouts::beta_coaxial::BetaCoaxial;
use swept::sizing::layouts::{mechanism, size, volume_law};
use swept::sizing::mechanism::{Choices, FrictionFactors, GasLoop, Motion, SliderCrank, drive_forces};
use swept::sizing::verdict::{Change, NetWork};
use swept::sizing::volumes::VolumeLaw;

fn design(sets: &[(&str, &str)]) -> swept::design::Design {
    let file = format!("{}/sample-designs/cabin-charger.toml", env!("CARGO_MANIFEST_DIR"));
    let sets: Vec<_> = sets.iter().map(|(k, v)| ((*k).to_owned(), (*v).to_owned())).collect();
    read(&file, &std::fs::read(&file).unwrap(), &sets).unwrap().0
}

fn engine(sets: &[(&str, &str)]) -> Engine {
    size(&design(sets)).unwrap()
}

fn own(e: &Engine) -> &BetaCoaxial {
    let Arranged::BetaCoaxial(own) = &e.arranged else { panic!("a beta engine") };
    own
}

fn disc(diameter: f64) -> f64 {
    PI / 4.0 * diameter * diameter
}

/// Heights of the displacer's lower face and of the crown \[mm\] at a crank angle of the volume law.
fn faces(e: &Engine, law: &VolumeLaw, angle: f64) -> [f64; 2] {
    let down = |throw: f64, at: f64| {
        Motion::SliderCrank(SliderCrank::new(throw, e.drive.con_rod_mm).unwrap()).displacement_mm(at)
    };
    let d = &e.displacer;
    let displacer = down(e.drive.displacer.throw_mm, law.displacer_angle_rad(angle));
    let piston = down(e.drive.piston.throw_mm, law.piston_angle_rad(angle));
    [d.cold_clearance_mm + d.stroke_mm - displacer, own(e).heights.crown_mm - piston]
}

/// Gas inside the cylinder line by slices of 1/200 mm, from the first ring to the hot end: what the walls enclose less
/// displacer, rod and piston, each where it stands \[mm³\].
fn sliced(e: &Engine, displacer_z: f64, crown_z: f64) -> f64 {
    let (d, p, o, g) = (&e.displacer, &e.piston, own(e), e.joints.gasket_mm);
    let (top, liner_top) = (d.cylinder_mm, d.cylinder_mm - o.head.turn_mm);
    let walls = |z: f64| match z {
        z if z < 0.0 => p.bore_mm,
        z if z < g => o.cooler.manifold_mm[0] + 1.0,
        z if z < g + o.cooler.manifold_mm[1] => o.cooler.manifold_mm[0],
        z if z < g + o.cooler.belt_mm[1] => o.cooler.belt_mm[0],
        z if z < liner_top => d.bore_mm,
        _ => e.hot_cap.bore_mm,
    };
    let filled = |z: f64| match z {
        z if z < crown_z => p.diameter_mm,
        z if z < displacer_z => d.rod_mm,
        z if z < displacer_z + d.length_mm => d.diameter_mm,
        _ => 0.0,
    };
    let ring = crown_z - p.top_land_mm;
    let count = ((top - ring) * 200.0).ceil();
    let step = (top - ring) / count;
    (0..count as usize)
        .map(|i| ring + (i as f64 + 0.5) * step)
        .map(|z| (disc(walls(z)) - disc(filled(z))) * step)
        .sum()
}

/// Gas around the cylinder line, which no stroke changes \[mm³\]: heater gap, canister with its ends and clearance, hot
/// gasket's ring, gas holes.
fn around(e: &Engine) -> f64 {
    let (h, c) = (&own(e).head, &own(e).cooler);
    let ring = |outer: f64, inner: f64| disc(outer) - disc(inner);
    let r = &h.regenerator;
    let outside = h.liner_mm + 2.0 * r.thickness_mm;
    let heater = ring(e.hot_cap.bore_mm, h.liner_mm) * (h.heater_mm - h.turn_mm);
    let matrix = ring(outside, h.liner_mm) * r.length_mm * r.porosity
        + ring(outside + 2.0 * r.clearance_mm, outside) * r.length_mm;
    let ends = ring(h.low_bore_mm[0], h.liner_mm) * 2.0 * h.plenum_mm;
    let gasket = ring(h.low_bore_mm[0] + 1.0, h.liner_mm) * e.joints.hot_gasket_mm;
    let holes = c.holes.0 as f64 * disc(c.holes.1) * (e.cold.length_mm - c.manifold_mm[1]);
    heater + matrix + ends + gasket + holes
}

/// The sum of all volumes of the law is that of the slices, all round the turn, for crowns that rise into the cooler and
/// ones that stay below it, and for a narrower power cylinder.
#[test]
fn volumes_are_those_of_slices_through_the_parts() {
    let cases: [&[(&str, &str)]; 4] = [
        &[],
        &[
            ("piston.bore", "54 mm"),
            ("drive.crankpin_bearing", "686ZZ"),
            ("drive.small_end_bearing", "685ZZ"),
        ],
        &[("drive.lead", "65°"), ("displacer.stroke", "30 mm")],
        &[("displacer.cold_clearance", "1 mm"), ("piston.top_clearance", "12 mm")],
    ];
    for sets in cases {
        let e = engine(sets);
        let law = volume_law(&e).unwrap();
        for i in 0..24 {
            let angle = TAU * f64::from(i) / 24.0;
            let [displacer, crown] = faces(&e, &law, angle);
            let parts = sliced(&e, displacer, crown) + around(&e);
            let told = 1e9 * (law.at(angle).moving_m3() + law.dead_m3());
            assert!((told / parts - 1.0).abs() < 5e-4, "{sets:?} {i}: {told} and {parts} mm³");
        }
    }
}

/// Displacer and piston pass each other with the clearance that the design wants, and touch nothing else.
#[test]
fn displacer_and_piston_pass_with_their_clearance() {
    for clearance in ["0.5 mm", "1 mm", "3 mm"] {
        let e = engine(&[("piston.top_clearance", clearance)]);
        let law = volume_law(&e).unwrap();
        let apart = (0..3600).map(|i| {
            let [displacer, crown] = faces(&e, &law, TAU * f64::from(i) / 3600.0);
            displacer - crown
        });
        let least = apart.fold(f64::INFINITY, f64::min);
        let wanted: f64 = clearance.trim_end_matches(" mm").parse().unwrap();
        assert!((least - wanted).abs() < 1e-4, "{least} mm");
    }
}

/// With harmonic motion the strokes of a beta engine overlap by ½(V_d + V_p) − √(¼(V_d² + V_p²) − ½ V_d V_p cos α)
/// (K. Hirata, "Schmidt theory for Stirling engines", from memory; I. Urieli and D. M. Berchowitz, Stirling Cycle Engine
/// Analysis, 1984, have the same cold space of two sinusoids). One area, so lengths do. A con rod of 900 mm is all but
/// endless: what is left is less than throw²/(2 rod).
#[test]
fn strokes_overlap_as_published() {
    for (lead, displacer, piston) in [("90°", 25.0, 25.0), ("70°", 30.0, 24.0), ("110°", 24.0, 26.0_f64)] {
        let mm = |v: f64| format!("{v} mm");
        let e = engine(&[
            ("drive.lead", lead),
            ("displacer.stroke", &mm(displacer)),
            ("piston.stroke", &mm(piston)),
            ("drive.con_rod_length", "900 mm"),
        ]);
        let cos = e.drive.lead_deg.to_radians().cos();
        let square = 0.25 * (displacer.powi(2) + piston.powi(2)) - 0.5 * displacer * piston * cos;
        let published = 0.5 * (displacer + piston) - square.sqrt();
        let ours = own(&e).heights.crown_mm - e.displacer.cold_clearance_mm + e.piston.top_clearance_mm;
        assert!((ours - published).abs() < 15.0 * 15.0 / 1800.0, "{lead}: {ours} and {published}");
    }
}

/// Without friction the shaft gets ∮ (p − p_b) dV of the volumes above: the areas of the drive are those of the gas. With
/// it, what is missing is told by name, the shaft's seal with it.
#[test]
fn the_drive_sees_the_volumes_of_the_gas() {
    let e = engine(&[]);
    let (law, m) = (volume_law(&e).unwrap(), mechanism(&e, &Choices::default()).unwrap());
    let points = 720;
    let angle = |i: usize| TAU * i as f64 / points as f64;
    // any pressure will do
    let pressure_pa: Vec<f64> = (0..points).map(|i| 4e5 + 9e4 * (angle(i) - 0.6).cos()).collect();
    let work_j: f64 = (0..points)
        .map(|i| (pressure_pa[i] - 4e5) * law.slope(angle(i)).moving_m3() * TAU / points as f64)
        .sum();
    let gas = GasLoop { pressure_pa, drop_pa: Vec::new(), buffer_pa: 4e5 };
    let free = drive_forces(&m, &gas, 600.0, &FrictionFactors::all(0.0)).unwrap();
    assert!((free.shaft_work_j / work_j - 1.0).abs() < 1e-6, "{} and {work_j} J", free.shaft_work_j);
    let real = drive_forces(&m, &gas, 600.0, &FrictionFactors::default()).unwrap();
    assert!((real.gas_work_j - real.shaft_work_j - real.friction_j()).abs() < 1e-9);
    let of = |name: &str| real.friction.iter().find(|f| f.name == name).unwrap().work_j;
    assert!(of("shaft seal") > 0.0 && of("belt") == 0.0 && of("rod gland") > 0.0);
}

/// The law's word stands wherever the engine is judged: in the answer and on the sheets of what holds the pressure.
#[test]
fn that_it_may_be_pressure_equipment_in_law_is_said() {
    let design = design(&[("model.samples", "0")]);
    let sized = judged(&design).unwrap();
    let heat = sized.answer.heat.as_ref().unwrap();
    assert!(heat.cautions.iter().any(|c| c.contains("pressure equipment in law")), "{:?}", heat.cautions);
    let built = swept::pipeline::build(&design, None).unwrap();
    let holds = ["hot-cap", "cooler", "power-cylinder", "crankcase", "front-plate", "rear-plate"];
    for name in holds {
        let part = built.set.parts.iter().find(|p| p.name == name).unwrap();
        assert!(part.cautions.iter().any(|c| c.contains("pressure equipment in law")), "{name}");
    }
    let list = |name: &str| built.set.parts.iter().any(|p| p.name == name);
    assert!(list("relief-valve") && list("pressure-gauge") && list("filling-valve"));
}

/// A beta engine with this regenerator runs, and a coarser matrix costs heat.
#[test]
fn the_sample_drives_its_charger() {
    let design = design(&[]);
    let e = size(&design).unwrap();
    let work = |e: &Engine| full_engine(&design, e).at(600.0, &Change::NONE).unwrap();
    let fine = work(&e);
    assert!(fine.net_j > 0.0, "{fine:?}");
    let coarse = work(&engine(&[("regenerator.wire", "0.4 mm")]));
    assert!(coarse.heat.supply_w / coarse.net_j.max(1e-9) > fine.heat.supply_w / fine.net_j);
}

/// It stands: wheel and end plates clear of plate and bench (5, 2.5 and 1 mm; common practice, no source), screws from below
/// in the crankcase, feet on the bench.
#[test]
fn it_stands_on_a_base_with_feet() {
    let e = engine(&[]);
    let (b, c) = (e.base.as_ref().expect("a base"), &own(&e).case);
    let case_low = e.drive.crank_z_mm - c.rise_mm[1];
    assert!((b.top_mm - case_low).abs() < 1e-9);
    assert!(e.drive.crank_z_mm - c.plate_mm[0] / 2.0 >= b.top_mm + 1.0 - 1e-9, "end plate");
    assert!(e.shaft_end.wheel_mm - b.high_mm[1] >= 2.5 - 1e-9, "wheel behind the plate");
    let foot = b.foot.as_ref().expect("the wheel reaches below the plate");
    let bench = b.top_mm - b.thickness_mm - foot.length_mm;
    assert!(e.drive.crank_z_mm - e.flywheel.diameter_mm / 2.0 - bench >= 5.0 - 1e-9, "wheel over the bench");
    let reach = |x: f64, y: f64| x.abs() <= c.half_mm && y.abs() <= c.length_mm / 2.0;
    assert!(
        b.screws_mm.iter().all(|[x, y]| reach(*x, *y)) && b.hold_down_mm.iter().all(|[x, y]| !reach(*x, *y))
    );
    let set = swept::parts::part_set(&e, &design(&[]).workshop, 0.0);
    assert_eq!(set.instances.iter().filter(|i| i.part == "base-foot").count(), 4);
    assert!(set.screws.iter().any(|f| f.joint == "base-joint" && f.threaded == "crankcase"));
    assert!(set.joints.iter().any(|j| j.name == "base-joint" && j.parts[1] == "crankcase"));
}
