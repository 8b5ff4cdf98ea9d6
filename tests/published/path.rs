//! The gas path of a published engine from drawn numbers.

use super::data::{Drawn, Element, Engine, Point, file};
use super::rhombic;
use rand_pcg::Pcg64;
use std::f64::consts::PI;
use swept::catalogue::gases::gas;
use swept::sizing::cycle::Charge;
use swept::sizing::cycle::path::{
    Buffer, EndSpace, Exchanger, Factors, GasPath, Leak, LeakKind, Place, Walls,
};
use swept::sizing::cycle::transfer::Surface;
use swept::sizing::mechanism::{Motion, SliderCrank};
use swept::sizing::volumes::{Arrangement, Displacer, Overlap, Piston, Zone, circle_mm2};

/// Heat capacity of steel by volume \[J/(m³ K)\].
const STEEL_J_M3_K: f64 = 3.9e6;
/// Con rod over throw of drives that keep the con rods' side forces from the pistons.
const STRAIGHT: f64 = 1e3;
/// Cylinder sizes after drawing.
#[derive(Clone, Copy, Debug)]
pub struct Cylinders {
    pub piston_bore_mm: f64,
    pub piston_stroke_mm: f64,
    pub displacer_bore_mm: f64,
    pub displacer_stroke_mm: f64,
    pub rod_mm: f64,
    /// Con rod over throw.
    pub con_rod_ratio: f64,
}

/// A published engine at a point, all numbers drawn.
#[derive(Clone, Debug)]
pub struct Built {
    pub path: GasPath,
    pub cylinders: Cylinders,
    pub pistons: f64,
    pub beta: bool,
    /// Share of the shaft power that comes out: generator.
    pub passes_on: f64,
    /// Mechanical effectiveness and heat side.
    pub common: Drawn,
    /// Hot temperature of the source \[K\].
    pub stated_k: f64,
    /// Area of wall that is heated from outside \[m²\].
    pub heated_m2: f64,
}

/// Bore and stroke \[mm\], given or from the swept volume.
fn cylinder(size: &Drawn, what: &str) -> [f64; 2] {
    let named = |unit: &str| size.may(&format!("{what}_{unit}"));
    match (named("bore_mm"), named("stroke_mm"), named("cm3")) {
        (Some(bore), Some(stroke), None) => [bore, stroke],
        (Some(bore), None, None) => [bore, 0.0],
        (None, None, Some(cm3)) => {
            let ratio = size.get("stroke_over_bore");
            let bore = (4.0 * cm3 * 1e3 / (PI * ratio)).cbrt();
            [bore, ratio * bore]
        }
        _ => panic!("{what}: bore and stroke, or swept volume"),
    }
}

fn cylinders(engine: &Engine, size: &Drawn) -> Cylinders {
    let [piston_bore_mm, mut piston_stroke_mm] = cylinder(size, "piston");
    let [displacer_bore_mm, mut displacer_stroke_mm] = cylinder(size, "displacer");
    if engine.drive == "rhombic" {
        piston_stroke_mm = rhombic::crank(size, 1.0).stroke_mm();
        displacer_stroke_mm = piston_stroke_mm;
    }
    let con_rod_ratio = size.may("con_rod_ratio").unwrap_or(STRAIGHT);
    let rod_mm = size.get("rod_mm");
    Cylinders {
        piston_bore_mm,
        piston_stroke_mm,
        displacer_bore_mm,
        displacer_stroke_mm,
        rod_mm,
        con_rod_ratio,
    }
}

impl Cylinders {
    fn motion(&self, stroke_mm: f64) -> Motion {
        if self.con_rod_ratio >= STRAIGHT {
            return Motion::Harmonic { throw_mm: 0.5 * stroke_mm };
        }
        let throw_mm = 0.5 * stroke_mm;
        Motion::SliderCrank(SliderCrank::new(throw_mm, throw_mm * self.con_rod_ratio).unwrap())
    }

    /// Faces of displacer (hot, cold) and piston \[mm²\]; the rod goes through the piston of a beta engine.
    pub fn faces_mm2(&self, pistons: f64, beta: bool) -> [f64; 3] {
        let (displacer, rod) = (circle_mm2(self.displacer_bore_mm), circle_mm2(self.rod_mm));
        let piston = circle_mm2(self.piston_bore_mm) - if beta { rod } else { 0.0 };
        [displacer, displacer - rod, pistons * piston]
    }
}

fn arrangement(engine: &Engine, size: &Drawn, c: &Cylinders) -> (Arrangement, f64) {
    let beta = engine.layout == "beta";
    let [hot, cold, crown] = c.faces_mm2(engine.pistons, beta);
    let clearance_m3 = |end: &str, mm2: f64| {
        let (mm, cm3) = (format!("{end}_clearance_mm"), format!("{end}_clearance_cm3"));
        size.or_nothing(&mm) * mm2 * 1e-9 + size.or_nothing(&cm3) * 1e-6
    };
    let displacer = Displacer {
        motion: c.motion(c.displacer_stroke_mm),
        hot_area_mm2: hot,
        cold_area_mm2: cold,
        hot_clearance_m3: clearance_m3("hot", hot),
        cold_clearance_m3: clearance_m3("cold", cold),
    };
    let piston = Piston { motion: c.motion(c.piston_stroke_mm), area_mm2: crown, clearance_m3: 0.0 };
    if engine.drive == "rhombic" {
        return (rhombic::arrangement(size, displacer, piston), rhombic::LEAD_DEG);
    }
    let lead_deg = size.get("lead_deg");
    if beta {
        return (Arrangement::Beta { displacer, piston, overlap: Overlap::Touching }, lead_deg);
    }
    (Arrangement::Gamma { displacer, piston }, lead_deg)
}

fn element(e: &Element, d: &Drawn, open_gap_mm: f64, bore_mm: f64, ends_k: [f64; 2]) -> Exchanger {
    let [hot_k, cold_k] = ends_k;
    let (zone, walls) = match e.zone.as_str() {
        "hot" => (Zone::Hot, Walls::Fixed { hot_k, cold_k: hot_k }),
        "cold" => (Zone::Cold, Walls::Fixed { hot_k: cold_k, cold_k }),
        _ => (Zone::Between, Walls::Fixed { hot_k, cold_k }),
    };
    let m = |name: &str| d.get(name) * 1e-3;
    match e.kind.as_str() {
        "gap" => {
            let gap_m = d.may("gap_mm").unwrap_or(open_gap_mm) * 1e-3;
            Exchanger::annular_gap(&e.name, zone, bore_mm * 1e-3, gap_m, m("length_mm"), walls)
        }
        "slots" => {
            let sides = [m("width_mm"), m("depth_mm")];
            Exchanger::slots(&e.name, zone, d.get("count"), sides, m("length_mm"), walls)
        }
        "tubes" => {
            let all = Exchanger::tubes(&e.name, zone, d.get("count"), m("inside_mm"), m("length_mm"), walls);
            let bathed = d.may("bathed_mm").map_or(1.0, |mm| mm * 1e-3 / all.length_m);
            let velocity_heads = d.may("velocity_heads").unwrap_or(all.velocity_heads);
            Exchanger { wetted_m2: bathed * all.wetted_m2, velocity_heads, ..all }
        }
        "area" => {
            // A flat passage with this wetted area: perimeter = area/length on both sides of the gap.
            let side = 0.5 * d.get("wetted_cm2") * 1e-4 / m("length_mm");
            Exchanger::slots(&e.name, zone, 1.0, [m("gap_mm"), side], m("length_mm"), walls)
        }
        "mesh" => {
            let section = d.get("count") * circle_mm2(d.get("bore_mm")) * 1e-6;
            let surface = Surface::WovenMesh { porosity: d.get("porosity") };
            let wire = d.get("wire_um") * 1e-6;
            Exchanger::matrix(&e.name, surface, section, m("length_mm"), wire, STEEL_J_M3_K, ends_k)
        }
        other => panic!("no kind of exchanger: {other}"),
    }
}

/// An element, in three where the wall is heated over one part of its length and cooled over another.
fn parts(e: &Element, d: &Drawn, open_gap_mm: f64, bore_mm: f64, ends_k: [f64; 2]) -> Vec<Exchanger> {
    let whole = element(e, d, open_gap_mm, bore_mm, ends_k);
    let (Some(heated), Some(cooled)) = (d.may("heated_share"), d.may("cooled_share")) else {
        return vec![whole];
    };
    let [hot_k, cold_k] = ends_k;
    let part = |name: &str, zone, share: f64, heads: f64, walls, cells| Exchanger {
        name: format!("{} {name}", e.name),
        zone,
        volume_m3: share * whole.volume_m3,
        wetted_m2: share * whole.wetted_m2,
        length_m: share * whole.length_m,
        velocity_heads: heads * whole.velocity_heads,
        walls,
        cells,
        ..whole.clone()
    };
    let fixed = |hot_k, cold_k| Walls::Fixed { hot_k, cold_k };
    vec![
        part("heated", Zone::Hot, heated, 0.5, fixed(hot_k, hot_k), 4),
        part("between", Zone::Between, 1.0 - heated - cooled, 0.0, fixed(hot_k, cold_k), 6),
        part("cooled", Zone::Cold, cooled, 0.5, fixed(cold_k, cold_k), 4),
    ]
}

/// The piston's seal as an orifice, in proportion to the bore.
fn seal(c: &Cylinders, pistons: f64, beta: bool, opening_mm2: f64) -> Leak {
    let area_m2 = opening_mm2 * 1e-6 * pistons * c.piston_bore_mm / 64.0;
    Leak {
        name: "piston rings".into(),
        from: if beta { Place::Cold } else { Place::Power },
        kind: LeakKind::Orifice { area_m2, discharge: 0.8 },
    }
}

/// Slots that run along the whole cylinder are bare where the displacer has gone, on the mean half of its stroke: flanks
/// \[m²\] and volume \[m³\] at either end.
fn exposed_slots(e: &Element, d: &Drawn, c: &Cylinders) -> [f64; 2] {
    if e.kind != "slots" {
        return [0.0; 2];
    }
    let bare_mm = 0.5 * c.displacer_stroke_mm;
    let (count, width, depth) = (d.get("count"), d.get("width_mm"), d.get("depth_mm"));
    [count * 2.0 * depth * bare_mm * 1e-6, count * width * depth * bare_mm * 1e-9]
}

/// Outside area \[m²\] of what is heated, the wall's thickness left out: the head, the cylinder beside the stroke, and
/// what of the element's length is under the heater.
fn heated_m2(e: &Element, d: &Drawn, c: &Cylinders) -> f64 {
    let round_m = PI * c.displacer_bore_mm * 1e-3;
    match (e.zone.as_str(), d.may("wetted_cm2"), d.may("heated_share")) {
        ("hot", Some(cm2), _) => cm2 * 1e-4,
        ("hot", None, _) => round_m * d.get("length_mm") * 1e-3,
        (_, _, Some(share)) => round_m * share * d.get("length_mm") * 1e-3,
        _ => 0.0,
    }
}

/// What is not drawn: walls that are not what the source says, and the gap.
#[derive(Clone, Copy, Debug)]
pub struct Given {
    /// Displacer gap where the source leaves it open, before its spread \[mm\].
    pub gap_mm: f64,
    /// Hot wall, where it is known better \[K\].
    pub hot_k: Option<f64>,
    /// Added to the cold wall as a share of hot less cold.
    pub cold_share: f64,
}

/// The engine at a point with its numbers drawn; middles with `None`.
pub fn build(engine: &Engine, point: &Point, mut random: Option<Pcg64>, given: &Given) -> Built {
    let size = Drawn::of(&engine.size, &mut random);
    let at = Drawn::of(&point.at, &mut random);
    let stated_k = at.get("hot_c") + 273.15 + at.or_nothing("hot_offset_k");
    let fall_k = stated_k - at.get("cold_c") - 273.15;
    let hot_k = given.hot_k.unwrap_or(stated_k);
    let cold_k = at.get("cold_c") + 273.15 + given.cold_share * fall_k;
    let opening_mm2 = file().seal.mm2(&mut random);
    let common = Drawn::of(&file().common, &mut random);
    let open_gap_mm = given.gap_mm * common.get("gap_doublings").exp2();
    let c = cylinders(engine, &size);
    let beta = engine.layout == "beta";
    let (arrangement, lead_deg) = arrangement(engine, &size, &c);
    let bathed_mm = c.displacer_stroke_mm + 0.25 * c.displacer_bore_mm;
    let mut heated = PI * c.displacer_bore_mm * bathed_mm * 1e-6;
    let mut slots = [0.0; 2];
    let mut exchanger = |e: &Element| {
        let d = Drawn::of(&e.sizes, &mut random);
        if d.may("heated_share").is_some() {
            slots = exposed_slots(e, &d, &c);
        }
        heated += heated_m2(e, &d, &c);
        parts(e, &d, open_gap_mm, c.displacer_bore_mm, [hot_k, cold_k])
    };
    let exchangers = engine.exchanger.iter().flat_map(&mut exchanger).collect();
    let space = |name: &str, bore_mm: f64, wall_k: f64, dead: &str| EndSpace {
        dead_m3: size.or_nothing(dead) * 1e-6,
        ..EndSpace::plain(name, bore_mm * 1e-3, wall_k)
    };
    let slotted =
        |space: EndSpace| EndSpace { extra_area_m2: slots[0], dead_m3: space.dead_m3 + slots[1], ..space };
    let mean_pa = at.get("pressure_kpa") * 1e3;
    let power = EndSpace {
        cylinders: engine.pistons,
        ..space("power cylinder", c.piston_bore_mm, cold_k, "power_dead_cm3")
    };
    let path = GasPath {
        arrangement,
        lead_deg,
        hot: slotted(space("hot space", c.displacer_bore_mm, hot_k, "hot_dead_cm3")),
        exchangers,
        cold: slotted(space("cold space", c.displacer_bore_mm, cold_k, "cold_dead_cm3")),
        port: vec![],
        power: (!beta).then_some(power),
        leaks: vec![seal(&c, engine.pistons, beta, opening_mm2)],
        buffer: Buffer { pressure_pa: mean_pa, temperature_k: cold_k },
        gas: gas(&point.gas).unwrap(),
        speed_rpm: at.get("speed_rpm"),
        charge: Charge::MeanPressure(mean_pa),
        factors: Factors::default(),
    };
    Built {
        path,
        cylinders: c,
        pistons: engine.pistons,
        beta,
        passes_on: at.may("generator").unwrap_or(1.0),
        common,
        stated_k,
        heated_m2: heated,
    }
}
