//! What the forces in a drive depend on: a plain value, free of any engine.

use super::SliderCrank;
use crate::sizing::losses::ball_bearing::RollingBearing;
use crate::sizing::losses::belt::BeltDrive;
use crate::sizing::losses::bush::Bush;
use crate::sizing::losses::gland::RodRing;
use crate::sizing::losses::linear_bearing::LinearBearing;
use crate::sizing::losses::ring::Rings;
use crate::sizing::losses::shaft_seal::ShaftSeal;
use crate::sizing::losses::windage::Disc;

/// What a rod slides in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Guide {
    /// Plain bush, or the piston's own skirt or rings on the bore.
    Bush(Bush),
    /// Linear ball bushing.
    Ball(LinearBearing),
}

impl Guide {
    /// Friction coefficient.
    pub fn friction(&self) -> f64 {
        match self {
            Guide::Bush(bush) => bush.friction,
            Guide::Ball(ball) => ball.friction,
        }
    }

    /// Friction without load \[N\].
    pub fn drag_n(&self) -> f64 {
        match self {
            Guide::Bush(_) => 0.0,
            Guide::Ball(ball) => ball.seal_n,
        }
    }
}

/// What the two guides of a slider sit in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Riding {
    /// Both stand still.
    Still,
    /// The upper one moves with the slider (a piston in its bore), so that the span shrinks.
    UpperMoves,
    /// Both move with the slider: a piston guided by its skirt.
    OnSlider,
    /// Both sit in the other slider: a displacer's rod that runs through the piston.
    OnOther {
        /// How far below the other's lower guide the small end hangs, both at their top dead centres \[mm\].
        below_mm: f64,
    },
}

/// Two guides of a straight rod with the small end hanging below them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Guides {
    /// The guide nearer to the crank.
    pub lower: Guide,
    /// The guide farther from the crank.
    pub upper: Guide,
    /// Distance from the lower guide down to the small end at top dead centre \[mm\]; where the guide stays behind it
    /// grows with the displacement.
    pub overhang_mm: f64,
    /// Distance between the guides at top dead centre \[mm\].
    pub span_mm: f64,
    /// What they sit in.
    pub riding: Riding,
}

impl Guides {
    /// Overhang over span at a displacement of this slider and of the other one \[mm\].
    pub fn lever(&self, displacement_mm: f64, other_mm: f64) -> f64 {
        let hangs = self.overhang_mm + displacement_mm;
        match self.riding {
            Riding::Still => hangs / self.span_mm,
            Riding::UpperMoves => hangs / (self.span_mm - displacement_mm),
            Riding::OnSlider => self.overhang_mm / self.span_mm,
            Riding::OnOther { .. } => (hangs - other_mm) / self.span_mm,
        }
    }
}

/// Seals that rub on piston or rod.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Seals {
    /// Rings of a piston.
    pub rings: Option<Rings>,
    /// O-ring on a rod.
    pub gland: Option<RodRing>,
}

/// Bearings of one crank, overhung: near and far bearing of the same kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Journals {
    /// Each of the two bearings.
    pub bearing: RollingBearing,
    /// From the middle of the crankpin to the near bearing \[mm\].
    pub overhang_mm: f64,
    /// Between the bearings \[mm\].
    pub span_mm: f64,
    /// Weight of flywheel, pulley and crank that they carry \[N\]; added as it is, to the safe side.
    pub steady_n: f64,
    /// Whether another line turns the same bearings, so that their drag is counted there and only the load here.
    pub drag_counted: bool,
}

/// Piston or displacer with all that hangs on it down to its crank. Forces count positive away from the
/// cylinder head, towards the crank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// Crank, con rod and offset.
    pub crank: SliderCrank,
    /// Area on which the gas pressure over that of the buffer presses \[mm²\]: crown of a piston, rod of a
    /// displacer.
    pub pressed_mm2: f64,
    /// Area on which the pressure difference hot less cold presses \[mm²\]: a displacer's; 0 for a piston.
    pub drop_mm2: f64,
    /// Mass that moves with the slider, without the con rod \[kg\].
    pub slider_kg: f64,
    /// Con rods side by side that share the force.
    pub abreast: f64,
    /// All its con rods \[kg\].
    pub con_rod_kg: f64,
    /// Share of the con rod that goes round with the crankpin, 0..1; the rest goes to and fro.
    pub con_rod_big_end: f64,
    /// Share of gravity that pulls towards the crank: 1 with the cylinder above it, 0 lying, −1 below.
    pub gravity: f64,
    /// Seals.
    pub seals: Seals,
    /// Guides.
    pub guides: Guides,
    /// Bearing at the small end.
    pub small_end: RollingBearing,
    /// Bearing on the crankpin.
    pub crankpin: RollingBearing,
    /// Bearings of the crank.
    pub journals: Journals,
}

impl Line {
    /// Mass that goes to and fro \[kg\].
    pub fn reciprocating_kg(&self) -> f64 {
        self.slider_kg + (1.0 - self.con_rod_big_end) * self.con_rod_kg
    }
}

/// The whole drive: piston and displacer, each on its crank, both cranks at the same speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mechanism {
    /// Power piston; flywheel and load sit on its crank.
    pub piston: Line,
    /// Displacer.
    pub displacer: Line,
    /// Angle by which the displacer is ahead \[deg\].
    pub lead_deg: f64,
    /// Belt between both cranks; `None` where they share a shaft.
    pub belt: Option<BeltDrive>,
    /// Seal of the shaft where the space behind the piston is closed.
    pub shaft_seal: Option<ShaftSeal>,
    /// Inertia of all that turns: flywheel, webs, pulleys \[kg m²\].
    pub turning_kg_m2: f64,
    /// Discs that churn air.
    pub discs: [Disc; 2],
}
