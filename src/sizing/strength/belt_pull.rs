//! Toothed belt: what its strands carry and how many teeth share it.
//!
//! Effective pull F = T / r; with the tension S set at rest the tight strand carries S + F/2, the slack one S − F/2
//! (equal strands stretch equally; any text on belts). The slack strand must not go slack, or the belt jumps teeth. At
//! least six teeth should mesh; with fewer each missing one takes a fifth off what the belt may pull (makers' practice,
//! from memory).

/// Working tension that makers allow \[N for each mm of width\]: 64 lbf an inch for 3M, 102 lbf an inch for 5M, 32 for
/// MXL, 41 for the 5 mm trapezoidal section (a stock drive maker's handbook, from memory); T2.5 as MXL. `None` for an
/// unknown section.
pub fn allowed_n_mm(section: &str) -> Option<f64> {
    let lbf_inch = match section {
        "3M" => 64.0,
        "5M" => 102.0,
        "MXL" | "T2.5" => 32.0,
        "T5" => 41.0,
        _ => return None,
    };
    Some(lbf_inch * 4.448_222 / 25.4)
}

/// Share of the allowed tension that is left with `teeth` in mesh.
pub fn mesh_factor(teeth: f64) -> f64 {
    (1.0 - 0.2 * (6.0 - teeth.floor()).max(0.0)).max(0.0)
}

/// Tension of the tight and of the slack strand \[N\] at the effective pull `pull_n`.
pub fn strands_n(rest_n: f64, pull_n: f64) -> [f64; 2] {
    [rest_n + 0.5 * pull_n.abs(), rest_n - 0.5 * pull_n.abs()]
}

#[cfg(test)]
mod tests {
    use super::super::close;
    use super::*;

    /// The factors that makers print for 6, 5, 4, 3 and 2 teeth in mesh: 1.0, 0.8, 0.6, 0.4, 0.2 (from memory).
    #[test]
    fn teeth_in_mesh_count_as_printed() {
        for (teeth, factor) in
            [(8.5, 1.0), (6.0, 1.0), (5.9, 0.8), (4.0, 0.6), (3.0, 0.4), (2.0, 0.2), (1.0, 0.0)]
        {
            assert!((mesh_factor(teeth) - factor).abs() < 1e-12, "{teeth}");
        }
    }

    #[test]
    fn both_strands_together_keep_the_tension_at_rest() {
        let [tight, slack] = strands_n(20.0, 12.0);
        assert_eq!((tight, slack, tight - slack), (26.0, 14.0, 12.0));
        close(allowed_n_mm("3M").unwrap(), 11.2, 2e-3);
        assert!(allowed_n_mm("V").is_none());
    }
}
