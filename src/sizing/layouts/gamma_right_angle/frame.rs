//! Where everything stands, rod lengths, the bracket, and what must not meet.

use super::{Bracket, Passage, Places, RightAngle};
use crate::sizing::decide::{Decide, round_up};
use crate::sizing::engine::{
    Block, Clevis, Displacer, Drive, Engine, Flywheel, Joints, Piston, RodGland, ShaftEnd,
};
use crate::sizing::layouts::common::base::{Stand, bottom_mm, into_edge};
use crate::sizing::layouts::common::channels::{Hole, Room, around_rod};
use crate::sizing::layouts::common::drive::{
    CLEVIS_CLEAR_MM, COLLAR_MM, displacer_rod, piston_rod, without_belt,
};
use crate::sizing::layouts::common::joints::Between;
use crate::sizing::layouts::common::shaft_end::Standing;

/// Room around the head of a screw \[mm\].
const HEAD_ROOM_MM: f64 = 1.5;

/// Two milled faces of light metal, dry, under screws \[W/(m² K)\]; textbooks give 2000 to 12000, from memory.
const CONTACT_W_M2_K: f64 = 5000.0;

/// Room between what swings and the base, and for a hose barb below the block \[mm\]; common practice, no source.
const SWING_ROOM_MM: f64 = 3.0;
const BARB_MM: f64 = 30.0;

/// How far the back plate reaches beyond the bracket \[mm\]; common practice, no source.
pub const BACK_PLATE_BEYOND_MM: f64 = 3.0;

/// Room between flywheel and cooler plate or back plate \[mm\].
pub const WHEEL_ROOM_MM: f64 = 5.0;

/// What lies one behind the other along an axis \[mm\].
#[derive(Clone, Copy, Debug)]
pub struct Deep {
    /// Cooler plate.
    pub plate: f64,
    /// Rod guide.
    pub guide: f64,
    /// Back plate.
    pub back: f64,
    /// Gaskets.
    pub between: Between,
}

/// Both rods hang on one crankpin: their strokes are the same.
pub fn one_crankpin(d: &mut Decide, displacer: f64, piston: f64) {
    if (displacer - piston).abs() > 1e-6 {
        d.refuse(
            "swept::contradiction",
            "piston.stroke",
            format!("both rods share one crankpin, so strokes of {displacer} mm and {piston} mm cannot be"),
            format!("{displacer} mm"),
            format!("set piston.stroke to \"{displacer} mm\"; a larger or smaller piston.bore changes the swept volume"),
        );
    }
}

/// The lead is that of the cylinders; keys of a belt say nothing here.
pub fn lead(d: &mut Decide, lead: f64) {
    if (lead - 90.0).abs() > 1e-6 {
        d.refuse(
            "swept::contradiction",
            "drive.lead",
            format!("cylinders at a right angle on one crankpin have a lead of 90°, not {lead}°"),
            "90°".into(),
            "leave drive.lead out, or take the layout gamma-twin-crank".into(),
        );
    }
    if d.design.drive.crank_centres_mm.is_some() {
        d.refuse(
            "swept::contradiction",
            "drive.crank_centres",
            "drive.crank_centres is between two cranks, and this layout has one".into(),
            "no centres with both rods on one crankpin".into(),
            "leave drive.crank_centres out".into(),
        );
    }
    without_belt(d, "no belt with both rods on one crankpin");
}

/// Places along both axes; sets the height of the crank axis.
pub fn places(d: &mut Decide, deep: &Deep, block: &Block, drive: &mut Drive, clevis: &Clevis) -> Places {
    let line = ["clevis.height", "drive.con_rod_length", "drive.piston_throw"];
    let above_pin = clevis.size_mm[2] - clevis.pin_z_mm;
    let long = CLEVIS_CLEAR_MM + above_pin + drive.con_rod_mm + drive.piston.throw_mm;
    drive.crank_z_mm = d.rule(
        "drive.crank_height",
        -(deep.plate + deep.guide + long),
        "below cooler plate and rod guide by the thread above the clevis (6 mm) and 1 mm, clevis, con rod and throw",
        &[&line[..], &["cooler.plate_thickness", "guide.length"]].concat(),
    );
    let piston_y_mm = d.rule(
        "drive.rod_offset",
        drive.con_rod_thickness_mm + drive.side_gap_mm,
        "con rod + 0.5 mm: both rods side by side on the pin",
        &["drive.con_rod_thickness"],
    );
    let back_x_mm = d.rule(
        "stack.back_plate_x",
        long,
        "beyond throw, con rod, clevis and the thread above it (6 mm) by 1 mm",
        &line,
    );
    let block_x_mm = back_x_mm + deep.back + deep.between.jacket_mm;
    let head_x_mm = d.rule(
        "stack.head_plate_x",
        block_x_mm + block.length_mm + deep.between.cold_mm,
        "beyond back plate, gasket, block and gasket",
        &["stack.back_plate_x", "back.thickness", "joints.gasket_thickness", "block.length"],
    );
    Places { piston_y_mm, back_x_mm, block_x_mm, head_x_mm }
}

/// Rod lengths that follow from the places \[mm\].
pub fn rods(
    d: &mut Decide,
    drive: &Drive,
    clevis: &Clevis,
    places: &Places,
    displacer: &mut Displacer,
    piston: &mut Piston,
) {
    displacer.rod_length_mm = displacer_rod(d, drive, clevis, displacer);
    let of_head: (&str, &[&str]) = ("stack.head_plate_x", &[]);
    piston.rod_length_mm = piston_rod(d, drive, clevis, piston, places.head_x_mm, of_head);
}

/// Screw that goes through `through` \[mm\] under its head and bites two diameters.
fn screw(d: &mut Decide, path: &str, drive: &Drive, through: f64, inputs: &[&str]) -> f64 {
    let needed = through + 2.0 * drive.bracket_screw.major_mm;
    let found = d.design.catalogue.cap_screw_at_least(drive.bracket_screw, needed);
    let length = found.unwrap_or_else(|| round_up(needed, 10.0));
    d.rule(path, length, ("next standard length (ISO 4762) over grip + 2 diameters", "from memory"), inputs)
}

/// The bracket; `flange` \[mm\] is the cold flange's diameter, beside which its screws stand.
pub fn bracket(
    d: &mut Decide,
    drive: &Drive,
    places: &Places,
    block: &Block,
    deep: &Deep,
    flange: f64,
) -> Bracket {
    let t = drive.bracket_screw;
    let front_y_mm = d.rule(
        "bracket.front",
        places.piston_y_mm + drive.con_rod_thickness_mm / 2.0 + drive.side_gap_mm + drive.web_mm + COLLAR_MM,
        "behind the piston's con rod, web and collar",
        &["drive.rod_offset", "drive.con_rod_thickness", "drive.crankpin_bearing"],
    );
    let row_mm = d.rule(
        "bracket.screw_row",
        drive.bracket_mm / 4.0,
        ("a quarter of the bracket on either side of its middle", "edge rule, common practice, no source"),
        &["drive.bracket_thickness"],
    );
    let y = front_y_mm + drive.bracket_mm / 2.0 - row_mm;
    let clear = flange / 2.0 + t.head_knurled_mm / 2.0 + HEAD_ROOM_MM;
    let beside = (clear * clear - y * y).max(0.0).sqrt().max(drive.bracket_edge_mm);
    let plate_screw_x_mm = d.rule(
        "bracket.plate_screw_place",
        round_up(beside, 0.5),
        ("head clear of the cold flange by 1.5 mm, to the next 0.5 mm", "common practice, no source"),
        &["cold_end.flange_diameter", "bracket.front", "bracket.screw_row"],
    );
    let edge = 1.5 * t.major_mm + 1.0;
    let left_x_mm = d.rule(
        "bracket.left",
        -(plate_screw_x_mm + edge),
        ("screw + 1.5 diameters + 1 mm", "edge rule, common practice, no source"),
        &["bracket.plate_screw_place"],
    );
    let back_screw_z_mm = d.rule(
        "bracket.back_screw_place",
        round_up(block.half_mm + t.head_knurled_mm / 2.0 + HEAD_ROOM_MM, 0.5),
        ("head clear of the block by 1.5 mm, to the next 0.5 mm", "common practice, no source"),
        &["block.half_side"],
    );
    let low_mm = d.rule(
        "bracket.low",
        (back_screw_z_mm + edge).max(drive.bracket_edge_mm),
        ("screw + 1.5 diameters + 1 mm", "edge rule, common practice, no source"),
        &["bracket.back_screw_place", "drive.bracket_edge"],
    );
    let swing = drive.piston.throw_mm + drive.web_r_mm[1].max(drive.eye_r_mm[0]);
    let bottom_mm = d.rule(
        "bracket.bottom",
        round_up(low_mm.max(swing + SWING_ROOM_MM).max(block.half_mm + BARB_MM), 1.0),
        ("back plate, swing of crank and con rod with 3 mm and the block's lower hose above the base, to the next mm", "common practice, no source"),
        &["bracket.low", "drive.piston_throw", "block.half_side"],
    );
    let arm_mm = d.rule(
        "bracket.arm",
        round_up(2.0 * t.major_mm + 3.0 * t.pitch_mm + 2.0 * t.major_mm, 1.0),
        ("thread + drill's way out + two diameters", "common practice, no source"),
        &[],
    );
    let screw_mm = [
        screw(d, "bracket.plate_screw_length", drive, deep.plate, &["cooler.plate_thickness"]),
        screw(d, "bracket.back_screw_length", drive, deep.back, &["back.thickness"]),
    ];
    Bracket {
        front_y_mm,
        left_x_mm,
        arm_mm,
        low_mm,
        bottom_mm,
        plate_screw_x_mm,
        back_screw_z_mm,
        row_mm,
        screw_mm,
    }
}

/// Corners of the cooler plate (lower left, upper right) in X and Y \[mm\]: over flange, bracket and passage.
pub fn plate_corners(
    d: &mut Decide,
    drive: &Drive,
    bracket: &Bracket,
    flange: f64,
    edge_x: f64,
) -> [[f64; 2]; 2] {
    let half = flange / 2.0;
    let left = half.max(-bracket.left_x_mm);
    let back = half.max(bracket.front_y_mm + drive.bracket_mm);
    d.rule(
        "cooler.plate_length",
        left + edge_x,
        "from the bracket's left end, or the cold flange, to the end of the passage",
        &["bracket.left", "cold_end.flange_diameter", "passage.edge_x"],
    );
    d.rule(
        "cooler.plate_width",
        half + back,
        "over the cold flange and the bracket",
        &["cold_end.flange_diameter", "bracket.front", "drive.bracket_thickness"],
    );
    [[-left, -half], [edge_x, back]]
}

/// Room for water channels along Y: beside rod and gland, screws of cold flange and bracket, and the passage, whose drilling
/// goes from its mouth to the edge.
pub fn channel_room(
    [low, high]: &[[f64; 2]; 2],
    plate: f64,
    passage: &Passage,
    bracket: &Bracket,
    drive: &Drive,
    gland: &RodGland,
    joints: &Joints,
) -> Room {
    let mut holes = around_rod(gland, &joints.cold, 0.0);
    let half_mm = drive.bracket_screw.clearance_medium_mm / 2.0;
    holes.extend([-1.0, 1.0].map(|side| Hole { at_mm: side * bracket.plate_screw_x_mm, half_mm }));
    let mouth = passage.mouth_x_mm - passage.mouth_mm[0] / 2.0;
    let half = 0.5 * (high[0] - mouth);
    holes.push(Hole { at_mm: mouth + half, half_mm: half });
    Room { thickness_mm: plate, along_mm: [low[0], high[0]], ends_mm: [low[1], high[1]], holes }
}

/// Height, width and depth over all \[mm\]: hot cap to the lower end of bracket or crank, along and across the cooler
/// plate or what reaches beyond it.
pub fn sides_mm(e: &Engine, own: &RightAngle) -> [f64; 3] {
    let (d, [low, high]) = (&e.drive, own.plate_corners_mm);
    let top = e.stack.cap_low_mm + e.hot_cap.depth_mm + e.hot_cap.end_mm;
    let crank = d.piston.throw_mm + d.web_r_mm[1].max(d.eye_r_mm[0]);
    let (behind, wheel) = (e.shaft_end.end_mm, e.flywheel.diameter_mm / 2.0);
    let front = (-low[1]).max(own.block.half_mm - own.places.piston_y_mm);
    let [left, right, bottom] =
        e.base.as_ref().map_or([0.0; 3], |b| [b.low_mm[0], b.high_mm[0], bottom_mm(b)]);
    [
        (top - d.crank_z_mm + own.bracket.bottom_mm.max(crank).max(wheel)).max(top - bottom),
        high[0].max(wheel).max(right) - low[0].min(-wheel).min(left),
        front + high[1].max(behind),
    ]
}

/// How the bracket stands on its base, which reaches below the half of the block.
pub fn stand(
    d: &Drive,
    end: &ShaftEnd,
    wheel: &Flywheel,
    bracket: &Bracket,
    places: &Places,
    [flange, block]: [f64; 2],
) -> Stand {
    let t = d.bracket_screw;
    // the back plate's screws lie across the right end of the edge
    let beside = bracket.screw_mm[1] + 4.0 * t.pitch_mm + t.major_mm;
    let edge_y_mm = [bracket.front_y_mm, bracket.front_y_mm + d.bracket_mm];
    let (screw, screws_mm) =
        into_edge(edge_y_mm, [2.0 * t.major_mm - d.bracket_edge_mm, places.back_x_mm - beside]);
    Stand {
        edge_x_mm: [-d.bracket_edge_mm, places.back_x_mm + 0.5 * block],
        edge_y_mm,
        edge_z_mm: d.crank_z_mm - bracket.bottom_mm,
        deep_mm: bracket.bottom_mm - d.journal_bearing.outer_mm / 2.0 - 1.0,
        screw,
        screws_mm,
        covers: ["cold flange", "cold_end.flange_diameter"],
        front_mm: -flange / 2.0,
        wheel_y_mm: end.wheel_mm,
        wheel_low_mm: d.crank_z_mm - wheel.diameter_mm / 2.0,
    }
}

/// What stands beside the crankshaft: cooler plate, cold flange, back plate and block. `flange` is the diameter of the cold
/// flange, `rear` the y of the bracket's rear face \[mm\].
pub fn standing(
    drive: &Drive,
    places: &Places,
    deep: &Deep,
    block: &Block,
    plate: &[[f64; 2]; 2],
    [flange, rear]: [f64; 2],
) -> [Standing; 4] {
    let block_reach = places.piston_y_mm + block.half_mm;
    [
        Standing { far_mm: -drive.crank_z_mm - deep.plate, reach_mm: plate[1][1] },
        Standing { far_mm: -drive.crank_z_mm, reach_mm: flange / 2.0 },
        Standing { far_mm: places.back_x_mm, reach_mm: block_reach.max(rear + BACK_PLATE_BEYOND_MM) },
        Standing { far_mm: places.block_x_mm, reach_mm: block_reach },
    ]
}

/// Heat for each kelvin through the bracket, from the cooler plate down to the crank's height \[W/K\]: Fourier's law in
/// its upright, and the dry faces at both ends of it.
pub fn bracket_w_k(e: &Engine, own: &RightAngle) -> f64 {
    let (b, d) = (&own.bracket, &e.drive);
    let metal_w_m_k = e.metal(&own.block.material).conductivity_w_m_k(60.0);
    let high_mm = -d.crank_z_mm - own.plate_mm;
    let upright_mm2 = (own.places.back_x_mm + d.bracket_edge_mm) * d.bracket_mm;
    let through = 1e-3 * metal_w_m_k * upright_mm2 / high_mm;
    let faces_mm2 = [own.places.back_x_mm - b.left_x_mm, 2.0 * b.low_mm].map(|long| long * d.bracket_mm);
    let faces_k_w: f64 = faces_mm2.iter().map(|mm2| 1.0 / (1e-6 * mm2 * CONTACT_W_M2_K)).sum();
    1.0 / (1.0 / through + faces_k_w)
}

/// What must not meet.
pub fn check(
    d: &mut Decide,
    drive: &Drive,
    clevis: &Clevis,
    gland: &RodGland,
    bracket: &Bracket,
    places: &Places,
    deep: &Deep,
) {
    let front = bracket.front_y_mm - places.piston_y_mm;
    if clevis.size_mm[1] / 2.0 + 0.5 > front {
        d.refuse(
            "swept::range",
            "drive.small_end_bearing",
            format!(
                "the clevis is {:.1} mm wide and meets the crank bracket at {front:.1} mm from its middle",
                clevis.size_mm[1]
            ),
            format!("a clevis up to {:.1} mm wide", 2.0 * front - 1.0),
            "take a smaller small-end bearing or a larger crankpin bearing".into(),
        );
    }
    if gland.cap_mm[0] / 2.0 + 0.5 > bracket.front_y_mm {
        d.refuse(
            "swept::range",
            "drive.crankpin_bearing",
            format!(
                "the rod guide's flange reaches {:.1} mm from its axis and meets the bracket at {:.1} mm",
                gland.cap_mm[0] / 2.0,
                bracket.front_y_mm
            ),
            format!("{:.1} mm or more", gland.cap_mm[0] / 2.0 + 0.5),
            "take a larger crankpin bearing or a thinner displacer.rod_diameter".into(),
        );
    }
    let edge = 1.5 * drive.bracket_screw.major_mm + 1.0;
    if bracket.plate_screw_x_mm + edge > places.back_x_mm {
        d.refuse(
            "swept::range",
            "displacer.bore",
            format!(
                "the cold flange is so wide that the bracket's screws stand beyond the back plate at {:.1} mm",
                places.back_x_mm
            ),
            format!("screws up to {:.1} mm from the axis", places.back_x_mm - edge),
            "take a smaller displacer.bore or a longer drive.con_rod_length".into(),
        );
    }
    let room = -drive.crank_z_mm - deep.plate - 1.0;
    if bracket.low_mm > room {
        d.refuse(
            "swept::range",
            "piston.bore",
            format!(
                "the back plate reaches {:.1} mm above the crank axis, into the cooler plate",
                bracket.low_mm
            ),
            format!("{room:.1} mm at the most"),
            "take a smaller piston.bore, thinner walls of the block or a longer drive.con_rod_length".into(),
        );
    }
    let least = gland.groove_mm[1] + gland.bush_length_mm + 2.0;
    if deep.plate < least {
        d.refuse(
            "swept::range",
            "cooler.plate_thickness",
            format!("a cooler plate of {} mm has no room for rod gland and bush", deep.plate),
            format!("{least:.1} mm or more"),
            format!("set cooler.plate_thickness to \"{} mm\"", round_up(least, 1.0)),
        );
    }
}
