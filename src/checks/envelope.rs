//! The engine over all against the space that the design allows.

use crate::design::{Design, Setting};
use crate::diagnostic::Diagnostic;
use crate::parts::over_all_mm;
use crate::sizing::engine::Engine;
use crate::sizing::layouts::sides_mm;
use crate::sizing::search::report::differs_mm;

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
    let mut found: Vec<Diagnostic> = limits.iter().enumerate().filter_map(over).collect();
    found.extend(differs_mm(sides_mm(e), sides).map(|by| {
        Diagnostic::warning(
            "swept::envelope",
            format!("a search would take this engine for up to {by:.1} mm more or less than it is drawn"),
        )
        .hint("please report it; keep that much in hand under [limits]")
    }));
    found
}
