//! The engine over all against the space that the design allows.

use crate::design::{Design, Setting};
use crate::diagnostic::Diagnostic;
use crate::parts::layout;
use crate::sizing::engine::Engine;

/// Height, width and depth over all \[mm\], from the largest standing parts and the reach of the cranks.
pub fn over_all_mm(e: &Engine) -> [f64; 3] {
    let bearing = layout::bracket_edge_mm(e);
    let web = e.drive.web_r_mm[1];
    let reach = |throw: f64| (throw + web).max(throw + e.drive.eye_r_mm[0]).max(bearing);
    let low = e.drive.crank_z_mm - reach(e.drive.displacer.throw_mm).max(reach(e.drive.piston.throw_mm));
    let high = e.stack.cap_low_mm + e.hot_cap.depth_mm + e.hot_cap.end_mm;
    let flange = e.cold.flange_diameter_mm / 2.0;
    let left = flange.max(-e.back.x_low_mm).max(reach(e.drive.displacer.throw_mm));
    let right = (e.drive.centres_mm + e.block.half_mm.max(reach(e.drive.piston.throw_mm))).max(flange);
    let front = flange.max(e.block.half_mm);
    let b = &e.drive.belt;
    let back = layout::pulley_y(e) + 2.0 * (b.hub_mm[1] + b.flange_mm[0]) + b.face_mm;
    [high - low, left + right, front + front.max(back)]
}

/// Warnings where the engine does not fit.
pub fn check(design: &Design, e: &Engine) -> Vec<Diagnostic> {
    let l = &design.limits;
    let sides = over_all_mm(e);
    let limits: [(&str, &Option<Setting<f64>>); 3] =
        [("height", &l.height_mm), ("width", &l.width_mm), ("depth", &l.depth_mm)];
    let over = |(i, (name, limit)): (usize, &(&str, &Option<Setting<f64>>))| {
        let limit = limit.as_ref()?;
        let path = format!("limits.{name}");
        let said = Diagnostic::warning(
            "swept::envelope",
            format!(
                "the engine is {:.0} mm over its {name}, more than the {:.0} mm that the design allows",
                sides[i], limit.value
            ),
        )
        .hint("shorten strokes, con rods or the hot cap, or take smaller bores");
        (sides[i] > limit.value).then(|| design.at(&path, said))
    };
    limits.iter().enumerate().filter_map(over).collect()
}
