//! A drive line by line for engines that are no more than a few sizes: rings, rod seal, trunk pistons and ball bearings
//! as a builder of the engine's size would choose. Common practice, no source; the coefficients are the crate's own
//! defaults.

use super::path::Cylinders;
use swept::sizing::losses::ball_bearing::RollingBearing;
use swept::sizing::losses::bush::Bush;
use swept::sizing::losses::gland::RodRing;
use swept::sizing::losses::ring::Rings;
use swept::sizing::losses::windage::Disc;
use swept::sizing::mechanism::{
    Choices, Guide, Guides, Journals, Line, Mechanism, Riding, Seals, SliderCrank,
};
use swept::sizing::volumes::circle_mm2;

/// Dynamic rating of a deep-groove ball bearing over the square of its bore \[N/mm²\] (makers' lists, roughly, from
/// memory), and the share of it that the greatest load may have.
const RATING: f64 = 18.0;
const LOADED: f64 = 1.0 / 3.0;

/// Bearing that carries a load \[N\]; at least 8 mm bore.
fn bearing(load_n: f64) -> RollingBearing {
    let bore = (load_n / (LOADED * RATING)).sqrt().max(8.0);
    RollingBearing::shielded(bore, 2.0 * bore + 6.0)
}

/// One line with the pin inside its own guide, so that the guide bears the side force and no more.
fn line(c: &Cylinders, stroke_mm: f64, pressed_mm2: f64, kg: f64, friction: f64, load_n: f64) -> Line {
    let guide = Guide::Bush(Bush { friction });
    Line {
        crank: SliderCrank::new(0.5 * stroke_mm, 0.5 * stroke_mm * c.con_rod_ratio).unwrap(),
        pressed_mm2,
        drop_mm2: 0.0,
        slider_kg: kg,
        abreast: 1.0,
        con_rod_kg: 0.2 * kg,
        con_rod_big_end: 2.0 / 3.0,
        gravity: 1.0,
        seals: Seals::default(),
        guides: Guides { lower: guide, upper: guide, overhang_mm: 0.0, span_mm: 1e6, riding: Riding::Still },
        small_end: bearing(load_n),
        crankpin: bearing(load_n),
        journals: Journals {
            bearing: bearing(load_n),
            overhang_mm: 0.0,
            span_mm: 100.0,
            steady_n: 15.0,
            drag_counted: false,
        },
    }
}

/// The drive, for a swing of pressure over the buffer's \[Pa\].
pub fn mechanism(c: &Cylinders, swing_pa: f64) -> Mechanism {
    let choices = Choices::default();
    let crown = circle_mm2(c.piston_bore_mm);
    let rings = Rings {
        count: 2,
        bore_mm: c.piston_bore_mm,
        height_mm: 3.0 / 64.0 * c.piston_bore_mm,
        wall_mpa: choices.ring_wall_mpa,
        gas_share: 0.5,
        friction: choices.ring_friction,
    };
    let gland = RodRing {
        rod_mm: c.rod_mm,
        section_mm: 1.78,
        squeeze: 0.1,
        youngs_mpa: 5.5,
        friction: choices.gland_friction,
    };
    // 0.35 kg on 64 mm and 0.30 kg on 96 mm, thin-walled, so with the area.
    let piston_kg = 0.35 * (c.piston_bore_mm / 64.0).powi(2);
    let displacer_kg = 0.30 * (c.displacer_bore_mm / 96.0).powi(2);
    let rod_mm2 = circle_mm2(c.rod_mm);
    let [on_piston, on_rod] = [crown, rod_mm2].map(|mm2| swing_pa * mm2 * 1e-6);
    let piston = line(c, c.piston_stroke_mm, crown, piston_kg, choices.skirt_friction, on_piston);
    let displacer = line(c, c.displacer_stroke_mm, rod_mm2, displacer_kg, choices.bush_friction, on_rod);
    Mechanism {
        piston: Line { seals: Seals { rings: Some(rings), gland: None }, ..piston },
        displacer: Line { seals: Seals { rings: None, gland: Some(gland) }, ..displacer },
        lead_deg: 90.0, // friction hardly depends on it, and a rhombic drive's is none of one crank
        shaft_seal: None,
        belt: None,
        turning_kg_m2: 0.01,
        discs: [Disc::in_room(100.0), Disc::in_room(30.0)],
    }
}
