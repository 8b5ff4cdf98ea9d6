//! Pens: kinds of line after ISO 128-2, group 0.5 (wide 0.5 mm, narrow 0.25 mm).

/// Wide line \[mm\] (ISO 128-2, group 0.5).
pub const WIDE: f64 = 0.5;
/// Narrow line \[mm\] (ISO 128-2, group 0.5).
pub const NARROW: f64 = 0.25;

/// What a line means; it decides width and dashes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Pen {
    /// 01.1 hatching.
    Hatch,
    /// 01.1 root of a thread.
    Thread,
    /// 02.1 hidden edge.
    Hidden,
    /// 04.1 centre line, pitch circle.
    Centre,
    /// 01.2 visible edge.
    Visible,
    /// 04.2 end of a cutting line.
    Cut,
    /// 01.1 extension line.
    Extension,
    /// 01.1 dimension line.
    Dimension,
    /// 01.1 leader.
    Leader,
    /// Frame of a geometrical tolerance, symbol of a datum: as wide as the lettering, 0.35 mm (ISO 7083, from memory).
    Control,
    /// Ruling of tables, title block and notes.
    Rule,
    /// Outline of tables, title block and cautions.
    Box,
    /// Frame of the sheet and centring marks, 0.7 mm (ISO 5457).
    Frame,
    /// Grid of the sheet, 0.35 mm (ISO 5457).
    Grid,
    /// Ruling of a chart, 0.13 mm.
    Ruling,
    /// Axes of a chart, 0.35 mm.
    Axis,
    /// Line of equal value of a chart, 0.35 mm.
    Level,
    /// Curve of a chart, 0.5 mm.
    Curve,
    /// Edge of an axonometric view, narrow since the view is small.
    Picture,
    /// Line to cut along on a paper template, 0.18 mm: thin enough to split with a knife.
    Template,
}

impl Pen {
    /// All pens in the order in which they are laid down.
    pub const ALL: [Pen; 20] = [
        Pen::Hatch,
        Pen::Thread,
        Pen::Hidden,
        Pen::Centre,
        Pen::Visible,
        Pen::Cut,
        Pen::Extension,
        Pen::Dimension,
        Pen::Leader,
        Pen::Control,
        Pen::Rule,
        Pen::Box,
        Pen::Frame,
        Pen::Grid,
        Pen::Ruling,
        Pen::Axis,
        Pen::Level,
        Pen::Curve,
        Pen::Picture,
        Pen::Template,
    ];

    /// Name of the group in the file.
    pub fn name(self) -> &'static str {
        match self {
            Pen::Hatch => "hatching",
            Pen::Thread => "thread-roots",
            Pen::Hidden => "hidden-edges",
            Pen::Centre => "centre-lines",
            Pen::Visible => "visible-edges",
            Pen::Cut => "cutting-line",
            Pen::Extension => "extension-lines",
            Pen::Dimension => "dimension-lines",
            Pen::Leader => "leaders",
            Pen::Control => "tolerance-frames",
            Pen::Rule => "rules",
            Pen::Box => "boxes",
            Pen::Frame => "frame",
            Pen::Grid => "grid",
            Pen::Ruling => "ruling",
            Pen::Axis => "axes",
            Pen::Level => "lines-of-equal-value",
            Pen::Curve => "curves",
            Pen::Picture => "axonometric-view",
            Pen::Template => "template",
        }
    }

    /// Width of the line \[mm\].
    pub fn width(self) -> f64 {
        match self {
            Pen::Visible | Pen::Cut | Pen::Box | Pen::Curve => WIDE,
            Pen::Frame => 0.7,
            Pen::Grid | Pen::Axis | Pen::Level | Pen::Control => 0.35,
            Pen::Ruling => 0.13,
            Pen::Template => 0.18,
            _ => NARROW,
        }
    }

    /// Dashes and gaps \[mm\]; empty for a continuous line. ISO 128-2: dash 12 d, long dash 24 d,
    /// gap 3 d, dot 0.5 d (from memory). Hidden and centre lines of small parts would hardly show a
    /// full period, so dashes are taken at half of that length, as is common practice.
    pub fn dashes(self) -> &'static [f64] {
        match self {
            Pen::Hidden => &[2.0, 0.75],
            Pen::Centre => &[6.0, 0.75, 0.5, 0.75],
            Pen::Cut => &[6.0, 1.5, 0.5, 1.5],
            _ => &[],
        }
    }
}
