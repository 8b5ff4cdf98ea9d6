//! Rod gland and rod bush.

use crate::catalogue::bushes::Bush;
use crate::catalogue::orings::{Application, gland};
use crate::catalogue::threads::thread;
use crate::design::GlandKind;
use crate::sizing::decide::{Decide, round_up};
use crate::sizing::engine::{BoltCircle, RodGland};

/// Bush for a rod; an unknown size is refused and the nearest used to go on.
pub fn rod_bush(d: &mut Decide, rod: f64) -> Bush {
    let book = &d.design.catalogue;
    d.look_up("displacer.rod_diameter", book.bush(rod)).unwrap_or(&book.bushes[3]).clone()
}

/// Longest bush up to `room` \[mm\].
pub fn bush_length(bush: &Bush, room: f64) -> f64 {
    let shortest = bush.lengths_mm.first().copied().unwrap_or(6.0);
    bush.lengths_mm.iter().copied().filter(|l| *l <= room + 1e-9).fold(shortest, f64::max)
}

/// The gland but for its bush: groove (diameter, width), cap (diameter, thickness) and its screws \[mm\].
pub struct Recess {
    /// Groove diameter and width \[mm\].
    pub groove: [f64; 2],
    /// Designation of the O-ring, where there is one.
    pub oring: Option<String>,
    /// Cap diameter and thickness \[mm\].
    pub cap: [f64; 2],
    /// Screws of the cap.
    pub screws: BoltCircle,
}

/// Groove of the rod's O-ring (diameter, width \[mm\]) and its designation; where the bush alone seals, no groove.
pub fn groove(d: &mut Decide, rod: f64) -> Option<([f64; 2], Option<String>)> {
    let design = d.design;
    let Some(application) = application(d) else {
        let formula = ("rod + 0.3 mm: the bush alone seals", "common practice, no source");
        let free = d.rule("cooler.gland_diameter", rod + 0.3, formula, &["displacer.rod_diameter"]);
        return Some(([free, 0.0], None));
    };
    let section = d.mm("seals.rod_ring_section", &design.seals.rod_ring_section_mm);
    let sizes = d.look_up("seals.rod_ring_section", gland(section, application))?;
    let groove = d.rule(
        "cooler.gland_diameter",
        rod + 2.0 * sizes.depth_mm(),
        ("rod + 2 gland depth", "ISO 3601-2"),
        &["displacer.rod_diameter", "seals.rod_ring_section"],
    );
    let width =
        d.standard("cooler.gland_width", sizes.width_mm, "ISO 3601-2", "groove width of a moving seal");
    Some(([groove, width], Some(ring(d, section, rod))))
}

/// What the design wants of moving O-rings; `None` where a close bush takes the place of the rod's.
pub fn application(d: &Decide) -> Option<Application> {
    match d.design.seals.gland.value {
        GlandKind::ReciprocatingGeneral => Some(Application::ReciprocatingGeneral),
        GlandKind::ReciprocatingPneumatic => Some(Application::ReciprocatingPneumatic),
        GlandKind::CloseBush => None,
    }
}

/// Designation of an O-ring of a section for a rod or shaft \[mm\].
pub fn ring(d: &Decide, section: f64, rod: f64) -> String {
    let found = d.design.catalogue.ring_nearest(section, 0.97 * rod);
    found.map_or_else(|_| format!("{rod} x {section}"), |r| r.designation.clone())
}

/// Rod gland: an O-ring in a recess of the plate's lower face, held by a cap, its screws around a sleeve of diameter
/// `sleeve` \[mm\] (0 for a plain cap).
pub fn recess(d: &mut Decide, rod: f64, sleeve: f64) -> Option<Recess> {
    let ([groove, width], oring) = groove(d, rod)?;
    let screw = thread("M3").ok()?;
    let beside_groove = groove + screw.clearance_medium_mm + 3.0;
    let beside_sleeve = sleeve + screw.head_knurled_mm + 1.0;
    let circle = if sleeve > 0.0 {
        d.rule(
            "cooler.gland_circle",
            round_up(beside_groove.max(beside_sleeve), 0.5),
            (
                "groove + hole + 3 mm, at least sleeve + head + 1 mm, to the next 0.5 mm",
                "common practice, no source",
            ),
            &["cooler.gland_diameter", "guide.sleeve_diameter"],
        )
    } else {
        d.rule(
            "cooler.gland_circle",
            round_up(beside_groove, 0.5),
            ("groove + hole + 3 mm, to the next 0.5 mm", "common practice, no source"),
            &["cooler.gland_diameter"],
        )
    };
    let cap = d.rule(
        "cooler.gland_cap_diameter",
        circle + 2.2 * screw.major_mm,
        ("circle + 2.2 screw diameters", "common practice, no source"),
        &["cooler.gland_circle"],
    );
    let thickness = 4.0;
    let screws = BoltCircle { thread: screw, diameter_mm: circle, count: 3, first_deg: 90.0, screw_mm: 10.0 };
    Some(Recess { groove: [groove, width], oring, cap: [cap, thickness], screws })
}

impl Recess {
    /// The whole gland, with the bush in a plate of `plate` \[mm\].
    pub fn with_bush(self, d: &mut Decide, rod: f64, plate: f64) -> RodGland {
        let bush = rod_bush(d, rod);
        let (room, what) = if self.oring.is_some() {
            (plate / 2.0, "longest up to half the plate")
        } else {
            (plate - 2.0, "longest inside the plate")
        };
        let bush_mm = bush_length(&bush, room);
        d.listed("cooler.bush_length", bush_mm, &bush.from, "ISO 3547-1", what);
        RodGland {
            bush,
            bush_length_mm: bush_mm,
            groove_mm: self.groove,
            oring: self.oring,
            cap_mm: self.cap,
            screws: self.screws,
        }
    }
}
