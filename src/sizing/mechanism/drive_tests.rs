use super::super::cases;
use super::*;
use crate::sizing::cycle::forced_work::ForcedWork;
use crate::sizing::losses::ring::Rings;
use crate::sizing::mechanism::{Guide, Riding, Seals, effectiveness};

const NONE: fn() -> FrictionFactors = || FrictionFactors::all(0.0);

fn work(m: &Mechanism, gas: &GasLoop, rpm: f64, factors: &FrictionFactors) -> DriveResult {
    drive_forces(m, gas, rpm, factors).unwrap()
}

/// Without friction the shaft gets the indicated work, ∮ (p − p_b) dV of all moving faces, at any speed: inertia
/// and weight only lend work and take it back.
#[test]
fn without_friction_shaft_work_is_indicated_work() {
    let (m, gas) = (cases::mechanism(), cases::gas_loop(720));
    for rpm in [0.0, 300.0, 3000.0] {
        let turn = work(&m, &gas, rpm, &NONE());
        assert!((turn.shaft_work_j / turn.gas_work_j - 1.0).abs() < 1e-9, "{turn:?}");
        assert!((turn.gas_work_j / cases::indicated_j() - 1.0).abs() < 1e-4);
        assert!(turn.friction.iter().all(|f| f.work_j == 0.0));
    }
}

#[test]
fn what_is_missing_at_the_shaft_is_the_friction_by_name() {
    let turn = work(&cases::mechanism(), &cases::gas_loop(360), 400.0, &FrictionFactors::default());
    let missing = turn.gas_work_j - turn.shaft_work_j;
    assert!((missing - turn.friction_j()).abs() < 1e-9 * turn.gas_work_j);
    assert!(turn.friction.iter().all(|f| f.work_j > 0.0), "{:?}", turn.friction);
}

/// More of any friction never leaves more work.
#[test]
fn friction_never_helps() {
    let (m, gas) = (cases::mechanism(), cases::gas_loop(360));
    let pick: [fn(&mut FrictionFactors) -> &mut f64; 6] = [
        |f| &mut f.rings,
        |f| &mut f.gland,
        |f| &mut f.guides,
        |f| &mut f.bearings,
        |f| &mut f.belt,
        |f| &mut f.windage,
    ];
    for (i, pick) in pick.into_iter().enumerate() {
        let mut last = f64::INFINITY;
        for factor in [0.0, 0.5, 1.0, 2.0] {
            let mut factors = FrictionFactors::default();
            *pick(&mut factors) = factor;
            let left = work(&m, &gas, 500.0, &factors).shaft_work_j;
            assert!(left < last, "factor {i} at {factor}: {left} is not below {last}");
            last = left;
        }
    }
}

/// A mechanism whose only friction is a small share c of the gas force is Senft's with E = 1 − c: it keeps
/// (1 − c) W₊ and pays (1 + c) W₋, and 1/E = 1 + c + c² + …, so both agree but for c² W₋.
#[test]
fn friction_in_proportion_to_the_gas_force_is_constant_effectiveness() {
    let (gas, split) =
        (cases::gas_loop_without_rod(1440), ForcedWork::of_total(&cases::cycle(1440), cases::BUFFER_PA));
    assert!(split.forced_j > 0.03 * split.efficacious_j, "a case with forced work: {split:?}");
    for share in [0.002, 0.01, 0.05_f64] {
        let mut m = cases::without_rod();
        let (bore, height) = (cases::BORE_MM, 3.0);
        let area = std::f64::consts::PI * bore * height;
        let friction = share * m.piston.pressed_mm2 / (0.5 * area);
        let rings =
            Rings { count: 1, bore_mm: bore, height_mm: height, wall_mpa: 0.0, gas_share: 0.5, friction };
        m.piston.seals = Seals { rings: Some(rings), gland: None };
        let only = FrictionFactors { rings: 1.0, ..NONE() };
        let shaft = work(&m, &gas, 300.0, &only).shaft_work_j;
        let senft = split.shaft_j(1.0 - share);
        let off = (shaft - senft).abs();
        assert!(
            off <= 1.1 * share * share * split.forced_j + 2e-5 * split.indicated_j(),
            "{share}: {shaft} {senft}"
        );
        let e = effectiveness(&split, shaft).unwrap();
        assert!((e - (1.0 - share)).abs() < share * share + 1e-5, "{e}");
    }
}

/// By hand at a quarter turn with throw 3 and con rod 5: tan β = 3/4, so 40 N along the cylinder is 30 N across and 50 N
/// in the con rod.
#[test]
fn con_rod_forces_are_those_of_the_triangle() {
    let mut m = cases::without_rod();
    m.piston.crank = crate::sizing::mechanism::SliderCrank::new(3.0, 5.0).unwrap();
    m.piston.pressed_mm2 = 400.0;
    m.lead_deg = 180.0;
    let gas = GasLoop { pressure_pa: vec![2e5; 16], drop_pa: vec![], buffer_pa: 1e5 };
    let turn = work(&m, &gas, 0.0, &NONE());
    // the piston's crank is at the loop's angle + 180° − lead
    let quarter = &turn.points[4].piston;
    let weight = m.piston.reciprocating_kg() * 9.806_65;
    assert!((quarter.axial_n - 40.0 - weight).abs() < 1e-9);
    assert!((quarter.side_n / quarter.axial_n - 0.75).abs() < 1e-12);
    assert!((quarter.con_rod_n / quarter.axial_n - 1.25).abs() < 1e-12);
}

/// First-order inertia m r ω² (1 + r/L) at top dead centre (any text book on balancing), away from the crank.
#[test]
fn inertia_at_top_dead_centre_is_that_of_the_text_books() {
    let mut m = cases::without_rod();
    m.lead_deg = 180.0;
    let turn = work(&m, &cases::gas_loop(16), 600.0, &NONE());
    let (c, omega) = (m.piston.crank, std::f64::consts::TAU * 10.0);
    let force =
        m.piston.reciprocating_kg() * c.throw_mm * 1e-3 * omega * omega * (1.0 + c.throw_mm / c.con_rod_mm);
    assert!((turn.points[0].piston.inertia_n + force).abs() < 1e-9 * force);
}

#[test]
fn a_rod_with_a_rough_bush_and_a_long_overhang_jams() {
    let mut m = cases::mechanism();
    m.displacer.guides.span_mm = 2.0;
    m.displacer.guides.lower = Guide::Bush(crate::sizing::losses::bush::Bush { friction: 0.4 });
    let got = drive_forces(&m, &cases::gas_loop(64), 300.0, &FrictionFactors::default());
    assert!(matches!(got, Err(DriveError::Jams { what: "displacer rod", .. })), "{got:?}");
}

#[test]
fn loops_without_sense_are_refused() {
    let m = cases::mechanism();
    let gas = GasLoop { pressure_pa: vec![1e5; 8], drop_pa: vec![], buffer_pa: 1e5 };
    assert!(matches!(drive_forces(&m, &gas, 300.0, &NONE()), Err(DriveError::Grid { .. })));
    let gas = GasLoop { pressure_pa: vec![f64::NAN; 32], ..gas };
    assert!(matches!(drive_forces(&m, &gas, 300.0, &NONE()), Err(DriveError::NotFinite { .. })));
}

/// A rod that runs through a piston which moves exactly with it does not slide in it: neither its gland nor its guides
/// take anything. Turned by the lead they do, and what is missing at the shaft is still the sum by name.
#[test]
fn a_rod_in_the_piston_rubs_with_the_way_between_both() {
    let gas = cases::gas_loop(360);
    let mut m = cases::mechanism();
    m.belt = None;
    m.displacer.crank = m.piston.crank;
    m.displacer.guides.riding = Riding::OnOther { below_mm: 10.0 };
    m.piston.guides.riding = Riding::OnSlider;
    m.piston.abreast = 2.0;
    let of = |turn: &DriveResult, name: &str| {
        turn.friction.iter().find(|f| f.name == name).map_or(f64::NAN, |f| f.work_j)
    };
    m.lead_deg = 0.0;
    let together = work(&m, &gas, 400.0, &FrictionFactors::default());
    assert!(of(&together, "rod gland").abs() < 1e-12 && of(&together, "displacer guides").abs() < 1e-12);
    m.lead_deg = 90.0;
    let apart = work(&m, &gas, 400.0, &FrictionFactors::default());
    assert!(of(&apart, "rod gland") > 0.0 && of(&apart, "displacer guides") > 0.0);
    for turn in [together, apart] {
        let missing = turn.gas_work_j - turn.shaft_work_j;
        assert!((missing - turn.friction_j()).abs() < 1e-9 * turn.gas_work_j.abs());
    }
}
