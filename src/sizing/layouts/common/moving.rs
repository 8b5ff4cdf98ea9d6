//! Pieces that move in every layout, by the exact motion of crank and con rod: con rod, clevis, crank web, displacer, piston.

use crate::catalogue::belts::belt_section;
use crate::sizing::clearance::hull::Hull;
use crate::sizing::clearance::piece::{Pair, Piece};
use crate::sizing::engine::{Belt, Engine};
use crate::sizing::layouts::common::drive::shaft_in_bracket_mm;
use crate::sizing::layouts::common::guide::Guide;

/// Clearance of what swings past, wanted and least \[mm\] (common practice, no source).
pub const SWINGS: [f64; 2] = [1.0, 0.5];
/// Clearance of flat faces that slide past, guided by bearings \[mm\] (common practice, no source).
pub const SLIDES: [f64; 2] = [0.4, 0.2];
/// Clearance at the ends of a stroke \[mm\] (common practice, no source).
pub const ENDS: [f64; 2] = [0.5, 0.2];
/// Gap beside the displacer, wanted and least \[mm\] (common practice, no source).
pub const WALLS: [f64; 2] = [0.25, 0.1];
/// Gap beside the piston \[mm\] (common practice, no source).
pub const SKIRT: [f64; 2] = [0.005, 0.002];

/// A line of slider, con rod and crank in the plane of X and Z.
#[derive(Clone, Copy, Debug)]
pub struct Line {
    /// Names of clevis and con rod in the assembly.
    pub names: [&'static str; 2],
    /// Crank axis \[mm\].
    pub crank: [f64; 2],
    /// From the crank to the cylinder.
    pub along: [f64; 2],
    /// Where the crankpin goes from top dead centre.
    pub across: [f64; 2],
    /// y of its middle plane \[mm\].
    pub y_mm: f64,
    /// Throw \[mm\].
    pub throw_mm: f64,
    /// Crank angle from its own top dead centre \[rad\].
    pub angle_rad: f64,
}

impl Line {
    /// A point `far` along and `aside` from the crank axis.
    fn at(&self, far: f64, aside: f64) -> [f64; 2] {
        [0, 1].map(|i| self.crank[i] + self.along[i] * far + self.across[i] * aside)
    }

    /// The crankpin.
    pub fn crankpin(&self) -> [f64; 2] {
        let (sin, cos) = self.angle_rad.sin_cos();
        self.at(self.throw_mm * cos, self.throw_mm * sin)
    }

    /// Distance of the clevis pin from the crank axis along the line \[mm\].
    fn clevis_far(&self, e: &Engine) -> f64 {
        let (sin, cos) = self.angle_rad.sin_cos();
        let aside = self.throw_mm * sin;
        self.throw_mm * cos + (e.drive.con_rod_mm * e.drive.con_rod_mm - aside * aside).sqrt()
    }

    /// How far the slider stands below its top dead centre \[mm\].
    pub fn drop_mm(&self, e: &Engine) -> f64 {
        e.drive.con_rod_mm + self.throw_mm - self.clevis_far(e)
    }

    /// Box `low`..`high` along the line and `half` to both sides.
    fn boxed(&self, [low, high]: [f64; 2], half: f64) -> Hull {
        let corners = [(low, -half), (high, -half), (high, half), (low, half)];
        Hull { discs: corners.into_iter().map(|(far, aside)| (self.at(far, aside), 0.0)).collect() }
    }

    /// Con rod, both legs and the crown of the clevis.
    pub fn rods(&self, e: &Engine) -> Vec<Piece> {
        let (c, far) = (&e.clevis, self.clevis_far(e));
        let beside = |half: f64| [self.y_mm - half, self.y_mm + half];
        let [wide, deep, high] = c.size_mm;
        let (foot, slot) = (far - c.pin_z_mm, 0.5 * c.slot_mm);
        let leg = self.boxed([foot, foot + high], 0.5 * wide);
        let crown = self.boxed([foot + c.slot_depth_mm, foot + high], 0.5 * wide);
        let [clevis, rod] = self.names;
        vec![
            self.con_rod(e, rod),
            Piece::new(clevis, [self.y_mm - 0.5 * deep, self.y_mm - slot], leg.clone()),
            Piece::new(clevis, [self.y_mm + slot, self.y_mm + 0.5 * deep], leg),
            Piece::new(clevis, beside(0.5 * deep), crown),
        ]
    }

    /// Con rod alone.
    pub fn con_rod(&self, e: &Engine, name: &'static str) -> Piece {
        let (d, half) = (&e.drive, 0.5 * e.drive.con_rod_thickness_mm);
        let small_end = self.at(self.clevis_far(e), 0.0);
        let band = Hull::band((self.crankpin(), d.eye_r_mm[0]), (small_end, d.eye_r_mm[1]));
        Piece::new(name, [self.y_mm - half, self.y_mm + half], band)
    }

    /// Web of the crank behind the con rod.
    pub fn web(&self, e: &Engine, name: &'static str) -> Piece {
        let d = &e.drive;
        let near = self.y_mm + 0.5 * d.con_rod_thickness_mm + d.side_gap_mm;
        let band = Hull::band((self.crank, d.web_r_mm[0]), (self.crankpin(), d.web_r_mm[1]));
        Piece::new(name, [near, near + d.web_mm], band)
    }

    /// A round body about the line: `low`..`high` from the crank axis.
    pub fn round(&self, name: &'static str, ends: [f64; 2], radius_mm: f64) -> Piece {
        Piece::new(name, [self.y_mm - radius_mm, self.y_mm + radius_mm], self.boxed(ends, radius_mm))
    }

    /// The piston; `head_mm` is the place of the cylinder's head along the line.
    pub fn piston(&self, e: &Engine, head_mm: f64) -> Piece {
        let p = &e.piston;
        let crown = head_mm - p.top_clearance_mm - self.drop_mm(e);
        self.round("piston", [crown - p.length_mm, crown], 0.5 * p.diameter_mm)
    }

    /// Shell and base of the displacer; `plate_mm` is the place of the cooler plate's upper face along the line.
    pub fn displacer(&self, e: &Engine, plate_mm: f64) -> [Piece; 2] {
        let d = &e.displacer;
        let low = plate_mm + d.cold_clearance_mm + d.stroke_mm - self.drop_mm(e);
        let r = 0.5 * d.bore_mm - d.gap_mm;
        [
            self.round(shell_name(e), [low, low + d.length_mm], r),
            self.round("displacer-base", [low, low + d.base_mm], r),
        ]
    }
}

/// Displacer's shell in the assembly.
pub fn shell_name(e: &Engine) -> &'static str {
    if e.displacer.bought_can { "displacer-can" } else { "displacer-shell" }
}

/// The displacer's line, upright on the origin, at a crank angle \[deg\].
pub fn displacer_line(e: &Engine, angle_deg: f64) -> Line {
    Line {
        names: ["displacer-clevis", "displacer-con-rod"],
        crank: [0.0, e.drive.crank_z_mm],
        along: [0.0, 1.0],
        across: [1.0, 0.0],
        y_mm: 0.0,
        throw_mm: e.drive.displacer.throw_mm,
        angle_rad: angle_deg.to_radians(),
    }
}

/// The piston's line at a crank angle of the displacer \[deg\], as if it stood where the displacer's stands.
pub fn piston_line(e: &Engine, angle_deg: f64) -> Line {
    Line {
        names: ["piston-clevis", "piston-con-rod"],
        throw_mm: e.drive.piston.throw_mm,
        angle_rad: (angle_deg - e.drive.lead_deg).to_radians(),
        ..displacer_line(e, angle_deg)
    }
}

/// Sleeve of the rod guide below a plate of `plate_mm`.
pub fn rod_guide(guide: &Guide, plate_mm: f64) -> Piece {
    let r = 0.5 * guide.sleeve_mm;
    Piece::new("rod-guide", [-r, r], Hull::rectangle([-r, -plate_mm - guide.length_mm], [r, -plate_mm]))
}

/// Flat end of the hot cap.
pub fn hot_end(e: &Engine) -> Piece {
    let end = e.stack.cap_low_mm + e.hot_cap.depth_mm;
    let r = 0.5 * e.hot_cap.bore_mm + e.hot_cap.wall_mm;
    Piece::new("hot-cap", [-r, r], Hull::rectangle([-r, end], [r, end + e.hot_cap.end_mm]))
}

/// What stands about the displacer: flat end of the hot cap, and the cooler plate down to `-plate_mm`.
pub fn around_displacer(
    e: &Engine,
    plate_mm: f64,
    [left, right]: [f64; 2],
    [front, rear]: [f64; 2],
) -> [Piece; 2] {
    [hot_end(e), Piece::new("cooler-plate", [front, rear], Hull::rectangle([left, -plate_mm], [right, 0.0]))]
}

/// Disc on a shaft through `axis` (X and Z).
pub fn disc(name: &'static str, axis: [f64; 2], y_mm: [f64; 2], diameter_mm: f64) -> Piece {
    Piece::new(name, y_mm, Hull::disc(axis, 0.5 * diameter_mm))
}

/// A pulley of which `flange_y` is the face of its flange away from the teeth: rim, flange and hub; `sign` is the way along Y
/// from the flange to the teeth.
pub fn pulley(name: &'static str, axis: [f64; 2], b: &Belt, flange_y: f64, sign: f64) -> [Piece; 3] {
    let outside = belt_section(&b.section).map_or(b.flange_mm[1], |s| s.outside_diameter_mm(b.pulley_teeth));
    let run = |from: f64, to: f64| {
        let [a, b] = [flange_y + sign * from, flange_y + sign * to];
        [a.min(b), a.max(b)]
    };
    let thick = b.flange_mm[0];
    [
        disc(name, axis, run(thick, thick + b.face_mm), outside),
        disc(name, axis, run(0.0, thick), b.flange_mm[1]),
        disc(name, axis, run(-b.hub_mm[1], 0.0), b.hub_mm[0]),
    ]
}

/// Flywheel, its hub and the pulley of the load on a shaft through `axis`, where they are made.
pub fn on_shaft_end(e: &Engine, axis: [f64; 2]) -> Vec<Piece> {
    let (end, mut all) = (&e.shaft_end, Vec::new());
    if let Some(made) = &e.flywheel.made {
        let face = end.wheel_mm + made.width_mm;
        let ([flange, thick], [boss, long]) = (made.hub.flange_mm, made.hub.boss_mm);
        all.push(disc("flywheel", axis, [end.wheel_mm, face], e.flywheel.diameter_mm));
        all.push(disc("flywheel-hub", axis, [face, face + thick], flange));
        all.push(disc("flywheel-hub", axis, [face + thick, face + thick + long], boss));
    }
    if let Some(o) = &end.output {
        let flange_y = end.output_mm + o.pulley.face_mm + o.pulley.flange_mm[0];
        all.extend(pulley("output-pulley", axis, &o.pulley, flange_y, -1.0));
    }
    all
}

/// Base plate.
pub fn base_plate(e: &Engine) -> Option<Piece> {
    let b = e.base.as_ref()?;
    let outline = Hull::rectangle([b.low_mm[0], b.top_mm - b.thickness_mm], [b.high_mm[0], b.top_mm]);
    Some(Piece::new("base-plate", [b.low_mm[1], b.high_mm[1]], outline))
}

/// Pairs of the flywheel with what it turns beside, and of what turns on its shaft with the base.
pub fn wheel_pairs(e: &Engine, beside: &[&'static str]) -> Vec<Pair> {
    let (wheel, base) = (e.flywheel.made.is_some(), e.base.is_some());
    let mut all: Vec<Pair> = Vec::new();
    if wheel {
        all.extend(beside.iter().map(|other| pair("flywheel", other, SWINGS, "flywheel.diameter")));
    }
    if wheel && base {
        all.push(pair("flywheel", "base-plate", SWINGS, "flywheel.diameter"));
    }
    if e.shaft_end.output.is_some() && base {
        all.push(pair("output-pulley", "base-plate", SWINGS, "load.speed_ratio"));
    }
    all
}

/// A pair that moves past each other.
pub fn pair(a: &'static str, b: &'static str, wanted_mm: [f64; 2], path: &'static str) -> Pair {
    Pair { parts: [a, b], beside_mm: None, wanted_mm, path }
}

/// A crank before the bracket that carries it: its web, and its shaft in the bore between both bearings.
pub fn in_bracket(e: &Engine, crank: &'static str) -> Pair {
    let beside_mm = Some(shaft_in_bracket_mm(&e.drive));
    Pair { beside_mm, ..pair(crank, "crank-bracket", SLIDES, "drive.crankpin_bearing") }
}

/// Pairs that every layout has: displacer in its cylinder, piston in its block.
pub fn common_pairs(e: &Engine, head: &'static str) -> Vec<Pair> {
    let beside = |gap_mm: f64, of: Pair| Pair { beside_mm: Some(gap_mm), ..of };
    let sleeve = e.displacer.regenerator.as_ref().map_or(0.0, |r| r.thickness_mm);
    let gap = e.displacer.gap_mm + sleeve;
    let skirt = 0.5 * (e.piston.bore_mm - e.piston.diameter_mm);
    let shell = shell_name(e);
    vec![
        beside(gap, pair(shell, "hot-cap", WALLS, "displacer.gap")),
        beside(gap, pair(shell, "cold-cylinder", WALLS, "displacer.gap")),
        beside(skirt, pair("piston", "power-cylinder-block", SKIRT, "piston.side_clearance")),
        pair("displacer-base", "cooler-plate", ENDS, "displacer.cold_clearance"),
        pair("piston", head, ENDS, "piston.top_clearance"),
        pair("piston", "back-plate", ENDS, "piston.bottom_clearance"),
    ]
}

/// Pairs of the con rod, clevis and crank of one line with each other and with the bracket.
pub fn line_pairs(clevis: &'static str, con_rod: &'static str, crank: &'static str) -> Vec<Pair> {
    vec![
        pair(clevis, con_rod, SLIDES, "clevis.slot"),
        pair(clevis, crank, SWINGS, "drive.con_rod_length"),
        pair(clevis, "crank-bracket", SLIDES, "drive.small_end_bearing"),
        pair(con_rod, crank, SLIDES, "drive.con_rod_thickness"),
        pair(con_rod, "crank-bracket", SWINGS, "drive.con_rod_thickness"),
    ]
}
