//! The passage between cold space and power cylinder: its sizes, its volume, what the gas feels in it.

use super::{HeadPlate, Passage, Places, RightAngle};
use crate::catalogue::threads::{Thread, threads};
use crate::sizing::cycle::path::{Exchanger, Walls};
use crate::sizing::decide::{Decide, round_up};
use crate::sizing::engine::{BoltCircle, Displacer, Drive, Joints, Piston, RodGland};
use crate::sizing::volumes::{Zone, circle_mm2};

/// Mean speed of the gas at the target speed \[m/s\]; common practice, no source.
const GAS_M_S: f64 = 12.0;
/// Wall of the tube \[mm\].
const TUBE_WALL_MM: f64 = 1.5;
/// Metal between the mouth and the edge of the bore \[mm\]; common practice, no source.
const EDGE_MM: f64 = 1.5;
/// Velocity heads lost in each of three right-angled bends (handbooks give 1.1 to 1.2 for a mitre; from memory).
const BEND_HEADS: f64 = 1.1;

/// Bore and outside diameter of the tube \[mm\].
pub fn tube(d: &mut Decide, piston: &Piston) -> [f64; 2] {
    let design = d.design;
    let mean_m_s = 2e-3 * piston.stroke_mm * design.targets.speed_rpm.value / 60.0;
    let bore = d.open_mm(
        "cooler.port_width",
        &design.cooler.port_width_mm,
        (
            "mean gas speed of 12 m/s at targets.speed, at least 4 mm, to the next 0.5 mm",
            "common practice, no source",
        ),
        &["piston.bore", "piston.stroke"],
        round_up((piston.bore_mm * (mean_m_s / GAS_M_S).sqrt()).max(4.0), 0.5),
    );
    let outer = d.rule(
        "passage.tube_diameter",
        bore + 2.0 * TUBE_WALL_MM,
        ("bore + 2 walls of 1.5 mm", "common practice, no source"),
        &["cooler.port_width"],
    );
    [bore, outer]
}

/// Thickness of the head plate \[mm\], into whose edge the tube goes.
pub fn head_thickness(d: &mut Decide, tube: f64) -> f64 {
    d.rule(
        "head.thickness",
        round_up((tube + 5.0).max(10.0), 1.0),
        ("tube + 5 mm, at least 10 mm, to the next mm", "common practice, no source"),
        &["passage.tube_diameter"],
    )
}

/// How much wider than the passage its drilling is, for the plug \[mm\].
const WIDER_MM: f64 = 0.5;

/// Plug of a drilling that is wider than `bore` \[mm\]: the smallest thread whose tapping drill is.
fn plug(bore: f64) -> Option<&'static Thread> {
    threads().iter().find(|t| t.major_mm >= 5.0 && t.tap_drill_mm >= bore + WIDER_MM - 1e-9)
}

/// The whole passage; `plate` \[mm\] is the cooler plate's thickness.
pub fn size(
    d: &mut Decide,
    tube: [f64; 2],
    displacer: &Displacer,
    drive: &Drive,
    places: &Places,
    head: &HeadPlate,
    plate: f64,
) -> Passage {
    let plug = plug(tube[0]).unwrap_or_else(|| {
        let widest = threads().iter().map(|t| t.tap_drill_mm).fold(0.0, f64::max) - WIDER_MM;
        d.refuse(
            "swept::range",
            "cooler.port_width",
            format!("no plug of the catalogue closes a drilling wider than {} mm", tube[0]),
            format!("{widest} mm or less"),
            "set cooler.port_width smaller".into(),
        );
        &threads()[0]
    });
    let drilling = d.standard(
        "passage.drilling",
        plug.tap_drill_mm,
        "ISO 261",
        &format!("tapping drill of {}, its plug", plug.designation),
    );
    let mouth = d.rule(
        "passage.mouth",
        round_up(drilling + 1.0, 0.5),
        "drilling + 1 mm, to the next 0.5 mm",
        &["passage.drilling"],
    );
    let depth = d.rule(
        "passage.mouth_depth",
        plate / 2.0 + drilling / 2.0 + 1.0,
        "half the plate + half the drilling + 1 mm",
        &["cooler.plate_thickness", "passage.drilling"],
    );
    let reach = displacer.bore_mm / 2.0 - EDGE_MM - mouth / 2.0;
    let mouth_x = d.rule(
        "passage.mouth_x",
        (reach * reach - places.piston_y_mm * places.piston_y_mm).max(0.0).sqrt(),
        "inside the bore, 1.5 mm from its edge, in line with the power cylinder",
        &["displacer.bore", "passage.mouth", "drive.rod_offset"],
    );
    let plug_depth = plug.major_mm + 2.0;
    let beyond = (tube[1] / 2.0 + 3.0).max(tube[0] / 2.0 + plug_depth + 3.0 * plug.pitch_mm);
    let edge = d.rule(
        "passage.edge_x",
        round_up(places.head_x_mm + head.thickness_mm / 2.0 + beyond, 0.5),
        "beyond the tube by the plug's thread, to the next 0.5 mm",
        &["stack.head_plate_x", "head.thickness", "passage.drilling"],
    );
    let spigot = d.rule(
        "passage.spigot",
        (plate / 2.0 - drilling / 2.0 - 1.0).min(6.0),
        "up to 1 mm below the drilling, 6 mm at the most",
        &["cooler.plate_thickness", "passage.drilling"],
    );
    let free = -plate - (drive.crank_z_mm + head.top_mm);
    let length = d.rule(
        "passage.tube_length",
        free + 2.0 * spigot,
        "way from head plate to cooler plate + two spigots",
        &["drive.crank_height", "block.half_side", "cooler.plate_thickness", "passage.spigot"],
    );
    Passage {
        mouth_mm: [mouth, depth],
        mouth_x_mm: mouth_x,
        drilling_mm: drilling,
        edge_x_mm: edge,
        plug,
        plug_depth_mm: plug_depth,
        tube_mm: tube,
        spigot_mm: spigot,
        tube_length_mm: length,
        head_drilling_mm: [tube[0] + 1.0, tube[0] / 2.0 + 1.0],
    }
}

/// What the passage must not meet.
pub fn check(
    d: &mut Decide,
    p: &Passage,
    displacer: &Displacer,
    gland: &RodGland,
    joints: &Joints,
    places: &Places,
) {
    let inner = p.mouth_x_mm - p.mouth_mm[0] / 2.0;
    let least = gland.bush.housing_mm.max(gland.groove_mm[0]) / 2.0 + 2.0;
    if inner < least {
        d.refuse(
            "swept::range",
            "displacer.bore",
            format!("in a bore of {} mm the mouth of the passage meets the rod bush", displacer.bore_mm),
            format!("{:.1} mm or more", displacer.bore_mm + 2.0 * (least - inner)),
            "enlarge displacer.bore or make cooler.port_width smaller".into(),
        );
    }
    if p.spigot_mm < 2.5 {
        d.refuse(
            "swept::range",
            "cooler.plate_thickness",
            format!("below the drilling {:.1} mm are left for the tube of the passage", p.spigot_mm),
            "2.5 mm or more".into(),
            format!("thicken cooler.plate_thickness by {:.1} mm", 2.0 * (2.5 - p.spigot_mm)),
        );
    }
    if p.tube_length_mm - 2.0 * p.spigot_mm < 3.0 {
        d.refuse(
            "swept::range",
            "block.half_side",
            "the head plate reaches up to the cooler plate".into(),
            "3 mm or more between them".into(),
            "take a thinner block or a longer drive.con_rod_length".into(),
        );
    }
    let circle = &joints.cold;
    let hits = |count: usize| meets(p, circle, count, places.piston_y_mm);
    if hits(circle.count) {
        let free = (3..=circle.count / 2).rev().map(|half| 2 * half).find(|count| !hits(*count)).unwrap_or(6);
        d.refuse(
            "swept::range",
            "joints.hot_screws",
            format!("with {} screws a thread of the cold flange meets the passage", circle.count),
            "a number that leaves the passage free".into(),
            format!(
                "set joints.hot_screws = \"{free}\", or take a larger joints.hot_screw, of which fewer do"
            ),
        );
    }
}

/// Whether one of `count` threads of the cold flange, spread like those of the circle, meets the drilling.
fn meets(p: &Passage, circle: &BoltCircle, count: usize, drilling_y_mm: f64) -> bool {
    let pitch = 360.0 / count as f64;
    let first = circle.first_deg * circle.count as f64 / count as f64;
    (0..count).any(|i| {
        let (sin, cos) = (first + pitch * i as f64).to_radians().sin_cos();
        let y = 0.5 * circle.diameter_mm * sin;
        cos > 0.0 && (y - drilling_y_mm).abs() < 0.5 * (circle.thread.major_mm + p.drilling_mm) + 1.0
    })
}

/// Lengths of the pieces with their diameters \[mm\], from the cold space to the power cylinder.
pub fn pieces_mm(own: &RightAngle) -> [[f64; 2]; 5] {
    let (p, head) = (&own.passage, &own.head);
    let plugged = p.edge_x_mm - p.plug_depth_mm;
    let along = plugged - (p.mouth_x_mm + p.mouth_mm[0] / 2.0);
    let riser = own.plate_mm / 2.0 - p.drilling_mm / 2.0 - p.spigot_mm;
    let down = head.top_mm - p.spigot_mm + p.head_drilling_mm[1];
    let inlet = head.thickness_mm / 2.0 - p.head_drilling_mm[0] / 2.0;
    [
        p.mouth_mm,
        [p.drilling_mm, along],
        [p.tube_mm[0], p.tube_length_mm + riser],
        [p.head_drilling_mm[0], down],
        [p.tube_mm[0], inlet],
    ]
}

/// Volume of the passage \[mm³\].
pub fn volume_mm3(own: &RightAngle) -> f64 {
    pieces_mm(own).iter().map(|[diameter, length]| circle_mm2(*diameter) * length).sum()
}

/// The passage as one channel: bore of its tube, length of the whole way, three bends.
pub fn exchanger(own: &RightAngle, cold_k: f64) -> Exchanger {
    let length_m: f64 = pieces_mm(own).iter().map(|[_, length]| length / 1000.0).sum();
    let bore_m = own.passage.tube_mm[0] / 1000.0;
    let walls = Walls::Fixed { hot_k: cold_k, cold_k };
    let plain = Exchanger::tubes("transfer port", Zone::Cold, 1.0, bore_m, length_m, walls);
    Exchanger {
        volume_m3: volume_mm3(own) * 1e-9,
        velocity_heads: plain.velocity_heads + 3.0 * BEND_HEADS,
        cells: 1,
        ..plain
    }
}
