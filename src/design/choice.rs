//! Choices of the design file that the program itself tells apart. Names of materials, gases and bought parts stay text;
//! the catalogue knows them.

/// Makes an enum whose variants have names in the design file.
macro_rules! choice {
    ($(#[doc = $doc:literal])+ $name:ident { $($(#[doc = $variant_doc:literal])+ $variant:ident = $text:literal,)+ }) => {
        $(#[doc = $doc])+
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub enum $name {
            $($(#[doc = $variant_doc])+ $variant,)+
        }

        impl $name {
            /// Names in the design file.
            pub const NAMES: &'static [&'static str] = &[$($text),+];

            /// Its name in the design file.
            pub fn name(self) -> &'static str {
                match self {
                    $(Self::$variant => $text,)+
                }
            }

            /// The one with this name.
            pub fn from_name(name: &str) -> Option<Self> {
                match name {
                    $($text => Some(Self::$variant),)+
                    _ => None,
                }
            }
        }
    };
}

choice! {
    /// How cylinders, cranks and belt are arranged.
    Layout {
        /// Parallel cylinders with a crank each, a toothed belt 1:1 between the cranks.
        GammaTwinCrank = "gamma-twin-crank",
        /// Cylinders at a right angle, both con rods on one crankpin.
        GammaRightAngle = "gamma-right-angle",
        /// A wide, shallow displacer for a small fall of temperature, both cylinders along one crankshaft.
        GammaFlat = "gamma-flat",
        /// Displacer and piston in one cylinder line, the displacer's rod through the piston, a regenerator around the
        /// cylinder, a crankcase under pressure.
        BetaCoaxial = "beta-coaxial",
    }
}

choice! {
    /// Model of the gas cycle.
    CycleChoice {
        /// Gas at the temperature of the walls, no losses.
        Isothermal = "isothermal",
        /// No heat transfer in the cylinders, perfect exchangers, no losses.
        Adiabatic = "adiabatic",
        /// Cells along the gas path with heat transfer, leakage and flow friction, and the drive with its friction.
        Full = "full",
    }
}

choice! {
    /// What the engine drives.
    LoadKind {
        /// The same torque at every speed.
        ConstantTorque = "constant-torque",
        /// A piston or diaphragm pump that lifts water.
        LiftPump = "lift-pump",
        /// A centrifugal pump.
        Pump = "pump",
        /// A fan.
        Fan = "fan",
        /// A permanent-magnet generator on a resistance.
        Generator = "generator",
        /// A vehicle on its wheels.
        Vehicle = "vehicle",
    }
}

choice! {
    /// Section of the toothed belt.
    BeltSection {
        /// Pitch 3 mm.
        M3 = "3M",
        /// Pitch 5 mm.
        M5 = "5M",
        /// Pitch 2.032 mm, for the lightest engines.
        Mxl = "MXL",
        /// Pitch 2.5 mm.
        T25 = "T2.5",
        /// Pitch 5 mm, straight flanks.
        T5 = "T5",
    }
}

choice! {
    /// What keeps the gas in where the displacer's rod leaves it.
    GlandKind {
        /// O-ring with the least friction.
        ReciprocatingPneumatic = "reciprocating-pneumatic",
        /// Tighter, with more friction.
        ReciprocatingGeneral = "reciprocating-general",
        /// The bush alone, without an O-ring: no friction but the bush's own, more leak.
        CloseBush = "close-bush",
    }
}

choice! {
    /// What seals the cold joints.
    ColdSeal {
        /// Gaskets of sheet, which keep heat back.
        Gasket = "gasket",
        /// O-rings in grooves: metal lies on metal.
        ORing = "o-ring",
    }
}

choice! {
    /// What seals the piston.
    PistonSeal {
        /// Split PTFE ring with a metal strip behind it.
        PtfeRing = "ptfe-ring",
        /// Split metal ring that springs by itself.
        MetalRing = "metal-ring",
        /// O-ring.
        ORing = "o-ring",
        /// Graphite ring in three pieces with a metal strip behind it.
        GraphiteRing = "graphite-ring",
        /// Close-fitting piston without a ring.
        Fitted = "fitted",
        /// Printed ring with two lips that the gas presses on the bore.
        LipRing = "lip-ring",
    }
}

choice! {
    /// What the regenerator is wound of.
    RegeneratorKind {
        /// None: the gap round the displacer gives back what it can.
        None = "none",
        /// Woven mesh.
        Mesh = "mesh",
        /// Metal wool.
        Wool = "wool",
        /// Foil with dimples.
        Foil = "foil",
    }
}

choice! {
    /// Shape of a piece of stock.
    StockShape {
        /// Round bar.
        Round = "round",
        /// Flat bar or plate.
        Flat = "flat",
        /// Square bar.
        Square = "square",
    }
}

choice! {
    /// Schema of the STEP files (ISO 10303).
    StepSchema {
        /// AP214, most widely read.
        Ap214 = "AP214",
        /// AP242.
        Ap242 = "AP242",
    }
}

choice! {
    /// Version of the DXF files.
    DxfVersion {
        /// R2000, can say its unit.
        R2000 = "R2000",
        /// R12, for old cutters.
        R12 = "R12",
    }
}

choice! {
    /// Paper of the printer, for templates at 1:1.
    TemplatePaper {
        /// 210 mm by 297 mm.
        A4 = "A4",
        /// 8.5 in by 11 in.
        Letter = "letter",
    }
}

choice! {
    /// Size of the drawing sheets (ISO 5457).
    Sheet {
        /// The smallest that holds the part at a scale of ISO 5455.
        Auto = "auto",
        /// 210 x 297 mm.
        A4 = "A4",
        /// 420 x 297 mm.
        A3 = "A3",
        /// 594 x 420 mm.
        A2 = "A2",
    }
}

choice! {
    /// Units of the lengths on drawings.
    Units {
        /// Millimetres.
        Mm = "mm",
        /// Millimetres, followed by inches in square brackets.
        MmAndInch = "mm-and-inch",
    }
}

choice! {
    /// Method of projection (ISO 5456-2).
    Projection {
        /// First angle.
        FirstAngle = "first-angle",
        /// Third angle.
        ThirdAngle = "third-angle",
    }
}
