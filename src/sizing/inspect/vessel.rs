//! What holds the gas: hot cap from inside and outside, displacer shell.

use super::case::Case;
use super::metal::{LASTING, lasting_pa, youngs_pa};
use crate::sizing::check::Check;
use crate::sizing::dimension::Unit;
use crate::sizing::strength::{cylinder, flat_end};

/// Pressure that breaks a wall in over the pressure that acts: wanted, and least. Tubes are never quite round (common
/// practice, no source).
const COLLAPSE: [f64; 2] = [3.0, 2.0];

/// All checks of the vessels.
pub fn checks(case: &Case<'_>) -> Vec<Check> {
    let cap = &case.engine.hot_cap;
    let allowed = lasting_pa(case.book(), &cap.material, case.hot_c);
    let hot = |name: &str, what: &str, stress: f64, path: &str| {
        Check::at_most(name, what, stress, Unit::Pascal, allowed, allowed)
            .at(path)
            .of(&["hot-cap"])
            .hint("a thicker wall, a lower hot_end.temperature, or a better hot_end.material")
    };
    let hoop = cylinder::hoop_pa(case.over_air_pa, cap.bore_mm, cap.wall_mm);
    let end = flat_end::bending_pa(case.over_air_pa.max(case.under_air_pa), cap.bore_mm, cap.end_mm);
    let collapse = cylinder::collapse_pa(
        youngs_pa(case.book(), &cap.material, case.hot_c),
        cap.bore_mm + 2.0 * cap.wall_mm,
        cap.wall_mm,
        cap.depth_mm,
    );
    vec![
        hot(
            "hot-cap-hoop-stress",
            "hoop stress in the hot cap's wall at the hot temperature",
            hoop,
            "hot_end.wall",
        )
        .source(&format!("Lamé, 1833; {LASTING}")),
        hot(
            "hot-cap-end-stress",
            "bending of the hot cap's flat end at the hot temperature",
            end,
            "hot_end.end_thickness",
        )
        .source(&format!("Timoshenko and Woinowsky-Krieger, 1959, art. 16; {LASTING}")),
        ratio(
            "hot-cap-collapse",
            "pressure that breaks the hot cap in over the least pressure inside",
            collapse / case.under_air_pa.max(1.0),
        )
        .at("hot_end.wall")
        .of(&["hot-cap"]),
        shell(case),
    ]
}

/// A thin shell sealed at mean pressure, squeezed by the greatest.
fn shell(case: &Case<'_>) -> Check {
    let d = &case.engine.displacer;
    let mean_c = 0.5 * (case.hot_c + case.cold_c);
    let stiff = youngs_pa(case.book(), &d.material, mean_c);
    let bears = cylinder::collapse_pa(stiff, d.diameter_mm, d.shell_wall_mm, d.length_mm - d.base_mm);
    let path = if d.bought_can { "displacer.can_wall" } else { "displacer.shell_wall" };
    let part = if d.bought_can { "displacer-can" } else { "displacer-shell" };
    ratio(
        "displacer-shell-collapse",
        "pressure that breaks the displacer's shell in over the gas's greatest over its mean",
        bears / case.swing_pa.max(1.0),
    )
    .at(path)
    .of(&[part])
}

fn ratio(name: &str, what: &str, value: f64) -> Check {
    Check::at_least(name, what, value.min(1e4), Unit::Ratio, COLLAPSE[0], COLLAPSE[1])
        .source("Windenburg and Trilling, 1934; factors common practice, no source")
        .hint("a thicker wall, or a lower charge pressure")
}
