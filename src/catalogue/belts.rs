//! Toothed belts: pulley grooves, lengths on the market, and the exact length of an open drive of two pulleys.
//!
//! Equations: pitch diameter z p / π; L = 2 C cos t + π (D + d) / 2 + t (D − d) with sin t = (D − d) / 2 C (code W26 of
//! `data/sources.csv` in this exact form, derived again here).

use super::table::{Listed, UnknownEntry, find, rows};
use serde::Deserialize;
use std::f64::consts::PI;
use std::sync::OnceLock;

/// Shape of the groove between two pulley teeth. It lies symmetric to a radius.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "form")]
pub enum Groove {
    /// A bottom arc tangent to the root circle, straight flanks tangent to it, rounded tips.
    Curvilinear {
        /// Depth below the outside diameter \[mm\].
        depth_mm: f64,
        /// Radius of the bottom arc \[mm\].
        bottom_radius_mm: f64,
        /// Radius of the tips \[mm\].
        tip_radius_mm: f64,
        /// Width at the outside diameter, without the tip radii \[mm\].
        top_width_mm: f64,
        /// Angle between the flanks \[deg\].
        included_angle_deg: f64,
    },
    /// Straight flanks and a flat bottom.
    Straight {
        /// Depth below the outside diameter \[mm\].
        depth_mm: f64,
        /// Width at the bottom \[mm\].
        root_width_mm: f64,
        /// Width at the outside diameter \[mm\].
        top_width_mm: f64,
        /// Largest radius at the bottom corners \[mm\].
        root_radius_mm: f64,
        /// Radius of the tips \[mm\].
        tip_radius_mm: f64,
        /// Angle between the flanks \[deg\].
        included_angle_deg: f64,
    },
}

/// A belt section and the pulleys that go with it.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub struct BeltSection {
    /// Name of the trade, for example `3M`.
    pub name: String,
    /// Standard.
    pub standard: String,
    /// Which numbers were read, which recalled.
    pub status: String,
    /// Pitch \[mm\].
    pub pitch_mm: f64,
    /// Outside diameter of a pulley is this much less than its pitch diameter \[mm\].
    pub two_a_mm: f64,
    /// Height of a belt tooth \[mm\].
    pub tooth_height_mm: f64,
    /// Total thickness of the belt \[mm\].
    pub thickness_mm: f64,
    /// Usual widths \[mm\].
    pub widths_mm: Vec<f64>,
    /// Groove of pulleys from `few_teeth + 1` teeth on.
    pub groove: Groove,
    /// Groove of small pulleys, where it differs.
    pub few_teeth_groove: Option<Groove>,
    /// Most teeth with which the small-pulley groove is used.
    #[serde(default)]
    pub few_teeth: usize,
}

impl BeltSection {
    /// The groove of a pulley with `teeth` teeth.
    pub fn groove(&self, teeth: usize) -> &Groove {
        self.few_teeth_groove.as_ref().filter(|_| teeth <= self.few_teeth).unwrap_or(&self.groove)
    }

    /// Pitch diameter of a pulley \[mm\].
    pub fn pitch_diameter_mm(&self, teeth: usize) -> f64 {
        teeth as f64 * self.pitch_mm / PI
    }

    /// Outside diameter of a pulley \[mm\].
    pub fn outside_diameter_mm(&self, teeth: usize) -> f64 {
        self.pitch_diameter_mm(teeth) - self.two_a_mm
    }
}

/// A belt length on the market.
#[derive(Clone, Debug, PartialEq)]
pub struct BeltLength {
    /// Section, for example `3M`.
    pub section: String,
    /// Pitch length \[mm\].
    pub pitch_length_mm: f64,
    /// Teeth.
    pub teeth: usize,
    /// `both makers` when two belt makers catalogue it, `one list read` where no second list was seen.
    pub availability: String,
    /// Where it stands.
    pub from: Listed,
}

impl BeltLength {
    /// Whether every list that was read for this section has this length, or the user has it.
    pub fn common(&self) -> bool {
        self.from.is_own() || matches!(self.availability.as_str(), "both makers" | "one list read")
    }
}

#[derive(Deserialize)]
struct LengthRow {
    section: String,
    pitch_length_mm: f64,
    teeth: usize,
    availability: String,
    status: String,
    src: String,
}

impl From<LengthRow> for BeltLength {
    fn from(row: LengthRow) -> Self {
        Self {
            from: Listed::table("makers' lists", &row.status, &row.src),
            section: row.section,
            pitch_length_mm: row.pitch_length_mm,
            teeth: row.teeth,
            availability: row.availability,
        }
    }
}

/// Length of an open belt around two pulleys \[mm\], from their pitch diameters and the centre distance; `None` when
/// the pulleys' pitch circles are further apart in size than the centres allow.
pub fn belt_length_mm(diameter_a_mm: f64, diameter_b_mm: f64, centres_mm: f64) -> Option<f64> {
    let t = slope(diameter_a_mm, diameter_b_mm, centres_mm)?;
    let difference = (diameter_a_mm - diameter_b_mm).abs();
    Some(2.0 * centres_mm * t.cos() + PI * (diameter_a_mm + diameter_b_mm) / 2.0 + t * difference)
}

/// Centre distance for a belt length \[mm\]; `None` when the belt is too short for the pulleys.
pub fn centres_mm(diameter_a_mm: f64, diameter_b_mm: f64, length_mm: f64) -> Option<f64> {
    let difference = (diameter_a_mm - diameter_b_mm).abs();
    let (mut low, mut high) = (difference / 2.0, length_mm);
    let length = |centres| belt_length_mm(diameter_a_mm, diameter_b_mm, centres);
    if !length_mm.is_finite() || length(low.max(1e-9))? > length_mm || length(high)? < length_mm {
        return None;
    }
    // The length rises with the centre distance, so halving finds it; 200 steps reach the last digit.
    for _ in 0..200 {
        let middle = low.midpoint(high);
        if length(middle)? < length_mm { low = middle } else { high = middle }
    }
    Some(low.midpoint(high))
}

/// A belt around two equal pulleys and an idler on its back.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bent {
    /// Length of the belt \[mm\].
    pub length_mm: f64,
    /// Angle by which each half of that strand leaves its line, and by which each pulley is wrapped the more \[rad\].
    pub turn_rad: f64,
}

/// Belt around two equal pulleys whose one strand an idler in the middle pushes in by `depth_mm`; diameters are those of the
/// cords. Both tangents are inner ones: with s the sum of the radii, a half of the centres, y = s − depth and D² = a² + y², half
/// of the strand is √(D² − s²) long, and the turn δ follows from 90° − δ = atan(y / a) + acos(s / D); length
/// C + π d + 2 √(D² − s²) + 2 s δ (derived here). `None` where the idler does not fit between the pulleys.
pub fn bent_by_idler(pulley_mm: f64, idler_mm: f64, centres_mm: f64, depth_mm: f64) -> Option<Bent> {
    let (sum, half) = (0.5 * (pulley_mm + idler_mm), 0.5 * centres_mm);
    let high = sum - depth_mm;
    let away = half.hypot(high);
    if !(depth_mm >= 0.0 && away > sum) {
        return None;
    }
    let turn_rad = 0.5 * PI - high.atan2(half) - (sum / away).acos();
    let run = (away * away - sum * sum).sqrt();
    Some(Bent { length_mm: centres_mm + PI * pulley_mm + 2.0 * run + 2.0 * sum * turn_rad, turn_rad })
}

/// Angle that the belt wraps on the smaller pulley \[rad\].
pub fn wrap_small_rad(diameter_a_mm: f64, diameter_b_mm: f64, centres_mm: f64) -> Option<f64> {
    slope(diameter_a_mm, diameter_b_mm, centres_mm).map(|t| PI - 2.0 * t)
}

/// Teeth in mesh on the smaller pulley; makers want six or more (from memory).
pub fn teeth_in_mesh(teeth_small: usize, wrap_rad: f64) -> f64 {
    teeth_small as f64 * wrap_rad / (2.0 * PI)
}

/// Angle between the belt's straight run and the line of centres \[rad\].
fn slope(diameter_a_mm: f64, diameter_b_mm: f64, centres_mm: f64) -> Option<f64> {
    let sine = (diameter_a_mm - diameter_b_mm).abs() / (2.0 * centres_mm);
    (centres_mm > 0.0 && sine <= 1.0).then(|| sine.asin())
}

/// A belt section by its name: `3M`, `5M`, `T2.5`, `T5`, `MXL`.
///
/// # Errors
/// When there is no such section; names the nearest one.
pub fn belt_section(name: &str) -> Result<&'static BeltSection, UnknownEntry> {
    find("belt section", name, belt_sections(), |section| &section.name)
}

/// All belt sections.
pub fn belt_sections() -> &'static [BeltSection] {
    #[derive(Deserialize)]
    struct File {
        section: Vec<BeltSection>,
    }
    static SECTIONS: OnceLock<Vec<BeltSection>> = OnceLock::new();
    SECTIONS.get_or_init(|| {
        let file: File =
            toml::from_str(include_str!("data/belts.toml")).expect("an embedded table is well formed");
        file.section
    })
}

/// Lengths on the market, by section, short to long.
pub fn all_belt_lengths() -> &'static [BeltLength] {
    static LENGTHS: OnceLock<Vec<BeltLength>> = OnceLock::new();
    LENGTHS.get_or_init(|| {
        rows::<LengthRow>(include_str!("data/belt_lengths.csv")).into_iter().map(Into::into).collect()
    })
}
